"""Causes: what several snags on several hulls come from, and whether it was shown on a hull to be gone."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

from plangen.assess.model import Assessment, CheckVerdict
from plangen.series.model import Cause, LinkedSnag

_FAILING = ("fail", "leaning-fail")
_PASSING = ("pass", "leaning-pass", "recorded")
Standing = Literal["open", "proved", "not-proved"]


@dataclass
class ChecksOnHulls:
    """On which hulls a check is asked, a bit for each hull, and on which day it passed as each hull stands.

    A day is counted from the year 1; none is where it doesn't pass, and `NO_DAY` where nobody wrote the day.
    """

    asked: int = 0
    passed_on: dict[int, int] = field(default_factory=dict)

    def ask(self, hull: int, passed_on: int | None) -> None:
        """Note a hull on which the check is asked, and the day on which it passed."""
        self.asked |= 1 << hull
        if passed_on is not None:
            self.passed_on[hull] = passed_on


#: The day of a reading that has none.
NO_DAY = 0


@dataclass
class _Linked:
    """What is known of one cause so far; `found_on` is the last day on which each hull showed it."""

    text: str = ""
    snags: list[LinkedSnag] = field(default_factory=list)
    checks: dict[str, None] = field(default_factory=dict)
    claims: dict[str, None] = field(default_factory=dict)
    found_on: dict[str, int] = field(default_factory=dict)


class CauseBook:
    """The causes that the snags of the hulls added so far name."""

    def __init__(self) -> None:
        self._causes: dict[str, _Linked] = {}

    def add(self, assessment: Assessment) -> None:
        """Add the snags of a hull that name a cause."""
        beside = {check.id for check in assessment.also_found}
        checks = {check.id: check for check in (*assessment.checks, *assessment.gone, *assessment.also_found)}
        for snag in assessment.snags:
            if snag.cause is None:
                continue
            linked = self._causes.setdefault(snag.cause, _Linked())
            linked.text = linked.text or snag.cause_text or ""
            linked.snags.append(LinkedSnag(assessment.boat, snag.check, snag.title, snag.state))
            if snag.check not in beside:
                linked.checks[snag.check] = None
            if snag.proved_on:
                linked.claims[snag.proved_on] = None
            found = _day_of_fail(checks[snag.check], assessment) if snag.check in checks else NO_DAY
            linked.found_on[assessment.boat] = max(found, linked.found_on.get(assessment.boat, NO_DAY))

    def causes(self, hulls: Sequence[str], checks: Mapping[str, ChecksOnHulls]) -> tuple[Cause, ...]:
        """Return each cause with its snags, those that are not proved gone first."""
        places = {_folded(name): number for number, name in enumerate(hulls)}
        found = [_judged(id, linked, places, hulls, checks) for id, linked in self._causes.items()]
        return tuple(
            sorted(found, key=lambda cause: (cause.standing == "proved", -len(cause.snags), cause.id))
        )


def _judged(
    id: str,
    linked: _Linked,
    places: Mapping[str, int],
    hulls: Sequence[str],
    checks: Mapping[str, ChecksOnHulls],
) -> Cause:
    claimed: str | None = None
    standing: Standing = "open"
    why = "no hull is named on which it was proved gone (proved_on)"
    for claim in linked.claims:
        claimed = claim
        number = places.get(_folded(claim))
        if number is None:
            standing, why = "not-proved", f"{claim} isn't among these hulls"
        else:
            standing, why = _proof(hulls[number], number, linked, checks)
        if standing == "proved":
            break
    return Cause(id, linked.text, tuple(linked.snags), claimed, standing, why)


def _proof(
    hull: str, number: int, linked: _Linked, checks: Mapping[str, ChecksOnHulls]
) -> tuple[Standing, str]:
    """Tell whether a hull proves a cause gone: all that it made fail passes on her, and it wasn't found anywhere after that."""
    still = [snag for snag in linked.snags if snag.hull == hull and snag.state in ("open", "disputed")]
    if still:
        return "not-proved", f"its snag is still open on {hull}: {still[0].title}"
    asked = [id for id in linked.checks if id in checks and checks[id].asked >> number & 1]
    if not asked:
        return "not-proved", f"none of its checks is in the plan of {hull}"
    failing = [id for id in asked if number not in checks[id].passed_on]
    if failing:
        return "not-proved", f"{failing[0]} doesn't pass on {hull} yet"
    proved = min(checks[id].passed_on[number] for id in asked)
    elsewhere = {name: day for name, day in linked.found_on.items() if name != hull}
    last = max(elsewhere, key=lambda name: elsewhere[name], default=None)
    if last is not None:
        if NO_DAY in (proved, *elsewhere.values()):
            return "not-proved", f"no day shows that {hull} was read after it was found on {last}"
        if elsewhere[last] > proved:
            return "not-proved", f"it was found on {last} after {hull} had passed"
    return "proved", f"passes on {hull}: {', '.join(asked)}"


def day_number(written: str | None, otherwise: str | None) -> int:
    """Return a day as a number, that of the reading or of the trial; `NO_DAY` where nobody wrote one."""
    day = written or otherwise
    return datetime.date.fromisoformat(day).toordinal() if day else NO_DAY


def _day_of_fail(check: CheckVerdict, assessment: Assessment) -> int:
    trial = assessment.vessel.trial_date if assessment.vessel else None
    days = [attempt.when for attempt in check.attempts if attempt.verdict in _FAILING]
    return day_number(days[-1] if days else None, trial)


def passes(verdict: str) -> bool:
    """Tell whether a verdict counts as passed."""
    return verdict in _PASSING


def _folded(name: str) -> str:
    return " ".join(name.casefold().split())
