"""Readings side by side: which of them share a row, so that a check takes the least height that its words allow.

Across a sheet there are twelve units behind the code. A row holds what to do and up to three readings, each with its
box at the right end of a third; where one reading is all, it stands with what to do and the remark on one row.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from typing import Generic, Literal, TypeVar

from plangen.print.carried.text_width import lines_of

Item = TypeVar("Item")
Kind = Literal["do", "reading", "remark"]

#: Millimetres: a unit, a box, the space between two cells, a line of 10 pt, and what a row has above and below.
UNIT, BOX, GAP, LINE, PAD = 14.125, 22.0, 2.5, 4.05, 1.2
UNITS = 12
#: A row in which something is written is never lower.
LEAST = 9.0
_SPANS: dict[int, tuple[tuple[int, ...], ...]] = {1: ((12,),), 2: ((4, 8), (8, 4)), 3: ((4, 4, 4),)}
#: What to do, the only reading, the remark.
_ALONE = (5, 4, 3)
#: Where columns of the table end, so that boxes stand below one another.
EDGES = (0.0, 4 - BOX / UNIT, 4.0, 5.0, 8 - BOX / UNIT, 9 - BOX / UNIT, 8.0, 9.0, 12 - BOX / UNIT, 12.0)
#: The same as widths of the table's columns in millimetres.
GRID = tuple(round((right - left) * UNIT, 3) for left, right in pairwise(EDGES))


@dataclass(frozen=True)
class Placed(Generic[Item]):
    """One thing in a row: its columns of the table, without those of its box."""

    kind: Kind
    columns: int
    item: Item | None = None
    box_columns: int = 0


Row = tuple[Placed[Item], ...]


def packed(do: str, readings: Sequence[tuple[Item, str]]) -> tuple[float, tuple[Row[Item], ...]]:
    """Return the height of a check in millimetres and its rows, of all ways the lowest.

    What to do stands above its readings and the remark comes last, or beside what to do.
    """
    words = tuple(said for _, said in readings)
    last, beside = _lowest((*words, "")), _lowest(words)
    ways = [
        (_height((do,), (12,), 1) + last[0], (("do",), *_kinds(last[1], True)), ((12,), *last[1])),
        (
            _height((do, ""), (8, 4), 1) + beside[0],
            (("do", "remark"), *_kinds(beside[1], False)),
            ((8, 4), *beside[1]),
        ),
    ]
    if len(words) == 1:
        ways.append((_height((do, *words, ""), _ALONE, 1), (("do", "reading", "remark"),), (_ALONE,)))
    height, kinds, spans = min(ways, key=lambda way: (round(way[0], 3), len(way[2])))
    items = iter([item for item, _ in readings])
    return height, tuple(_row(*row, items) for row in zip(kinds, spans, strict=True))


def _kinds(rows: Sequence[Sequence[int]], remark: bool) -> tuple[tuple[Kind, ...], ...]:
    """Return rows of readings, the last of which is the remark or not."""
    kinds: list[list[Kind]] = [["reading"] * len(row) for row in rows]
    if remark:
        kinds[-1][-1] = "remark"
    return tuple(tuple(row) for row in kinds)


def _row(kinds: Sequence[Kind], spans: Sequence[int], items: Iterator[Item]) -> Row[Item]:
    cells: list[Placed[Item]] = []
    start = 0
    for kind, span in zip(kinds, spans, strict=True):
        end = start + span
        text_end = end - BOX / UNIT if kind == "reading" else float(end)
        columns = EDGES.index(text_end) - EDGES.index(float(start))
        if kind == "reading":
            cells.append(Placed(kind, columns, next(items), EDGES.index(float(end)) - EDGES.index(text_end)))
        else:
            cells.append(Placed(kind, columns))
        start = end
    return tuple(cells)


@cache
def _lowest(words: tuple[str, ...]) -> tuple[float, tuple[tuple[int, ...], ...]]:
    """Return the lowest rows for readings in this order; a remark is one without words."""
    best: list[tuple[float, tuple[tuple[int, ...], ...]]] = [(0.0, ())]
    for start in range(len(words) - 1, -1, -1):
        ways = []
        for many in range(1, min(3, len(words) - start) + 1):
            rest, rows = best[-many]
            for row in _SPANS[many]:
                height = _height(words[start : start + many], row)
                ways.append((max(height, LEAST) + rest, (row, *rows)))
        best.append(min(ways, key=lambda way: (round(way[0], 3), len(way[1]))))
    return best[-1]


def _height(words: Sequence[str], row: Sequence[int], first_box: int = 0) -> float:
    """Return the height that words need in their spans; readings with their boxes begin at a place."""
    lines, start = 1, 0
    for place, (said, span) in enumerate(zip(words, row, strict=True)):
        box = BOX if said and place >= first_box else 0.0
        lines = max(lines, lines_of(said, span * UNIT - 1.0 - (GAP if start else 0.0) - box))
        start += span
    return max(LEAST if len(row) > 1 else 0.0, lines * LINE + PAD)
