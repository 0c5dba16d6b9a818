"""What a survey recommends, the most urgent first, numbered."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal, get_args

from plangen.assess.model import CheckVerdict, Recommendation, Snag
from plangen.findings.model import Settlement
from plangen.plan.house import House, Urgency

#: From the most to the least urgent.
URGENCIES: tuple[Urgency, ...] = get_args(Urgency)
#: The urgency that a grade has, where the surveyor names none.
_OF_GRADE: Mapping[str, Urgency] = {
    "stop": "before-use",
    "before-handover": "before-cover",
    "by-date": "next-haul-out",
    "remark": "monitor",
}
#: Verdicts that were reached and say nothing yet.
_UNDECIDED = ("unclear", "limited", "leaning-pass")
_STANDING = ("open", "disputed")


def recommendations_of(
    snags: Sequence[Snag],
    checks: Sequence[CheckVerdict],
    settled: Mapping[str, Settlement],
    house: House | None,
) -> tuple[Recommendation, ...]:
    """Return what is to be put right, what is to be looked at further, and the house's own recommendations.

    A snag that is mended or accepted as it is asks for nothing more. The house's words that name rules count where a
    check of one of these failed.
    """
    found = [
        _made(_urgency(snag.grade, settled.get(snag.check)), "put-right", snag.item, snag.check, snag.number)
        for snag in snags
        if snag.state in _STANDING
    ]
    taken = {one.check for one in found}
    found += [
        _made(_urgency(check.grade, settled.get(check.id)), "look-further", check.item, check.id)
        for check in checks
        if check.verdict in _UNDECIDED and check.id not in taken
    ]
    failed = {snag.check.partition("@")[0] for snag in snags if snag.state in _STANDING}
    for own in house.recommendations if house else ():
        if not own.rules or failed & set(own.rules):
            found.append(_made(own.urgency, "house", words=own.words))
    ordered = sorted(found, key=lambda one: URGENCIES.index(one.urgency))
    return tuple(one.model_copy(update={"number": number}) for number, one in enumerate(ordered, start=1))


def _made(
    urgency: Urgency,
    do: Literal["put-right", "look-further", "house"],
    item: str = "",
    check: str | None = None,
    snag: int | None = None,
    words: str = "",
) -> Recommendation:
    return Recommendation(number=0, urgency=urgency, do=do, item=item, check=check, snag=snag, words=words)


def _urgency(grade: str, settled: Settlement | None) -> Urgency:
    own = settled.urgency if settled is not None else None
    return own or _OF_GRADE[grade]


def survey_line(recommendations: Sequence[Recommendation], not_done: int, deciding: int) -> str:
    """Say in one line how much is urgent, and how much of what decides wasn't examined.

    >>> survey_line([], 0, 12)
    'No recommendation is urgent: none has to be met before use or before cover. All 12 checks of the gravest grades were made.'
    """
    before_use = sum(one.urgency == "before-use" for one in recommendations)
    before_cover = sum(one.urgency == "before-cover" for one in recommendations)
    parts = [
        f"{number} before {word}" for number, word in ((before_use, "use"), (before_cover, "cover")) if number
    ]
    line = (
        f"Urgent: {before_use + before_cover} recommendation{'s' if before_use + before_cover != 1 else ''}, {' and '.join(parts)}."
        if parts
        else "No recommendation is urgent: none has to be met before use or before cover."
    )
    if not_done:
        return f"{line} {not_done} of {deciding} checks of the gravest grades weren't made."
    return f"{line} All {deciding} checks of the gravest grades were made."
