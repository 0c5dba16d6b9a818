"""What to do with an attempt that a form reports, beside the attempts that the findings hold already."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import zip_longest
from typing import Literal

from plangen.findings.model import Attempt, Typed
from plangen.findings.typed import typed_answer, typed_number
from plangen.plan.model import Expectation, PlannedCheck


@dataclass(frozen=True)
class Action:
    """Leave all as it is, fill what is blank in an attempt, or add an attempt; attempts count from 1."""

    what: Literal["nothing", "fill", "append"]
    attempt: Attempt
    at: int = 0
    differs: tuple[str, ...] = ()
    confirms: str | None = field(default=None)


def decide(
    existing: Sequence[Attempt], new: Attempt, check: PlannedCheck | None, is_retest: bool = False
) -> Action:
    """Return what to do so that nothing is written twice, nothing is overwritten and nothing is lost.

    What is said already isn't said again. What the same person adds on the same day fills the blanks of that
    attempt. What differs becomes an attempt beside the one that it differs from, unless it is of a later day
    or from a retest's sheet.
    """
    expected = {one.reading: one for one in check.expect} if check is not None else {}
    filled = [(number, one) for number, one in enumerate(existing, start=1) if not _untouched(one)]
    for number, one in filled:
        if _says(one, new, expected) and _same_day(one, new):
            if new.by and one.by and new.by != one.by:
                return Action("nothing", new, number, confirms=new.by)
            if (new.by and not one.by) or (new.when and not one.when):
                return Action("fill", new, number)
            return Action("nothing", new, number)
    for number, one in reversed(filled):
        mine = new.by == one.by and _same_day(one, new) and one.does_not_apply is None
        if mine and not _differing(one, new, expected) and _note_fits(one, new):
            return Action("fill", new, number)
    blank_last = bool(existing) and _untouched(existing[-1])
    what: Literal["fill", "append"] = "fill" if blank_last else "append"
    at = len(existing) if blank_last else 0
    if not filled:
        return Action(what, new, at)
    differing = [(number, names) for number, one in filled if (names := _differing(one, new, expected))]
    last, latest = filled[-1]
    beside, differs = differing[-1] if differing and differing[-1][0] == last else (last, ())
    if (is_retest and latest.when is None) or (new.when and latest.when and new.when > latest.when):
        return Action(what, new, at)
    return Action(what, new.model_copy(update={"beside": beside}), at, differs)


def _untouched(attempt: Attempt) -> bool:
    return attempt.is_blank and not attempt.by and not attempt.when and not attempt.with_


def _says(one: Attempt, new: Attempt, expected: Mapping[str, Expectation]) -> bool:
    """Tell whether an attempt says all that the new one says."""
    has = one.values
    return all(
        name in has and _covers(has[name], value, expected.get(name)) for name, value in new.values.items()
    ) and (new.note is None or (one.note is not None and new.note in one.note))


def _differing(one: Attempt, new: Attempt, expected: Mapping[str, Expectation]) -> tuple[str, ...]:
    has = one.values
    return tuple(
        name
        for name, value in new.values.items()
        if name in has and _clash(has[name], value, expected.get(name))
    )


def _covers(has: Typed, value: Typed, expected: Expectation | None) -> bool:
    """Tell whether a value says all that another one says; a blank point of a series says nothing."""
    return all(new is None or same(old, new, expected) for old, new in _points(has, value))


def _clash(has: Typed, value: Typed, expected: Expectation | None) -> bool:
    return any(
        old is not None and new is not None and not same(old, new, expected)
        for old, new in _points(has, value)
    )


def _points(one: Typed, other: Typed) -> list[tuple[Typed, Typed]]:
    """Return the points of two series side by side, blanks as nothing; a single value is a series of one."""
    mine, theirs = (
        [None if v == "" else v for v in (x if isinstance(x, list) else [x])] for x in (one, other)
    )
    return list(zip_longest(mine, theirs))


def _note_fits(one: Attempt, new: Attempt) -> bool:
    return new.note is None or one.note is None or new.note in one.note


def _same_day(one: Attempt, new: Attempt) -> bool:
    return one.when is None or new.when is None or one.when == new.when


def same(one: Typed, other: Typed, expected: Expectation | None) -> bool:
    """Tell whether two typed values say the same: the same text, number or answer.

    >>> same("14.10", 14.1, None), same([28, None], [28], None)
    (False, True)
    """
    if isinstance(one, list) or isinstance(other, list):
        return all(same(a, b, expected) for a, b in _points(one, other))
    if one in (None, "") or other in (None, ""):
        return one in (None, "") and other in (None, "")
    if _words(one) == _words(other):
        return True
    if expected is None:
        return False
    if expected.numeric:
        mine_read, their_read = typed_number(one, expected.unit), typed_number(other, expected.unit)
        return (
            mine_read.number is not None
            and their_read.number is not None
            and mine_read.about == their_read.about
            and math.isclose(mine_read.number, their_read.number, rel_tol=1e-9)
        )
    answer = typed_answer(one) if expected.text is not None else None
    return answer is not None and answer == typed_answer(other)


def _words(value: Typed) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return " ".join(str(value).split()).casefold()
