"""The readings of many hulls, held as columns of numbers so that hundreds of hulls take little room."""

from __future__ import annotations

from array import array
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from math import isnan, nan
from typing import Literal

from plangen.assess.model import Assessment, CheckVerdict, DerivedFigure, ReadingVerdict
from plangen.series.model import ReadingSpread, SeriesReading
from plangen.series.statistics import outliers, spread_of
from plangen.spec.quantity import number_text

_LEFT_OUT = ("limited", "met", "not-met", "not-recorded")
_LIMITS: tuple[Literal["aim", "low", "high"], ...] = ("aim", "low", "high")


@dataclass
class _Column:
    """One reading of one check over hulls; what isn't there is no number."""

    title: str
    item: str
    words: str
    hulls: array[int] = field(default_factory=lambda: array("L"))
    value: array[float] = field(default_factory=lambda: array("d"))
    low: array[float] = field(default_factory=lambda: array("d"))
    aim: array[float] = field(default_factory=lambda: array("d"))
    high: array[float] = field(default_factory=lambda: array("d"))
    uncertainty: array[float] = field(default_factory=lambda: array("d"))

    def add(self, hull: int, value: float, *more: float | None) -> None:
        """Add a hull's reading with its limits and its uncertainty."""
        self.hulls.append(hull)
        self.value.append(value)
        for column, number in zip((self.low, self.aim, self.high, self.uncertainty), more, strict=True):
            column.append(nan if number is None else number)

    def against(self) -> Literal["", "aim", "low", "high"]:
        """Return from which limit the readings are reckoned where it isn't the same on every hull."""
        for name in _LIMITS:
            column = getattr(self, name)
            if not any(isnan(number) for number in column):
                return "" if len(set(column)) == 1 else name
        return ""


class ReadingColumns:
    """Every numeric reading of the hulls added so far, each hull's as she stands: her last attempt."""

    def __init__(self) -> None:
        self._columns: dict[tuple[str, str, str], _Column] = {}

    def add(self, hull: int, assessment: Assessment) -> None:
        """Add the readings of a hull."""
        for check in assessment.checks:
            for reading in _last_readings(check):
                self._add_reading(hull, check, reading)
        for figure in assessment.derived:
            if figure.reading is None:
                self._add_figure(hull, figure)

    def _add_reading(self, hull: int, check: CheckVerdict, reading: ReadingVerdict) -> None:
        if reading.value is not None:
            column = self._column(
                check.id, reading.id, reading.unit, check.title, check.item, reading.reading
            )
            column.add(hull, reading.value, reading.low, reading.aim, reading.high, reading.uncertainty)
        for point in reading.points:
            if point.found is None:
                continue
            at = f"{number_text(point.point)} {reading.series_unit}".strip()
            words = f"{reading.reading} at {at}"
            column = self._column(
                check.id, f"{reading.id} at {at}", reading.unit, check.title, check.item, words
            )
            column.add(hull, point.found, point.low, point.value, point.high, point.uncertainty)

    def _add_figure(self, hull: int, figure: DerivedFigure) -> None:
        if figure.value is not None:
            check = figure.checks[0] if figure.checks else ""
            column = self._column(check, figure.id, figure.unit, "", figure.item, figure.title)
            column.add(hull, figure.value, None, None, None, figure.uncertainty)

    def _column(self, check: str, reading: str, unit: str, title: str, item: str, words: str) -> _Column:
        return self._columns.setdefault((check, reading, unit), _Column(title, item, words))

    def spreads(self, names: Sequence[str]) -> Iterator[ReadingSpread]:
        """Yield how each reading spreads, in the order in which they were first met."""
        for (check, reading, unit), column in self._columns.items():
            against = column.against()
            reckoned = (
                [value - limit for value, limit in zip(column.value, getattr(column, against), strict=True)]
                if against
                else column.value.tolist()
            )
            known = [number for number in column.uncertainty if not isnan(number)]
            apart = set(outliers(reckoned, max(*known, _step(column.value), 0.0)))
            yield ReadingSpread(
                check=check,
                reading=reading,
                title=column.title,
                item=column.item,
                words=column.words,
                unit=unit,
                readings=tuple(
                    SeriesReading(
                        names[hull],
                        column.value[n],
                        _given(column.low[n]),
                        _given(column.aim[n]),
                        _given(column.high[n]),
                        n in apart,
                    )
                    for n, hull in enumerate(column.hulls)
                ),
                spread=spread_of(reckoned),
                against=against,
            )


def _step(values: Iterable[float]) -> float:
    """Return the last digit in which the readings were written down: what differs by it alone was rounded otherwise.

    >>> _step([3.0, 4.0]), _step([12.5, 12.75])
    (1.0, 0.01)
    """
    decimals = (f"{value:.10g}".partition(".")[2] for value in values)
    return float(10.0 ** -max((len(digits) for digits in decimals if "e" not in digits), default=0))


def _given(number: float) -> float | None:
    return None if isnan(number) else number


def _last_readings(check: CheckVerdict) -> Iterator[ReadingVerdict]:
    """Yield what the last attempt found for each reading that counts; a reading that it left out, of the one before."""
    seen: set[str] = set()
    for attempt in reversed(check.attempts):
        for reading in attempt.readings:
            numbers = reading.value is not None or any(point.found is not None for point in reading.points)
            counts = numbers and reading.asked and reading.verdict not in _LEFT_OUT
            if counts and reading.id not in seen:
                seen.add(reading.id)
                yield reading
