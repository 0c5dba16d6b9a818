"""Finding the readings of a figure among the checks that were judged."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import hypot

from plangen.assess.derived.data import SINGLE, Point
from plangen.assess.model import CheckVerdict, ReadingVerdict
from plangen.findings.parse_reading import typed_number
from plangen.packs.figures import FIGURES
from plangen.plan.model import PlannedFigure, ReadingPlace
from plangen.spec.quantity import convert_number, is_unit_label


@dataclass(frozen=True)
class Found:
    """A reading's values by point with their expanded uncertainties, the unit, and that of the points."""

    values: Mapping[Point, float]
    uncertainties: Mapping[Point, float | None]
    unit: str
    point_unit: str = ""

    def converted(self, label: str, point_label: str) -> Found:
        """Return the same in another unit, the points as well."""
        if not (is_unit_label(self.unit) and is_unit_label(label)):
            return self

        def point_of(point: Point) -> Point:
            known = point is not None and is_unit_label(self.point_unit) and is_unit_label(point_label)
            return (
                convert_number(point, self.point_unit, point_label) if known and point is not None else point
            )

        def width(point: Point, uncertainty: float | None) -> float | None:
            if uncertainty is None:
                return None
            value = self.values[point]
            moved = convert_number(value + uncertainty, self.unit, label)
            return abs(moved - convert_number(value, self.unit, label))

        return Found(
            {point_of(p): convert_number(value, self.unit, label) for p, value in self.values.items()},
            {point_of(p): width(p, uncertainty) for p, uncertainty in self.uncertainties.items()},
            label,
            point_label,
        )


def last_reading(check: CheckVerdict, id: str) -> ReadingVerdict | None:
    """Return what the last attempt at a check found for a reading."""
    readings = check.attempts[-1].readings if check.attempts else ()
    return next((reading for reading in readings if reading.id == id), None)


def typed_values(reading: ReadingVerdict) -> Found | None:
    """Return the numbers that were typed for a reading; nothing where there are none."""
    if reading.points:
        points = [point for point in reading.points if point.found is not None]
        values: dict[Point, float] = {p.point: p.found for p in points if p.found is not None}
        if not values:
            return None
        return Found(values, {p.point: p.uncertainty for p in points}, reading.unit, reading.series_unit)
    number = reading.value
    if number is None and reading.found:
        typed = typed_number(reading.found, reading.unit)
        number = typed.number if typed.is_single else None
    if number is None:
        return None
    return Found({SINGLE: number}, {SINGLE: reading.uncertainty}, reading.unit)


def places(figure: PlannedFigure) -> Iterable[ReadingPlace]:
    """Return every reading that a figure looks at."""
    return (place for several in figure.readings.values() for place in several)


def combined(parts: list[Found], figure: PlannedFigure, role: str) -> Found | None:
    """Return one reading out of several: their sum for a role that is summed, at the points that all have."""
    kind = FIGURES[figure.figure]
    wanted = [part.converted(kind.readings[role].unit, kind.points or "") for part in parts]
    first, *others = wanted
    if not others:
        return first
    if not kind.readings[role].summed:
        return None
    common = [point for point in first.values if all(point in part.values for part in others)]
    if not common:
        return None
    return Found(
        {point: sum(part.values[point] for part in wanted) for point in common},
        {point: _together([part.uncertainties[point] for part in wanted]) for point in common},
        first.unit,
        first.point_unit,
    )


def _together(uncertainties: list[float | None]) -> float | None:
    known = [one for one in uncertainties if one is not None]
    return hypot(*known) if len(known) == len(uncertainties) else None
