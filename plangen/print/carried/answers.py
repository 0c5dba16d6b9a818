"""A check on a sheet: what to do and what is good as text at the left, the boxes for it in columns at the right.

Boxes stand in places of one width, counted from the right edge. A check has as many of them side by side as make it
lowest: few boxes leave the text its width, many beside a short text stand in one row, and many beside a long one below
it. What is written in words takes two places. The remark takes the places that are left, or a row of its own where the
text is high enough for one more.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache

from plangen.print.carried.page import WIDTH
from plangen.print.carried.text_width import lines_in, width_of

#: Millimetres: the code's column, a place for a box, the box itself, the space between text and boxes.
CODE, PLACE, BOX, GAP = 10.5, 19.0, 15.8, 2.0
#: Places that most checks have beside their text, the most that a text leaves room for, and those of a row below it.
USUAL, MOST, BELOW = 3, 6, 9
_FEWEST = 2
#: A line of 10 pt, what a check has above and below, and the least height of a row that is written in.
LINE, PAD, ROW = 3.9, 1.2, 9.0
#: The narrowest that a text stands, and what another number of places than the usual has to save.
_NARROWEST, _WORTH = 45.0, 0.8


@dataclass(frozen=True)
class Answers:
    """The boxes of a check: in each row the places that each takes, the last of all being the remark's.

    `places` is how many stand side by side, right of the text or below it.
    """

    rows: tuple[tuple[int, ...], ...]
    places: int
    height: float

    @property
    def is_below(self) -> bool:
        """Tell whether the boxes stand below the text."""
        return self.places == BELOW


def answers_of(text: tuple[float, ...], wide: Sequence[bool]) -> Answers:
    """Return the boxes of readings, some of them wide, beside a text or below it, whose words have these widths.

    >>> answers_of((8.0, 5.0), [False, False]).rows, answers_of((8.0, 5.0), [False, True, False]).rows
    (((1, 1, 1),), ((1, 2, 1, 1),))
    """
    return _answers(text, tuple(2 if one else 1 for one in wide))


@cache
def _answers(text: tuple[float, ...], spans: tuple[int, ...]) -> Answers:
    ways = list(_ways(text, spans))
    usual = ways[0]
    lowest = min(ways, key=lambda way: (way.height, abs(way.places - USUAL)))
    return lowest if lowest.height <= usual.height - _WORTH else usual


def _ways(text: Sequence[float], spans: Sequence[int]) -> Iterator[Answers]:
    """Yield the ways in which the boxes may stand, the usual one first."""
    space = width_of(" ")
    for places in (USUAL, *(many for many in range(_FEWEST, MOST + 1) if many != USUAL)):
        width = WIDTH - CODE - GAP - places * PLACE
        if width >= _NARROWEST:
            high = lines_in(text, width, space) * LINE + PAD
            rows = _in_rows(spans, places, high)
            yield Answers(rows, places, max(high, len(rows) * ROW))
    rows = _in_rows(spans, BELOW, 0.0)
    yield Answers(rows, BELOW, lines_in(text, WIDTH - CODE - GAP, space) * LINE + PAD + len(rows) * ROW)


def _in_rows(spans: Sequence[int], places: int, high: float) -> tuple[tuple[int, ...], ...]:
    """Return the places of boxes and remark, row by row, beside a text so many millimetres high."""
    rows: list[list[int]] = [[]]
    for span in spans:
        if sum(rows[-1]) + span > places:
            rows[-1][-1] += places - sum(rows[-1])
            rows.append([])
        rows[-1].append(span)
    left = places - sum(rows[-1])
    if left < _FEWEST and (left == 0 or high >= (len(rows) + 1) * ROW):
        # the text is high enough for a row of remarks, or no place is left
        rows[-1][-1] += left
        rows.append([places])
    else:
        rows[-1].append(left)
    return tuple(tuple(row) for row in rows)
