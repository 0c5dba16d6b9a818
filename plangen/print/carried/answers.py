"""A check on a sheet: what to do and what is good as text at the left, the boxes for it in columns at the right.

Three boxes stand side by side; what is written in words takes two places. The remark takes the places that are left, or
a row of its own where the text is high enough for one more.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from plangen.print.carried.text_width import lines_of

#: Millimetres: the code's column, a place for a box, the box itself, the space between text and boxes.
CODE, PLACE, BOX, GAP = 10.5, 19.8, 16.4, 2.0
PLACES = 3
#: The whole width, and the text's.
WIDTH = 181.0
TEXT = WIDTH - CODE - GAP - PLACES * PLACE
#: A line of 10 pt, what a check has above and below, and the least height of a row that is written in.
LINE, PAD, ROW = 3.9, 1.2, 9.0


@dataclass(frozen=True)
class Answers:
    """The boxes of a check: in each row the places that each takes, the last of all being the remark's."""

    rows: tuple[tuple[int, ...], ...]
    height: float


def answers_of(text: str, wide: Sequence[bool]) -> Answers:
    """Return the boxes of readings, some of them wide, beside a text.

    >>> answers_of("Try it", [False, False]).rows, answers_of("Try it", [False, True, False]).rows
    (((1, 1, 1),), ((1, 2), (1, 2)))
    """
    rows: list[list[int]] = [[]]
    for one in wide:
        span = 2 if one else 1
        if sum(rows[-1]) + span > PLACES:
            rows[-1][-1] += PLACES - sum(rows[-1])
            rows.append([])
        rows[-1].append(span)
    text_height = lines_of(text, TEXT) * LINE + PAD
    left = PLACES - sum(rows[-1])
    if left < 2 and (left == 0 or text_height >= (len(rows) + 1) * ROW):
        # the text is high enough for a row of remarks, or no place is left
        rows[-1][-1] += left
        rows.append([PLACES])
    else:
        rows[-1].append(left)
    return Answers(tuple(tuple(row) for row in rows), max(text_height, len(rows) * ROW))
