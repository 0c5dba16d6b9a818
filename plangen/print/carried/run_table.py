"""A run over steps: a row for each step with its boxes, and beside it the curve that is expected, to plot upon."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup, escape

from plangen.print.carried.answers import BOX, CODE, GAP, LINE, PAD
from plangen.print.carried.lines import Cell, Line, Point
from plangen.print.carried.page import WIDTH
from plangen.print.carried.text_width import lines_of, width_of
from plangen.print.charts import ticks

#: Steps from which a curve can be seen, and the least width of a chart that can be plotted upon.
_FEWEST_STEPS, _NARROWEST = 5, 45.0
#: The height of a step's row in millimetres.
ROW = 9.0
_TEXT = 'font-family="\'Plan Sans\', sans-serif" fill="#000"'
_SIZE = 10 * 25.4 / 72


@dataclass(frozen=True)
class RunColumn:
    """One series of the run: its words with its code's letter, and the room for what is good, if it says so."""

    cell: Cell
    good_width: float

    @property
    def width(self) -> float:
        """Return its whole width in millimetres."""
        return self.good_width + BOX + GAP


@dataclass(frozen=True)
class RunTable:
    """Series that are read at the same steps, and the chart of one of them."""

    columns: tuple[RunColumn, ...]
    steps: tuple[str, ...]
    step_width: float
    head_height: float
    chart: Markup
    chart_width: float
    others: tuple[Cell, ...]


def run_table_of(line: Line) -> RunTable | None:
    """Return the run of a check whose limits change from step to step, or nothing where it has no such curve."""
    drawn = next((cell for cell in line.series if _has_curve(cell)), None)
    if drawn is None:
        return None
    places = [point.place for point in drawn.points]
    together = [cell for cell in line.series if [point.place for point in cell.points] == places]
    steps = tuple(point.at for point in drawn.points)
    step_width = max(width_of(step, weight=700) for step in steps) + GAP
    columns = tuple(RunColumn(cell, _good_width(cell)) for cell in together)
    used = step_width + sum(column.width for column in columns)
    room = WIDTH - CODE - used - GAP
    if room < _NARROWEST:
        return None
    heads = [lines_of(_head(column.cell), BOX + column.good_width, 10) for column in columns]
    head_height = max(max(heads) * LINE + PAD, 9.0)
    return RunTable(
        columns=columns,
        steps=steps,
        step_width=step_width,
        head_height=head_height,
        chart=_chart(drawn, room, head_height),
        chart_width=room,
        others=tuple(cell for cell in line.series if cell not in together),
    )


def _head(cell: Cell) -> str:
    return f"{cell.letter} {cell.words}{', ' + cell.unit if cell.unit else ''}"


def _has_curve(cell: Cell) -> bool:
    limits = {(point.low, point.value, point.high) for point in cell.points}
    return len(cell.points) >= _FEWEST_STEPS and len(limits) > 1


def _good_width(cell: Cell) -> float:
    goods = [point.good for point in cell.points if point.good]
    if not goods:
        return 0.0
    return max(width_of(word, weight=700) for good in goods for word in _halves(good)) + GAP


def _halves(good: str) -> Sequence[str]:
    """Return a value and its band as the two lines on which they stand.

    >>> _halves("262 L (228–298)"), _halves("≥ 4.2 kn")
    (('262 L', '(228–298)'), ('≥ 4.2 kn',))
    """
    value, bracket, band = good.partition(" (")
    return (value, f"({band}") if bracket else (good,)


def _numbers(points: Sequence[Point]) -> list[float]:
    return [
        number for point in points for number in (point.low, point.value, point.high) if number is not None
    ]


def _chart(cell: Cell, width: float, head: float) -> Markup:
    """Draw the band in grey and the expected line, each step at the height of its row, values across."""
    points = cell.points
    numbers = _numbers(points)
    scale = ticks(min(0.0, min(numbers)), max(numbers) * 1.15, 5)
    left, right = 3.0, width - 4.0

    def x(value: float) -> float:
        share = (value - scale[0]) / (scale[-1] - scale[0])
        return left + min(max(share, 0.0), 1.0) * (right - left)

    middles = [head + ROW * (number + 0.5) for number in range(len(points))]
    top, foot = head, head + ROW * len(points)
    parts = []
    band = [
        (point, y)
        for point, y in zip(points, middles, strict=True)
        if point.low is not None or point.high is not None
    ]
    if band:
        lows = [(left if point.low is None else x(point.low), y) for point, y in band]
        highs = [(right if point.high is None else x(point.high), y) for point, y in band]
        outline = " ".join(f"{a:.2f},{b:.2f}" for a, b in [*lows, *reversed(highs)])
        parts.append(f'<polygon points="{outline}" fill="#dcdcdc"/>')
    for value in scale:
        parts.append(_line(x(value), top, x(value), foot, 0.15, "#777"))
        parts.append(
            f'<text x="{x(value):.2f}" y="{top - 1:.2f}" {_TEXT} font-size="2.8" text-anchor="middle">{value:g}</text>'
        )
    for y in middles:
        parts.append(_line(left, y, right, y, 0.15, "#777"))
    parts.append(
        f'<rect x="{left}" y="{top:.2f}" width="{right - left:.2f}" height="{foot - top:.2f}" fill="none" stroke="#000" stroke-width="0.35"/>'
    )
    for limits, dash, thick in (
        ([point.low for point in points], "1.4 0.9", 0.35),
        ([point.high for point in points], "1.4 0.9", 0.35),
        ([point.value for point in points], "", 0.6),
    ):
        places = [(x(value), y) for value, y in zip(limits, middles, strict=True) if value is not None]
        if len(places) > 1:
            way = " ".join(f"{a:.2f},{b:.2f}" for a, b in places)
            parts.append(
                f'<polyline points="{way}" fill="none" stroke="#000" stroke-width="{thick}" stroke-dasharray="{dash or "none"}"/>'
            )
    parts.append(
        f'<text x="{left}" y="{top - 5:.2f}" {_TEXT} font-size="2.8" font-weight="600">{escape(cell.letter)} {escape(cell.unit)}: plot here; grey is good</text>'
    )
    return Markup(
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:.1f}mm" height="{foot + 1:.1f}mm" viewBox="0 0 {width:.1f} {foot + 1:.1f}" role="img">'
        f"<title>{escape(cell.words)}: what is expected at each step</title>{''.join(parts)}</svg>"
    )


def _line(x1: float, y1: float, x2: float, y2: float, width: float, stroke: str) -> str:
    return f'<line x1="{x1:.2f}" y1="{y1:.2f}" x2="{x2:.2f}" y2="{y2:.2f}" stroke="{stroke}" stroke-width="{width:g}"/>'
