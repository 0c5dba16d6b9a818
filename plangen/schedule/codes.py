"""The short names of readings on paper: number of the round, line in the round, letter of the reading."""

from __future__ import annotations

from collections.abc import Sequence

from plangen.plan.day import Round
from plangen.plan.model import PlannedCheck


def letter(index: int) -> str:
    """Return the letter of the reading at an index.

    >>> letter(0), letter(25), letter(26)
    ('a', 'z', 'aa')
    """
    text = ""
    index += 1
    while index:
        index, place = divmod(index - 1, 26)
        text = chr(ord("a") + place) + text
    return text


def with_codes(checks: Sequence[PlannedCheck], rounds: Sequence[Round]) -> tuple[PlannedCheck, ...]:
    """Return the checks in the order of the rounds, each with its code and those of its readings.

    A reading that is alone in its line has the line's code, others have a letter each.
    """
    by_id = {check.id: check for check in checks}
    coded = []
    for one in rounds:
        for line, id in enumerate(one.checks, start=1):
            check, code = by_id[id], f"{one.number}.{line}"
            alone = len(check.expect) == 1
            expect = tuple(
                expected.model_copy(update={"code": code if alone else code + letter(index)})
                for index, expected in enumerate(check.expect)
            )
            coded.append(check.model_copy(update={"code": code, "expect": expect}))
    return tuple(coded)
