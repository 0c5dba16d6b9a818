"""A check on a sheet: what to do and what is good as text, the boxes for it in columns at the right, round which it runs.

Boxes stand in places of one width, counted from the right edge. A check has as many of them side by side as make it
lowest: the first lines of the text stand beside them, the rest runs below them over the whole width; where that is lower,
all boxes stand in a row below the text. What is written in words takes two places. The remark takes the places that are
left, or a row of its own.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import count

from plangen.print.carried.page import WIDTH
from plangen.print.carried.text_width import lines_around, width_of

#: Millimetres: the code's column, a place for a box, the box itself, the space between text and boxes.
CODE, PLACE, BOX, GAP = 12.0, 18.5, 15.5, 2.0
#: Places that most checks have beside their text, the most that a text leaves room for, and those of a row below it.
USUAL, MOST, BELOW = 3, 7, 9
#: Places that a remark has where it is no higher for it.
_REMARK = 2
#: A line of 10 pt, what a check has above and below its text, and the least height of a row that is written in.
LINE, ABOVE, UNDER, ROW = 3.8, 0.5, 0.4, 9.0
PAD = ABOVE + UNDER
#: What lines below the boxes keep from the edge.
EDGE = 0.8
#: What the last row of boxes leaves free below, so that a line of text may begin there.
_FREE = 1.0
#: The narrowest that a text stands beside boxes.
_NARROWEST = 55.0


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

    @property
    def remark(self) -> int:
        """Return how many places the remark has."""
        return self.rows[-1][-1]


def answers_of(text: tuple[float, ...], wide: Sequence[bool], places: int = 0) -> Answers:
    """Return the boxes of readings, some of them wide, with a text whose words have these widths.

    With `places` so many stand side by side, where that many have room.

    >>> answers_of((8.0, 5.0), [False, False]).rows, answers_of((8.0, 5.0), [False, True, False]).rows
    (((1, 1, 2),), ((1, 2, 1, 2),))
    """
    return _answers(text, tuple(2 if one else 1 for one in wide), places)


@cache
def _answers(text: tuple[float, ...], spans: tuple[int, ...], places: int) -> Answers:
    ways = list(_ways(text, spans))
    return min(
        [way for way in ways if way.places == places] or ways,
        key=lambda way: (round(way.height, 1), way.remark < _REMARK, abs(way.places - USUAL)),
    )


def _ways(text: Sequence[float], spans: Sequence[int]) -> Iterator[Answers]:
    """Yield the ways in which the boxes may stand."""
    space = width_of(" ")
    whole = WIDTH - CODE - EDGE
    for places in range(max(spans, default=1), MOST + 1):
        beside = WIDTH - CODE - GAP - places * PLACE
        if beside < _NARROWEST:
            break
        rows = _in_rows(spans, places)
        lines = lines_around(text, beside, _lines_beside(len(rows)), whole, space)
        yield Answers(rows, places, max(lines * LINE + PAD, len(rows) * ROW))
    rows = _in_rows(spans, BELOW)
    yield Answers(rows, BELOW, lines_around(text, whole, 0, whole, space) * LINE + ABOVE + len(rows) * ROW)


def _lines_beside(rows: int) -> int:
    """Return how many lines of text begin above the lower edge of so many rows of boxes."""
    return next(line for line in count() if ABOVE + line * LINE >= rows * ROW - _FREE)


def _in_rows(spans: Sequence[int], places: int) -> tuple[tuple[int, ...], ...]:
    """Return the places of boxes and remark, row by row."""
    rows: list[list[int]] = [[]]
    for span in spans:
        if sum(rows[-1]) + span > places:
            rows[-1][-1] += places - sum(rows[-1])
            rows.append([])
        rows[-1].append(span)
    left = places - sum(rows[-1])
    if left == 0:
        rows.append([])
    rows[-1].append(left or places)
    return tuple(tuple(row) for row in rows)
