"""Charts over many hulls, as plain SVG: bars of what fails most, and dots of one reading with its limits."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from markupsafe import Markup, escape

from plangen.print.charts import number_on_axis, ticks
from plangen.series.model import FailingCheck, ReadingSpread, SeriesReading

_TEXT = 'font-family="\'Plan Sans\', sans-serif" fill="#000"'
#: A name over dots stands on a white edge.
_HALO = 'font-family="\'Plan Sans\', sans-serif" fill="#fff" stroke="#fff" stroke-width="2.5"'
_BARS, _LABEL, _ROW = 640.0, 300.0, 17.0
_DOTS, _DOTS_HIGH, _EDGE = 340.0, 92.0, 14.0
#: So many bars and characters of a label find room.
MOST_BARS, _LONGEST = 20, 58
#: Among more readings only those that stand apart are named.
_MOST_NAMED = 60


def failing_bars(failing: Sequence[FailingCheck]) -> Markup:
    """Draw a bar for each failing check, the most frequent first: what is still open in black, what is settled in white."""
    shown = failing[:MOST_BARS]
    most = max(len(one.hulls) for one in shown)
    high = _ROW * len(shown) + 24
    room = _BARS - _LABEL - 96
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_BARS:g}" height="{high:g}" viewBox="0 0 {_BARS:g} {high:g}" role="img">',
        f"<title>{len(shown)} failing checks, hulls on which each failed</title>",
    ]
    for row, one in enumerate(shown):
        y = 4 + row * _ROW
        wide = room * len(one.hulls) / most
        black = wide * len(one.still_open) / len(one.hulls)
        label = f"{one.item}: {one.title}"
        label = label if len(label) <= _LONGEST else label[: _LONGEST - 1] + "…"
        parts += [
            f'<text x="{_LABEL - 6:g}" y="{y + 10:.1f}" text-anchor="end" font-size="9.5" {_TEXT}>{escape(label)}</text>',
            f'<rect x="{_LABEL:g}" y="{y:.1f}" width="{wide:.1f}" height="12" fill="#fff" stroke="#000" stroke-width="0.9"/>',
            f'<rect x="{_LABEL:g}" y="{y:.1f}" width="{black:.1f}" height="12" fill="#000"/>',
            f'<text x="{_LABEL + wide + 5:.1f}" y="{y + 10:.1f}" font-size="9.5" font-weight="600" {_TEXT}>{one.failed.count} of {one.failed.of}</text>',
            f'<text x="{_BARS:g}" y="{y + 10:.1f}" text-anchor="end" font-size="9.5" {_TEXT}>{100 * one.cumulated:.0f} %</text>',
        ]
    foot = high - 5
    parts += [
        f'<text x="{_LABEL:g}" y="{foot:.1f}" font-size="8.5" {_TEXT}>hulls on which it failed, of those on which it was judged</text>',
        f'<text x="{_BARS:g}" y="{foot:.1f}" text-anchor="end" font-size="8.5" {_TEXT}>share of all fails, added up</text>',
        "</svg>",
    ]
    return Markup("".join(parts))


def reading_dots(series: ReadingSpread) -> Markup:
    """Draw a dot for each hull's reading: the accepted band in grey, outliers as rings with the hull's name, fails as crosses.

    Where the hulls have limits of their own, the axis is the distance from what was expected on each.
    """
    places = [_reckoned(one, series.against) for one in series.readings]
    lows = [_limit(one.low, one, series.against) for one in series.readings if one.low is not None]
    highs = [_limit(one.high, one, series.against) for one in series.readings if one.high is not None]
    scale = _Scale(_axis(places, lows, highs))
    base = _DOTS_HIGH - 20
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_DOTS:g}" height="{_DOTS_HIGH:g}" viewBox="0 0 {_DOTS:g} {_DOTS_HIGH:g}" role="img">',
        f"<title>{escape(series.item)}, {escape(series.words)}</title>",
        *_band(lows, highs, scale, base),
    ]
    for tick in scale.ticks:
        x = scale.place(tick)
        parts += [
            f'<path d="M{x:.1f},{base:.1f} L{x:.1f},{base + 3:.1f}" stroke="#000" stroke-width="0.7"/>',
            f'<text x="{x:.1f}" y="{base + 12.5:.1f}" text-anchor="middle" font-size="9.5" {_TEXT}>{number_on_axis(tick)}</text>',
        ]
    parts.append(
        f'<path d="M{_EDGE:g},{base:.1f} L{_DOTS - _EDGE:g},{base:.1f}" stroke="#000" stroke-width="0.9"/>'
    )
    return Markup("".join([*parts, *_dots(series.readings, places, scale, base), "</svg>"]))


def _reckoned(one: SeriesReading, against: str) -> float:
    return one.value - (getattr(one, against) if against else 0.0)


def _limit(limit: float, one: SeriesReading, against: str) -> float:
    return limit - (getattr(one, against) if against else 0.0)


class _Scale:
    """A scale from readings to places on the paper."""

    def __init__(self, ticks_: Sequence[float]) -> None:
        self.ticks = ticks_

    def place(self, value: float) -> float:
        """Return where a value stands."""
        first, last = self.ticks[0], self.ticks[-1]
        return _EDGE + 8 + (value - first) / (last - first) * (_DOTS - 2 * _EDGE - 16)


def _axis(places: Sequence[float], lows: Sequence[float], highs: Sequence[float]) -> tuple[float, ...]:
    """Return ticks that hold all readings, and the limits where these don't make the readings one heap."""
    low, high = min(places), max(places)
    wide = (high - low) or abs(high) / 10 or 1.0
    for limit in (*lows, *highs):
        if low - 4 * wide <= limit <= high + 4 * wide:
            low, high = min(low, limit), max(high, limit)
    return ticks(low, high, 4)


def _band(lows: Sequence[float], highs: Sequence[float], scale: _Scale, base: float) -> list[str]:
    """Shade what every hull accepts, and draw its edges; a limit beyond the axis leaves the band open."""
    if not lows and not highs:
        return []
    ends = _EDGE, _DOTS - _EDGE
    left, right = ends
    edges = []
    if lows and max(lows) >= scale.ticks[0]:
        left = min(ends[1], scale.place(max(lows)))
        edges.append(left)
    if highs and min(highs) <= scale.ticks[-1]:
        right = max(ends[0], scale.place(min(highs)))
        edges.append(right)
    parts = []
    if right > left:
        parts.append(
            f'<rect x="{left:.1f}" y="16" width="{right - left:.1f}" height="{base - 16:.1f}" fill="#e2e2e2"/>'
        )
    return parts + [
        f'<path d="M{x:.1f},12 L{x:.1f},{base:.1f}" stroke="#555" stroke-width="1"/>' for x in edges
    ]


def _dots(
    readings: Sequence[SeriesReading], places: Sequence[float], scale: _Scale, base: float
) -> list[str]:
    """Draw the readings, those at one place in a heap."""
    step = 7.0
    columns = [round(scale.place(place) / step) for place in places]
    tallest = max(Counter(columns).values())
    rise = min(7.0, (base - 26) / tallest)
    heaps: Counter[int] = Counter()
    parts = []
    for one, place, column in sorted(
        zip(readings, places, columns, strict=True), key=lambda dot: (dot[0].outlier, dot[0].fails)
    ):
        heaps[column] += 1
        x, y = scale.place(place), base - 5 - (heaps[column] - 1) * rise
        if one.fails:
            arms = f"M{x - 3.2:.1f},{y - 3.2:.1f} L{x + 3.2:.1f},{y + 3.2:.1f} M{x - 3.2:.1f},{y + 3.2:.1f} L{x + 3.2:.1f},{y - 3.2:.1f}"
            parts.append(f'<path d="{arms}" stroke="#000" stroke-width="1.8" fill="none"/>')
        else:
            parts.append(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="2.6" fill="#000"/>')
        if one.outlier:
            parts.append(
                f'<circle cx="{x:.1f}" cy="{y:.1f}" r="5.4" fill="none" stroke="#000" stroke-width="1.1"/>'
            )
    return [*parts, *_names(readings, places, scale, base)]


def _names(
    readings: Sequence[SeriesReading], places: Sequence[float], scale: _Scale, base: float
) -> list[str]:
    """Write the hulls of the readings that stand apart or fail, above the dots, where they are few."""
    named = [
        (scale.place(place), one)
        for one, place in zip(readings, places, strict=True)
        if one.outlier or one.fails
    ]
    if len(named) > 4 or len(readings) > _MOST_NAMED:
        named = [(x, one) for x, one in named if one.outlier][:4]
    parts = []
    for line, (x, one) in enumerate(sorted(named, key=lambda pair: pair[0])):
        y = base - 17 - 10 * (line % 4)
        anchor, shift = ("end", -5.0) if x > _DOTS / 2 else ("start", 5.0)
        text = f"{one.hull} {one.value:.10g}"
        parts += [
            f'<path d="M{x:.1f},{y + 2:.1f} L{x:.1f},{base - 10:.1f}" stroke="#000" stroke-width="0.5"/>',
            *(
                f'<text x="{x + shift:.1f}" y="{y + 3:.1f}" text-anchor="{anchor}" font-size="8.5" font-weight="600" {paint}>{escape(text)}</text>'
                for paint in (_HALO, _TEXT)
            ),
        ]
    return parts
