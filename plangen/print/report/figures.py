"""Charts of what was expected against what was found, in the units in which the plan is shown."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from plangen.assess.model import CheckVerdict, DerivedFigure, PointVerdict, ReadingVerdict
from plangen.print.charts import Chart, ChartPoint, chart_svg
from plangen.print.report.wording import shown_unit
from plangen.spec.quantity import convert_number


@dataclass(frozen=True)
class Figure:
    """A chart with the words above it."""

    title: str
    subtitle: str
    svg: Markup


def figures_of(
    checks: Sequence[CheckVerdict], derived: Sequence[DerivedFigure], units: str
) -> tuple[Figure, ...]:
    """Return a chart for each series that was read and each that was worked out.

    What was only written down, and is worked into a figure that has a chart, has none of its own.
    """
    worked_from = {id for figure in derived if has_chart(figure) for id in figure.checks}
    read = [
        _figure(check, reading, units)
        for check in checks
        for attempt in check.attempts[-1:]
        for reading in attempt.readings
        if any(point.found is not None for point in reading.points)
        and (check.id not in worked_from or any(_is_limited(point) for point in reading.points))
    ]
    worked_out = [
        _drawn_points(figure.title, f"{figure.item}, worked out", figure.unit, figure.point_unit, points, units)
        for figure in derived
        if has_chart(figure) and (points := figure.points or _bare(figure))
    ]  # fmt: skip
    return (*read, *worked_out)


def has_chart(figure: DerivedFigure) -> bool:
    """Tell whether what was worked out is a curve: of more than two points."""
    return len(figure.points or figure.values) > 2


def _is_limited(point: PointVerdict) -> bool:
    return (point.low, point.value, point.high) != (None, None, None)


def _figure(check: CheckVerdict, reading: ReadingVerdict, units: str) -> Figure:
    subtitle = f"{check.item}: {reading.reading}"
    return _drawn_points(check.title, subtitle, reading.unit, reading.series_unit, reading.points, units)


def _drawn_points(
    title: str, subtitle: str, unit: str, point_unit: str, points: Sequence[PointVerdict], units: str
) -> Figure:
    """Draw points in the units in which the plan is shown."""
    up, across = shown_unit(unit, units), shown_unit(point_unit, units)

    def height(value: float | None) -> float | None:
        return None if value is None else convert_number(value, unit, up)

    drawn = tuple(
        ChartPoint(
            round(convert_number(point.point, point_unit, across), 1),
            height(point.found),
            height(point.low),
            height(point.value),
            height(point.high),
            point.verdict,
        )
        for point in points
    )
    return Figure(title, subtitle, chart_svg(Chart(title, subtitle, across, up.removeprefix("Δ"), drawn)))


def _bare(figure: DerivedFigure) -> tuple[PointVerdict, ...]:
    return tuple(PointVerdict(point=at, found=value, verdict="recorded") for at, value in figure.values)
