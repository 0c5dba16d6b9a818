"""Limits that the instrument can't decide on a given boat: what a pack's own check can't see, since they depend on her."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from pint.errors import PintError

from plangen.formulas.uncertainty import expanded_uncertainty, uncertainty_ratio
from plangen.packs.library import Library
from plangen.packs.model import Instrument
from plangen.packs.uncertainty_ratio import LEAST_RATIO, error_limit
from plangen.plan.draft import Draft
from plangen.plan.drafted import DraftedCheck
from plangen.plan.model import Expectation
from plangen.spec.explain import key_text
from plangen.spec.problems import Problem

#: Units in which a reading can't lie below zero, so that a limit near zero leaves no room for the instrument.
_SIGNED = ("°C", "K", "°", "mV", "mA", "%", "kn")


@dataclass(frozen=True)
class _Row:
    """The two limits of a reading, or of one point of a series."""

    low: float | None
    high: float | None


def undecidable(drafts: Iterable[Draft], library: Library) -> list[Problem]:
    """Return a problem for each reading whose limits on some boat lie within its instrument's own uncertainty."""
    found: dict[tuple[str, str], Problem] = {}
    for draft in drafts:
        for one in draft.checks:
            for expected in one.check.expect:
                key = (one.rule.id, expected.id)
                if key not in found and (why := _why(expected, library)):
                    found[key] = _problem(one, expected, f"{why} on {draft.plan.boat.name}", library)
    return list(found.values())


def _why(expected: Expectation, library: Library) -> str | None:
    instrument = library.instruments.get(expected.instrument or "")
    if instrument is None or expected.condition:
        return None
    try:
        if any(_fails(row, expected.unit, instrument) for row in _rows(expected)):
            return f"{expected.instrument} can't decide {expected.shown}"
    except PintError:
        return None  # read in another quantity than the limit's, and converted by hand
    return None


def _rows(expected: Expectation) -> Iterator[_Row]:
    if expected.series:
        yield from (_Row(row.low, row.high) for row in expected.series)
    elif expected.low is not None or expected.high is not None:
        yield _Row(expected.low, expected.high)


def _fails(row: _Row, unit: str, instrument: Instrument) -> bool:
    if row.high is None:
        return False
    error = error_limit(instrument, row.high if row.low is None else max(abs(row.low), abs(row.high)), unit)
    if not error:
        return False
    if row.low is not None:
        return row.high <= row.low or uncertainty_ratio(row.low, row.high, error) < LEAST_RATIO
    at_zero = error_limit(instrument, 0.0, unit)
    return unit not in _SIGNED and at_zero is not None and row.high < expanded_uncertainty(at_zero)


def _problem(one: DraftedCheck, expected: Expectation, found: str, library: Library) -> Problem:
    pack = library.rules[one.place[0]]
    ids = [reading.id for reading in one.rule.expect]
    path = ("checks", one.place[1], "expect", ids.index(expected.id))
    return Problem(
        pack.mark_of(path),
        key_text(path),
        found,
        "a better instrument, a wider limit, or words that an eye can decide",
    )
