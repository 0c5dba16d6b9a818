"""A reading as the field page has it: what is asked, what is good, and all that decides its verdict."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from plangen.findings.parse_reading import printed_label
from plangen.plan.format import decimals_of, unit_words
from plangen.plan.model import Expectation, SeriesPoint
from plangen.print.words import BASIS_WORD


def reading_data(expected: Expectation, words: str, units: str) -> dict[str, Any]:
    """Return a reading as plain values, empty ones left out."""
    printed = printed_label(expected.unit, units)
    return without_blanks(
        {
            "id": expected.id,
            "code": expected.code,
            "words": words,
            "good": expected.shown,
            "basis": "" if expected.record else BASIS_WORD.get(expected.basis, expected.basis),
            "unit": expected.unit,
            "printed": printed if printed != expected.unit else "",
            "low": expected.low,
            "high": expected.high,
            "text": expected.text,
            "record": expected.record,
            "parts": list(expected.parts),
            "condition": expected.condition,
            "validIf": list(expected.valid_if),
            "oneOf": expected.one_of,
            "way": expected.way,
            "anyPoint": expected.any_point,
            "series": [_point(point, expected.series_unit) for point in expected.series],
            "instrument": expected.instrument,
            "note": expected.note,
            "source": _source(expected),
        }
    )


def _point(point: SeriesPoint, unit: str) -> dict[str, Any]:
    at = f"{point.point:.{decimals_of(point.point)}f} {unit_words(unit, point.point)}".strip()
    return without_blanks({"at": at, "good": point.shown, "low": point.low, "high": point.high})


def _source(expected: Expectation) -> list[str] | None:
    source = expected.source
    if source.id in ("common-practice", "from-memory"):
        return None
    return [source.id, source.clause] if source.clause else [source.id]


def without_blanks(values: Mapping[str, Any]) -> dict[str, Any]:
    """Return the values that say something; nought does."""
    return {
        key: value
        for key, value in values.items()
        if not (value is None or value is False or value == "" or value == [])
    }
