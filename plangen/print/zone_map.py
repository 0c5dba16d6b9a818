"""The zone map as SVG: the boat from above, bow up, in her proportions; zones stacked as they lie along her."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import pi, sin

from markupsafe import Markup, escape

from plangen.plan.map_model import MapZone, ZoneMap

#: The room on the paper in millimetres.
WIDTH, HEIGHT = 96.0, 196.0
#: The same where something else shares the page.
LOWER = 152.0
#: Millimetres: the part's heading, a row of marks with the head above, a zone's row, a mark's row.
_HEAD, _MARKS_HEAD, _ZONE, _MARK = 14.0, 5.0, 5.6, 8.8
MARKS_IN_A_ROW = 3
_TOP, _FOOT = 5.0, 12.0
_TEXT = 'font-family="\'Plan Sans\', sans-serif" fill="#000"'
#: Beam over length where the spec gives no beam.
_USUAL_BEAM = {"one-hull": 0.33, "two-hulls": 0.53}
#: The width of one hull of two as a share of the beam, and where the deck between them begins and ends.
_HULL_SHARE, _DECK_FROM, _DECK_TO = 0.27, 0.11, 0.95


@dataclass(frozen=True)
class _Lane:
    """A strip of the boat in which zones lie one abaft the other; in a hull its sides follow the hull."""

    left: float
    right: float
    top: float
    bottom: float
    hull: tuple[float, float, float] | None = None

    @property
    def hull_top(self) -> float:
        """Return where the bow of its hull is."""
        return self.hull[2] if self.hull else self.top

    def ends(self, along: float) -> tuple[float, float]:
        """Return where the hull's sides are, at a share of its length."""
        assert self.hull is not None
        left, right, _ = self.hull
        middle, half = (left + right) / 2, (right - left) / 2 * _share(along)
        return middle - half, middle + half

    def line(self, y: float) -> tuple[float, float]:
        """Return the ends of a line across the strip."""
        if self.hull is None:
            return self.left, self.right
        left, right = self.ends((y - self.hull[2]) / (self.bottom - self.hull[2]))
        return max(left, self.left), min(right, self.right)


def zone_map_height(map: ZoneMap) -> float:
    """Return how high the part stands with the lower drawing, in millimetres."""
    rows = -(-len(map.keys) // MARKS_IN_A_ROW)
    marks = _MARKS_HEAD + rows * _MARK if rows else 0.0
    return _HEAD + marks + max(LOWER, (len(map.zones) + 3) * _ZONE)


def zone_map_svg(map: ZoneMap, height: float = HEIGHT) -> Markup:
    """Return the drawing, so high at the most; what lies in a zone is marked below its code."""
    long = height - _TOP - _FOOT
    wide = (map.beam / map.length if map.beam else _USUAL_BEAM[map.outline]) * long
    if wide > WIDTH - 12:
        long, wide = long * (WIDTH - 12) / wide, WIDTH - 12
    centre, bottom = WIDTH / 2, _TOP + long
    left, right = centre - wide / 2, centre + wide / 2
    parts: list[str] = []
    if map.outline == "two-hulls":
        hull = wide * _HULL_SHARE
        port, starboard = (left, left + hull, _TOP), (right - hull, right, _TOP)
        lanes = {
            "port": _Lane(left, left + hull, _TOP + long * 0.13, bottom, port),
            "starboard": _Lane(right - hull, right, _TOP + long * 0.13, bottom, starboard),
            "centre": _Lane(left + hull, right - hull, _TOP + long * _DECK_FROM, _TOP + long * _DECK_TO),
        }
        parts += [_hull(lanes["port"]), _hull(lanes["starboard"])]
        for y in (lanes["centre"].top, lanes["centre"].bottom):
            parts.append(
                _across(
                    left + hull * (0.72 if y < bottom - long / 2 else 0.95),
                    right - hull * (0.72 if y < bottom - long / 2 else 0.95),
                    y,
                    0.5,
                )
            )
    else:
        whole = (left, right, _TOP)
        inner = [zone for zone in map.zones if zone.lane in ("port", "starboard")]
        side = wide * 0.33 if inner else 0.0
        lanes = {
            "port": _Lane(left, left + side, _TOP + long * 0.2, bottom, whole),
            "starboard": _Lane(right - side, right, _TOP + long * 0.2, bottom, whole),
            "centre": _Lane(left + side, right - side, _TOP + long * 0.06, bottom, whole),
        }
        parts.append(_hull(lanes["centre"]))
    symbols = {key.id: key.symbol for key in map.keys}
    for name, lane in lanes.items():
        own = sorted((zone for zone in map.zones if zone.lane == name), key=lambda zone: zone.along)
        parts += _stacked(own, lane, symbols)
    for zone in map.zones:
        if zone.lane in ("port-side", "both-sides"):
            parts.append(_label(left - 3.5, _TOP + long * 0.55, zone.code))
        if zone.lane in ("starboard-side", "both-sides"):
            parts.append(_label(right + 3.5, _TOP + long * 0.55, zone.code))
    parts += _scale(map, wide, long, centre, bottom)
    title = escape(f"The boat from above, {len(map.zones)} zones")
    return Markup(
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH:g}mm" height="{bottom + _FOOT:.1f}mm" '
        f'viewBox="0 0 {WIDTH:g} {bottom + _FOOT:.1f}" role="img"><title>{title}</title>{"".join(parts)}</svg>'
    )


def _share(along: float) -> float:
    """Return the half beam of a hull as a share of the greatest: a fine bow, full amidships, a narrower stern.

    >>> _share(0.0), _share(0.5), round(_share(1.0), 2)
    (0.0, 1.0, 0.82)
    """
    if along < 0.4:
        return float(sin(pi / 2 * along / 0.4) ** 0.9)
    return 1.0 if along < 0.7 else 1.0 - 0.18 * ((along - 0.7) / 0.3) ** 1.5


def _hull(lane: _Lane) -> str:
    """Draw one hull as a closed line."""
    steps = [step / 40 for step in range(41)]
    edge = [(lane.ends(along), lane.hull_top + along * (lane.bottom - lane.hull_top)) for along in steps]
    points = [(ends[1], y) for ends, y in edge] + [(ends[0], y) for ends, y in reversed(edge)]
    path = " ".join(f"{x:.2f},{y:.2f}" for x, y in points)
    return f'<polygon points="{path}" fill="none" stroke="#000" stroke-width="0.6"/>'


def _stacked(zones: Sequence[MapZone], lane: _Lane, symbols: dict[str, str]) -> Iterable[str]:
    """Draw the zones of a lane one abaft the other: each begins halfway between its neighbours' places."""
    if not zones:
        return
    span, least = lane.bottom - lane.top, 9.0
    edges = [0.0, *((a.along + b.along) / 200 for a, b in itertools.pairwise(zones)), 1.0]
    heights = [max((b - a) * span, least) for a, b in itertools.pairwise(edges)]
    scale = span / sum(heights)
    y = lane.top
    for zone, height in zip(zones, (h * scale for h in heights), strict=True):
        if y > lane.top:
            yield _across(*lane.line(y), y, 0.25)
        middle = (lane.left + lane.right) / 2
        drawn = [symbols[id] for id, count in zone.marks.items() for _ in range(count) if id in symbols]
        per_row = max(1, int((lane.right - lane.left - 2) / 4.2))
        rows = [drawn[start : start + per_row] for start in range(0, len(drawn), per_row)]
        top = y + height / 2 - 2.1 * len(rows) + 1.3
        yield _label(middle, top, zone.code)
        for row_number, row in enumerate(rows):
            for number, symbol in enumerate(row):
                x = middle + (number - (len(row) - 1) / 2) * 4.2
                yield symbol_svg(symbol, x, top + 3.2 + 4.2 * row_number)
        y += height


def _across(left: float, right: float, y: float, width: float) -> str:
    return f'<line x1="{left:.2f}" y1="{y:.2f}" x2="{right:.2f}" y2="{y:.2f}" stroke="#000" stroke-width="{width:g}"/>'


def _label(x: float, y: float, text: str) -> str:
    return f'<text x="{x:.2f}" y="{y:.2f}" {_TEXT} font-size="3.5" font-weight="700" text-anchor="middle">{escape(text)}</text>'


def _scale(map: ZoneMap, wide: float, long: float, centre: float, bottom: float) -> list[str]:
    metre = long / map.length
    bar = 5.0 if map.length > 8 else 2.0
    x, y = centre - bar * metre / 2, bottom + 5
    beam = f", beam {map.beam:.2f} m" if map.beam else ""
    return [
        f'<line x1="{x:.2f}" y1="{y:.2f}" x2="{x + bar * metre:.2f}" y2="{y:.2f}" stroke="#000" stroke-width="0.9"/>',
        f'<text x="{centre:.2f}" y="{y + 4:.2f}" {_TEXT} font-size="2.8" text-anchor="middle">{bar:g} m; hull {map.length:.2f} m{beam}</text>',
        f'<text x="{centre:.2f}" y="3" {_TEXT} font-size="2.8" text-anchor="middle">bow</text>',
    ]


def symbol_of_key(symbol: str) -> Markup:
    """Draw one mark by itself, for the key beside the map."""
    return Markup(
        '<svg xmlns="http://www.w3.org/2000/svg" width="5mm" height="5mm" viewBox="0 0 5 5">'
        f"{symbol_svg(symbol, 2.5, 2.5)}</svg>"
    )


def symbol_svg(symbol: str, x: float, y: float) -> str:
    """Draw one mark with its middle at a place."""
    r = 1.4
    shapes = {
        "disc": f'<circle cx="{x:.2f}" cy="{y:.2f}" r="{r}"/>',
        "ring": f'<circle cx="{x:.2f}" cy="{y:.2f}" r="{r - 0.2}" fill="#fff" stroke="#000" stroke-width="0.5"/>',
        "triangle": f'<path d="M{x:.2f} {y - 1.5:.2f} l1.6 2.8 h-3.2 z"/>',
        "square": f'<rect x="{x - 1.3:.2f}" y="{y - 1.3:.2f}" width="2.6" height="2.6"/>',
        "square-open": f'<rect x="{x - 1.2:.2f}" y="{y - 1.2:.2f}" width="2.4" height="2.4" fill="#fff" stroke="#000" stroke-width="0.5"/>',
        "diamond": f'<path d="M{x:.2f} {y - 1.8:.2f} l1.8 1.8 -1.8 1.8 -1.8 -1.8 z"/>',
        "cross": f'<path d="M{x - 1.5:.2f} {y:.2f} h3 M{x:.2f} {y - 1.5:.2f} v3" stroke="#000" stroke-width="0.8"/>',
    }
    return shapes[symbol]
