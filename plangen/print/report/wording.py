"""Readings and figures in words, in the units in which the plan is shown; what should be and what was found, as facts."""

from __future__ import annotations

import re
from dataclasses import dataclass

from plangen.assess.model import DerivedFigure, PointVerdict, ReadingVerdict
from plangen.findings.parse_reading import typed_answer
from plangen.spec.quantity import convert_number, is_unit_label, number_text, us_label

BAD = ("fail", "leaning-fail")
CLOSE = ("leaning-pass", "leaning-fail", "unclear", "limited")
_DATE_WANTED = "not before the trial"


@dataclass(frozen=True)
class Fact:
    """What a reading should be and what it was, each so that it can be read without the other."""

    should: str
    found: str


def fact_of(reading: ReadingVerdict, units: str) -> Fact:
    """Return what a reading should be and what was found, the fact itself and never the title of what is good.

    >>> from plangen.plan.model import Cited
    >>> leak = ReadingVerdict(id="a", reading="hose free of leaks", expected="yes", found="n", verdict="fail", source=Cited(id="x"))
    >>> fact_of(leak, "metric")
    Fact(should='hose free of leaks', found='no')
    >>> fact_of(leak.model_copy(update={"found": "no: clamp", "bad_parts": ("clamp",)}), "metric").found
    'no: clamp'
    >>> fact_of(leak.model_copy(update={"reading": "pressure", "expected": "≥ 2 bar", "found": "1.2 bar"}), "metric")
    Fact(should='pressure ≥ 2 bar', found='1.2 bar')
    """
    if reading.points:
        return _points(reading, units)
    wanted = reading.expected.casefold()
    found = found_text(reading, units) or "–"
    if wanted in ("yes", "no"):
        should = reading.reading if wanted == "yes" else f"{reading.reading}: no"
        if reading.bad_parts:
            return Fact(should, f"no: {', '.join(reading.bad_parts)}")
        answer = typed_answer(reading.found)
        return Fact(should, found if answer is None else "yes" if answer else "no")
    if _DATE_WANTED in wanted:
        return Fact(f"{reading.reading} {_DATE_WANTED}", found)
    return Fact(f"{reading.reading} {reading.expected}", found)


def _points(reading: ReadingVerdict, units: str) -> Fact:
    """Return the points of a series that are bad; all of them where none is."""
    unit, across = shown_unit(reading.unit, units), shown_unit(reading.series_unit, units)
    points = [one for one in reading.points if one.verdict in BAD] or list(reading.points)

    def at(point: PointVerdict) -> str:
        return f"at {number_text(convert_number(point.point, reading.series_unit, across))} {across}".strip()

    def value(number: float | None) -> str:
        return "–" if number is None else number_text(convert_number(number, reading.unit, unit))

    def limits(point: PointVerdict) -> str:
        if point.low is not None and point.high is not None:
            return f"{value(point.low)} to {value(point.high)}"
        return (
            f"≥ {value(point.low)}"
            if point.low is not None
            else f"≤ {value(point.high)}"
            if point.high is not None
            else "–"
        )

    label = unit.removeprefix("Δ")
    should = "; ".join(f"{at(point)} {limits(point)}" for point in points)
    found = "; ".join(f"{at(point)} {value(point.found)}" for point in points)
    return Fact(f"{reading.reading}: {should} {label}".strip(), f"{found} {label}".strip())


def found_text(reading: ReadingVerdict, units: str) -> str:
    """Write what was found as it was typed, and beside it in the unit in which the plan is shown."""
    unit = shown_unit(reading.unit, units)
    label = unit.removeprefix("Δ")
    if reading.value is None or not is_unit_label(unit) or label.casefold() in reading.found.casefold():
        return reading.found
    return f"{reading.found} [{number_text(convert_number(reading.value, reading.unit, unit))} {label}]"


def spread_text(reading: ReadingVerdict, units: str) -> str:
    """Write the uncertainty of a reading in the unit in which the plan is shown."""
    return "" if reading.uncertainty is None else _difference(reading.uncertainty, reading.unit, units)


def deciding_text(reading: ReadingVerdict, units: str) -> str:
    """Write the accuracy that would decide a reading in the unit in which the plan is shown."""
    text = reading.deciding_accuracy or ""
    amount = re.fullmatch(r"± ([0-9.]+)( .*)?", text)
    return _difference(float(amount[1]), reading.unit, units) if amount else text


def _difference(amount: float, unit: str, units: str) -> str:
    shown = shown_unit(unit, units)
    converted = abs(convert_number(amount, unit, shown) - convert_number(0.0, unit, shown))
    return f"± {number_text(converted)} {shown.removeprefix('Δ')}".strip()


def figure_text(figure: DerivedFigure, units: str) -> str:
    """Write a figure, or each of its values by point, in the units in which the plan is shown."""
    unit, across = shown_unit(figure.unit, units), shown_unit(figure.point_unit, units)

    def written(value: float) -> str:
        return number_text(convert_number(value, figure.unit, unit))

    label = unit.removeprefix("Δ")
    if figure.value is not None:
        return f"{written(figure.value)} {label}".strip()
    parts = [
        f"{number_text(convert_number(at, figure.point_unit, across))}: {written(value)}"
        for at, value in figure.values
    ]
    return f"{'; '.join(parts)} {label}".strip()


def shown_unit(label: str, units: str) -> str:
    """Return the unit in which a value of a unit is shown."""
    return us_label(label) if units == "us" and is_unit_label(label) else label
