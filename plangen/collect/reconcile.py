"""What to do with an attempt that a form reports, beside the attempts that the findings hold already."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import zip_longest
from typing import Literal, NamedTuple

from plangen.findings.model import Attempt, Typed
from plangen.findings.parse_reading import TypedNumber, as_printed, typed_answer, typed_number
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
    existing: Sequence[Attempt],
    new: Attempt,
    check: PlannedCheck | None,
    units: str = "metric",
    is_retest: bool = False,
) -> Action:
    """Return what to do so that nothing is written twice, nothing is overwritten and nothing is lost.

    What is said already isn't said again. What the same person adds on the same day fills the blanks of that
    attempt. What differs becomes an attempt beside the one that it differs from, unless it is of a later day
    or from a retest's sheet, which is the next attempt, dated or not.
    """
    expected = {one.id: Asked(one, units) for one in check.expect} if check is not None else {}
    filled = [(number, one) for number, one in enumerate(existing, start=1) if not _untouched(one)]
    alike = [(n, one) for n, one in filled if _same_day(one, new, is_retest)]
    saying = [(n, one) for n, one in alike if _says(one, new, expected)]
    if new.is_blank:
        saying = [(n, one) for n, one in saying if one.by == new.by]
    for number, one in saying:
        if new.by in (None, one.by) and new.when in (None, one.when):
            return Action("nothing", new, number)
    for number, one in saying:
        if one.by is None or new.by in (None, one.by):
            return Action("fill", new, number)
        return Action("nothing", new, number, confirms=new.by)
    for number, one in reversed(alike):
        mine = new.by == one.by and one.does_not_apply is None and not new.is_blank
        if mine and not _differing(one, new, expected) and _rest_fits(one, new):
            return Action("fill", new, number)
    blank_last = bool(existing) and _untouched(existing[-1])
    what: Literal["fill", "append"] = "fill" if blank_last else "append"
    at = len(existing) if blank_last else 0
    if not filled or new.is_blank:
        return Action(what, new, at)
    differing = [(number, names) for number, one in filled if (names := _differing(one, new, expected))]
    last, latest = filled[-1]
    beside, differs = differing[-1] if differing and differing[-1][0] == last else (last, ())
    if is_retest or (new.when and latest.when and new.when > latest.when):
        return Action(what, new, at)
    return Action(what, new.model_copy(update={"beside": beside}), at, differs)


def decide_after(
    earlier: int,
    existing: Sequence[Attempt],
    new: Attempt,
    check: PlannedCheck | None,
    units: str = "metric",
    is_retest: bool = False,
) -> Action:
    """Return what to do with an attempt that was made after so many others."""
    action = decide(existing[earlier:], new, check, units, is_retest)
    beside = action.attempt.beside
    return replace(
        action,
        at=action.at and action.at + earlier,
        attempt=action.attempt.model_copy(update={"beside": beside and beside + earlier}),
    )


class Asked(NamedTuple):
    """A reading as a plan asks for it: a bare number is in the unit that is printed beside it."""

    expectation: Expectation
    units: str

    def number(self, typed: Typed) -> TypedNumber:
        """Return the number that was typed."""
        unit = self.expectation.unit
        return typed_number(as_printed(typed, unit, self.units), unit)


def _untouched(attempt: Attempt) -> bool:
    return attempt.is_blank and not attempt.by and not attempt.when and not attempt.with_


def _says(one: Attempt, new: Attempt, asked: Mapping[str, Asked]) -> bool:
    """Tell whether an attempt says all that the new one says."""
    has = one.values
    return all(
        name in has and _covers(has[name], value, asked.get(name)) for name, value in new.values.items()
    ) and (
        (new.note is None or (one.note is not None and new.note in one.note))
        and set(new.photos) <= set(one.photos)
        and new.with_.items() <= one.with_.items()
    )


def _differing(one: Attempt, new: Attempt, asked: Mapping[str, Asked]) -> tuple[str, ...]:
    has = one.values
    return tuple(
        name
        for name, value in new.values.items()
        if name in has and _clash(has[name], value, asked.get(name))
    )


def _covers(has: Typed, value: Typed, asked: Asked | None) -> bool:
    """Tell whether a value says all that another one says; a blank point of a series says nothing."""
    return all(new is None or same(old, new, asked) for old, new in _points(has, value))


def _clash(has: Typed, value: Typed, asked: Asked | None) -> bool:
    return any(
        old is not None and new is not None and not same(old, new, asked) for old, new in _points(has, value)
    )


def _points(one: Typed, other: Typed) -> list[tuple[Typed, Typed]]:
    """Return the points of two series side by side, blanks as nothing; a single value is a series of one."""
    mine, theirs = (
        [None if v == "" else v for v in (x if isinstance(x, list) else [x])] for x in (one, other)
    )
    return list(zip_longest(mine, theirs))


def _rest_fits(one: Attempt, new: Attempt) -> bool:
    """Tell whether remark, photos and instruments of an attempt are blank, or say those of the new one already."""
    return (
        (new.note is None or one.note is None or new.note in one.note)
        and (not one.photos or set(new.photos) <= set(one.photos))
        and (not one.with_ or new.with_.items() <= one.with_.items())
    )


def _same_day(one: Attempt, new: Attempt, is_retest: bool) -> bool:
    """Tell whether two attempts may be of one day; what a retest's sheet says is never of an undated day before."""
    if is_retest:
        return one.when == new.when
    return one.when is None or new.when is None or one.when == new.when


def same(one: Typed, other: Typed, asked: Asked | None) -> bool:
    """Tell whether two typed values say the same: the same text, number or answer.

    >>> same("14.10", 14.1, None), same([28, None], [28], None)
    (False, True)
    """
    if isinstance(one, list) or isinstance(other, list):
        return all(same(a, b, asked) for a, b in _points(one, other))
    if one in (None, "") or other in (None, ""):
        return one in (None, "") and other in (None, "")
    if _words(one) == _words(other):
        return True
    if asked is None:
        return False
    if asked.expectation.numeric or asked.expectation.unit:
        mine, theirs = asked.number(one), asked.number(other)
        return (
            not (mine.fault or theirs.fault)
            and mine.about == theirs.about
            and all(
                _close(a, b)
                for a, b in (
                    (mine.number, theirs.number),
                    (mine.low, theirs.low),
                    (mine.high, theirs.high),
                )
            )
        )
    answer = typed_answer(one) if asked.expectation.text is not None else None
    return answer is not None and answer == typed_answer(other)


def _close(one: float | None, other: float | None) -> bool:
    if one is None or other is None:
        return one is other
    return math.isclose(one, other, rel_tol=1e-9)


def _words(value: Typed) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return " ".join(str(value).split()).casefold()
