"""Charts of what was expected against what was found, as plain SVG: the same numbers give the same text."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor, log10

from markupsafe import Markup, escape

from plangen.assess.model import Verdict

WIDTH, HEIGHT = 230.0, 140.0
_LEFT, _RIGHT, _TOP, _BOTTOM = 36.0, 10.0, 19.0, 24.0
_TEXT = 'font-family="\'Plan Sans\', sans-serif" font-size="9.5" fill="#000"'


@dataclass(frozen=True)
class ChartPoint:
    """What was found at one point, and what was expected there; each may be absent."""

    at: float
    found: float | None = None
    low: float | None = None
    value: float | None = None
    high: float | None = None
    verdict: Verdict | None = None


@dataclass(frozen=True)
class Chart:
    """One chart: its words and its points."""

    title: str
    subtitle: str
    across: str
    up: str
    points: tuple[ChartPoint, ...]


@dataclass(frozen=True)
class _Axis:
    """A scale from numbers to places on the paper, with its ticks."""

    ticks: tuple[float, ...]
    start: float
    end: float

    def place(self, value: float) -> float:
        first, last = self.ticks[0], self.ticks[-1]
        return self.start + (value - first) / (last - first) * (self.end - self.start)


def ticks(low: float, high: float, about: int = 5) -> tuple[float, ...]:
    """Return round numbers that enclose the range, but for a sliver of it.

    >>> ticks(0, 8.5), ticks(900, 3000)
    ((0.0, 2.0, 4.0, 6.0, 8.0, 10.0), (500.0, 1000.0, 1500.0, 2000.0, 2500.0, 3000.0))
    """
    if high <= low:
        half = abs(low) / 10 or 1.0
        low, high = low - half, high + half
    rough = (high - low) / about
    power = 10.0 ** floor(log10(rough))
    step = next(s * power for s in (1, 2, 2.5, 5, 10) if s * power >= rough * (1 - 1e-9))
    first, last = floor(low / step + 0.03), ceil(high / step - 0.03)
    return tuple(round(n * step, 10) + 0.0 for n in range(first, last + 1))


def _snug(values: Sequence[float]) -> tuple[float, ...]:
    """Return the points themselves as ticks where they are few, for they are what was asked for."""
    distinct = sorted(set(values))
    return tuple(distinct) if 2 <= len(distinct) <= 8 else ticks(distinct[0], distinct[-1])


def number_on_axis(value: float) -> str:
    """Write a number beside an axis, with a true minus."""
    return f"{value:.10g}".replace("-", "−")


def _at(x: float, y: float) -> str:
    return f"{x:.1f},{y:.1f}"


def chart_svg(chart: Chart) -> Markup:
    """Draw a chart: the accepted band in grey, the expected line dashed, what was found marked by its verdict."""
    heights = [
        number
        for point in chart.points
        for number in (point.found, point.low, point.value, point.high)
        if number is not None
    ]
    low, high = min(heights), max(heights)
    if 0 < low < 0.6 * high:
        low = 0.0
    x = _Axis(_snug([point.at for point in chart.points]), _LEFT + 8, WIDTH - _RIGHT - 8)
    y = _Axis(ticks(low, high, 4), HEIGHT - _BOTTOM, _TOP)
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH:g}" height="{HEIGHT:g}" viewBox="0 0 {WIDTH:g} {HEIGHT:g}" role="img">',
        f"<title>{escape(chart.title)}, {escape(chart.subtitle)}</title>",
        *_band(chart.points, x, y),
        *_frame(chart, x, y),
        *_limits(chart.points, x, y),
        *_found(chart.points, x, y),
        "</svg>",
    ]
    return Markup("".join(parts))


def _frame(chart: Chart, x: _Axis, y: _Axis) -> list[str]:
    parts = []
    right = WIDTH - _RIGHT
    for value in y.ticks:
        at = y.place(value)
        zero = value == 0 and y.ticks[0] < 0
        parts.append(
            f'<path d="M{_at(_LEFT, at)} L{_at(right, at)}" stroke="{"#000" if zero else "#bbb"}" stroke-width="{0.7 if zero else 0.5}"/>'
        )
        parts.append(
            f'<text x="{_LEFT - 4:.1f}" y="{at + 3.2:.1f}" text-anchor="end" {_TEXT}>{number_on_axis(value)}</text>'
        )
    for value in x.ticks:
        at = x.place(value)
        parts.append(
            f'<path d="M{_at(at, y.start)} L{_at(at, y.start + 3)}" stroke="#000" stroke-width="0.7"/>'
        )
        parts.append(
            f'<text x="{at:.1f}" y="{y.start + 12.5:.1f}" text-anchor="middle" {_TEXT}>{number_on_axis(value)}</text>'
        )
    parts.append(
        f'<path d="M{_at(_LEFT, _TOP)} L{_at(_LEFT, y.start)} L{_at(right, y.start)}" fill="none" stroke="#000" stroke-width="0.9"/>'
    )
    parts.append(f'<text x="2" y="10" font-weight="600" {_TEXT}>{escape(chart.up)}</text>')
    parts.append(
        f'<text x="{right:.1f}" y="{HEIGHT - 1.5:.1f}" text-anchor="end" font-weight="600" {_TEXT}>{escape(chart.across)}</text>'
    )
    return parts


def _runs(points: Sequence[ChartPoint], has: Sequence[bool]) -> list[list[ChartPoint]]:
    """Return the stretches of points that follow one another and have what is to be drawn."""
    runs: list[list[ChartPoint]] = [[]]
    for point, chosen in zip(points, has, strict=True):
        if chosen:
            runs[-1].append(point)
        elif runs[-1]:
            runs.append([])
    return [run for run in runs if run]


def _band(points: Sequence[ChartPoint], x: _Axis, y: _Axis) -> list[str]:
    """Shade what is accepted; a band without an upper or lower limit reaches to the frame."""
    parts = []
    for run in _runs(points, [p.low is not None or p.high is not None for p in points]):
        tops = [(x.place(p.at), y.end if p.high is None else y.place(p.high)) for p in run]
        feet = [(x.place(p.at), y.start if p.low is None else y.place(p.low)) for p in run]
        if len(run) == 1:
            tops, feet = (
                [(tops[0][0] + d, tops[0][1]) for d in (-6, 6)],
                [(feet[0][0] + d, feet[0][1]) for d in (-6, 6)],
            )
        outline = " L".join(_at(*place) for place in [*tops, *reversed(feet)])
        parts.append(f'<path d="M{outline} Z" fill="#e2e2e2"/>')
    return parts


def _limits(points: Sequence[ChartPoint], x: _Axis, y: _Axis) -> list[str]:
    parts = []
    for pick, dash, width in (("low", "", 0.6), ("high", "", 0.6), ("value", "5 3", 1.0)):
        values = [getattr(point, pick) for point in points]
        for run in _runs(points, [value is not None for value in values]):
            line = " L".join(_at(x.place(p.at), y.place(getattr(p, pick))) for p in run)
            dashed = f' stroke-dasharray="{dash}"' if dash else ""
            parts.append(f'<path d="M{line}" fill="none" stroke="#555" stroke-width="{width}"{dashed}/>')
    return parts


def _found(points: Sequence[ChartPoint], x: _Axis, y: _Axis) -> list[str]:
    found = [(x.place(p.at), y.place(p.found), p.verdict) for p in points if p.found is not None]
    parts = []
    if len(found) > 1:
        line = " L".join(_at(across, up) for across, up, _ in found)
        parts.append(f'<path d="M{line}" fill="none" stroke="#000" stroke-width="1.4"/>')
    return parts + [marker(across, up, verdict) for across, up, verdict in found]


def marker(across: float, up: float, verdict: Verdict | None) -> str:
    """Draw one found value: a disc where it passed, a ring where it's too close to call, a cross where it failed."""
    if verdict == "fail":
        arms = f"M{_at(across - 4, up - 4)} L{_at(across + 4, up + 4)} M{_at(across - 4, up + 4)} L{_at(across + 4, up - 4)}"
        return f'<path d="{arms}" stroke="#000" stroke-width="2.2" fill="none"/>'
    fill = "#fff" if verdict in ("leaning-pass", "leaning-fail", "unclear") else "#000"
    return f'<circle cx="{across:.1f}" cy="{up:.1f}" r="3.2" fill="{fill}" stroke="#000" stroke-width="1.3"/>'


def legend_svg(verdict: Verdict) -> Markup:
    """Draw a marker alone, for the legend."""
    return Markup(f'<svg width="10" height="10" viewBox="0 0 10 10">{marker(5, 5, verdict)}</svg>')
