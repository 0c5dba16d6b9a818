"""A round's lines as they stand on paper: one by one, alike ones as a table of items, runs over steps with their curve."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Literal

from plangen.print.carried.answers import BOX, CODE, EDGE, GAP, LINE, PAD, PLACE, ROW
from plangen.print.carried.lines import Cell, Line
from plangen.print.carried.page import WIDTH
from plangen.print.carried.run_table import RunTable, run_table_of
from plangen.print.carried.text_width import lines_in, lines_of, width_of

#: Readings that a table of items has room for, and the widest that an item's name may stand, in millimetres.
_MOST_COLUMNS, _WIDEST_ITEM, _NARROWEST_ITEM = 6, 46.0, 20.0
#: The narrowest that the remarks' column may be.
_NARROWEST_REMARK = 30.0
#: Where there are many readings, an item's name and the space between boxes are narrower.
_MANY, _ITEM_OF_MANY, _GAP_OF_MANY = 6, 30.0, 1.5
#: What the heads of columns have above and below, in millimetres.
_AROUND_HEADS = 2.8
#: Lines of a column's words at its head; longer ones stand above the table.
_MOST_LINES = 3
#: Half of the width, for two items side by side; the widest that an item's name may stand there, and the narrowest remark.
_HALF, _WIDEST_IN_HALF, _NARROWEST_IN_HALF = WIDTH / 2, 36.0, 20.0


@dataclass(frozen=True)
class Column:
    """One reading of a table of items: its words, and what is good where that is the same for all."""

    id: str
    name: str
    words: str
    good: str
    basis: str
    is_condition: bool
    parts: tuple[str, ...]
    width: float

    @property
    def long(self) -> bool:
        """Tell whether its words stand above the table, for they would make the heads high."""
        return bool(self.name) and lines_of(f"{self.name} {self.words}", self.width - GAP) > _MOST_LINES

    @property
    def shown_above(self) -> str:
        """Return what stands above the table of it."""
        words = f"{self.words}: " if self.long else ""
        return f"{self.name} {words}{' · '.join(self.parts)}"


@dataclass(frozen=True)
class Items:
    """Checks of one rule on several items: a row for each item, a column for each reading."""

    lines: tuple[Line, ...]
    columns: tuple[Column, ...]
    item_width: float

    @property
    def first(self) -> Line:
        """Return the line whose words stand for all."""
        return self.lines[0]

    @property
    def above(self) -> tuple[Column, ...]:
        """Return the readings of which something stands above the table: what is to be held good, or long words."""
        return tuple(column for column in self.columns if column.parts or column.long)

    def cell(self, line: Line, column: Column) -> Cell | None:
        """Return the reading of one item, if it has one."""
        return next((cell for cell in line.cells if cell.id == column.id), None)

    @property
    def height(self) -> float:
        """Return how high it stands, in millimetres."""
        return self.words_height + self.head_height + sum(self.row_height(line) for line in self.lines)

    @property
    def words_height(self) -> float:
        """Return how high the words above the table stand, in millimetres."""
        room = WIDTH - CODE - EDGE
        height = lines_in(self.first.pieces_asked, room, width_of(" ")) * LINE + PAD
        if self.above:
            height += lines_of("; ".join(column.shown_above for column in self.above), room) * LINE + PAD
        return height

    @property
    def head_height(self) -> float:
        """Return how high the heads of its columns stand, on each page, in millimetres."""
        heads = [
            lines_of(
                f"{column.name} {'' if column.long else column.words} {column.good} {column.basis}",
                column.width - GAP,
            )
            for column in self.columns
        ]
        return max(heads) * LINE + _AROUND_HEADS

    def row_height(self, line: Line) -> float:
        """Return how high the row of an item stands, in millimetres."""
        own = [self.cell(line, column) for column in self.columns]
        goods = any(
            cell and cell.good and not column.good for cell, column in zip(own, self.columns, strict=True)
        )
        item = lines_of(line.item or line.check.item, self.item_width - GAP) * LINE + PAD
        return max(ROW + (LINE if goods else 0.0), item)


@dataclass(frozen=True)
class Pairs:
    """Checks of one rule on several items with a single box each, two items side by side below the words that all have."""

    lines: tuple[Line, ...]
    item_width: float

    @property
    def first(self) -> Line:
        """Return the line whose words stand for all."""
        return self.lines[0]

    @property
    def remark_width(self) -> float:
        """Return how wide a remark is, in millimetres."""
        return _HALF - GAP - CODE - self.item_width - PLACE

    @property
    def rows(self) -> tuple[tuple[Line, ...], ...]:
        """Return the lines as they stand side by side."""
        return tuple(self.lines[start : start + 2] for start in range(0, len(self.lines), 2))

    @property
    def words_height(self) -> float:
        """Return how high the words above stand, in millimetres."""
        pieces = [*replace(self.first, item="").pieces_asked, *self.first.cells[0].pieces]
        return max(
            lines_in(pieces, WIDTH - CODE - EDGE, width_of(" ")) * LINE + PAD, 0.0 if self.first.like else 8.0
        )

    @property
    def height(self) -> float:
        """Return how high it stands, in millimetres."""
        return self.words_height + len(self.rows) * ROW


@dataclass(frozen=True)
class Block:
    """What stands together: lines one by one, a table of items, items in pairs, or a run over steps."""

    kind: Literal["lines", "items", "pairs", "run"]
    lines: tuple[Line, ...]
    items: Items | None = None
    run: RunTable | None = None
    pairs: Pairs | None = None


def blocks_of(lines: Sequence[Line]) -> tuple[Block, ...]:
    """Return the lines of a round in their order, alike ones together where that takes less paper."""
    blocks: list[Block] = []
    for _, group in groupby(lines, key=lambda line: (line.check.rule, line.do, line.grade, line.people)):
        for block in _of_alike(list(group)):
            if block.kind == "lines" and blocks and blocks[-1].kind == "lines":
                blocks[-1] = Block("lines", (*blocks[-1].lines, *block.lines))
            else:
                blocks.append(block)
    return tuple(blocks)


def _of_alike(lines: Sequence[Line]) -> Iterator[Block]:
    items = items_of(lines) if len(lines) > 1 else None
    pairs = pairs_of(lines) if len(lines) > 1 else None
    alone = sum(height_of(line) for line in lines)
    if pairs is not None and pairs.height < min(alone, items.height if items else alone):
        yield Block("pairs", tuple(lines), pairs=pairs)
        return
    if items is not None and items.height < alone:
        yield Block("items", tuple(lines), items=items)
        return
    for line in in_line(lines):
        run = run_table_of(line)
        if run:
            yield Block("run", (replace(line, series=run.others),), run=run)
        else:
            yield Block("lines", (line,))


def in_line(lines: Sequence[Line]) -> Sequence[Line]:
    """Return alike checks with their boxes below one another, where those that refer to one above stand no higher for it."""
    again = [line for line in lines if line.like]
    lowest = sum(height_of(line) for line in again)
    for places in dict.fromkeys(line.answers.places for line in again):
        aligned = [replace(line, places=places) for line in again]
        if sum(height_of(line) for line in aligned) <= lowest + 0.1:
            return [*(line for line in lines if not line.like), *aligned]
    return lines


def height_of(line: Line) -> float:
    """Return how high a line stands by itself, in millimetres."""
    return max(line.answers.height + sum(series_height(cell) for cell in line.series), line.code_height)


def series_height(cell: Cell) -> float:
    """Return how high the points of a series stand below its line, in millimetres."""
    return ROW * len(cell.rows_beside)


def pairs_of(lines: Sequence[Line]) -> Pairs | None:
    """Return alike checks of one narrow box each two by two, or nothing where what is read or good isn't the same for all."""
    if any(len(line.cells) != 1 or line.series or line.cells[0].wide for line in lines):
        return None
    words = {(line.cells[0].good, line.cells[0].basis, line.cells[0].kind) for line in lines}
    parts = {line.cells[0].parts for line in lines[1:]} - {()}
    if len(words) > 1 or (parts and parts != {lines[0].cells[0].parts}):
        return None
    names = [width_of(line.item or line.check.item, weight=700) for line in lines]
    widest = min(max(names) + GAP, _WIDEST_IN_HALF)
    if any(lines_of(line.item or line.check.item, widest - GAP, weight=700) > 2 for line in lines):
        return None
    pairs = Pairs(tuple(lines), widest)
    return pairs if pairs.remark_width >= _NARROWEST_IN_HALF else None


def items_of(lines: Sequence[Line]) -> Items | None:
    """Return alike checks as a table, or nothing where they have series or more readings than stand side by side."""
    if any(line.series for line in lines):
        return None
    by_id: dict[str, list[Cell]] = {}
    for line in lines:
        for cell in line.cells:
            by_id.setdefault(cell.id, []).append(cell)
    if not 0 < len(by_id) <= _MOST_COLUMNS:
        return None
    names = [width_of(line.item or line.check.item, weight=700) for line in lines]
    many = len(by_id) >= _MANY
    most, gap = (_ITEM_OF_MANY, _GAP_OF_MANY) if many else (_WIDEST_ITEM, GAP)
    widest = min(max(max(names) + GAP, _NARROWEST_ITEM), most)
    columns = tuple(_column(id, cells, gap) for id, cells in by_id.items())
    taken = CODE + widest + sum(column.width for column in columns)
    return Items(tuple(lines), columns, widest) if taken + _NARROWEST_REMARK <= WIDTH else None


def _column(id: str, cells: Sequence[Cell], gap: float) -> Column:
    widest = max(width_of(f"{cell.good} {cell.basis}".strip(), weight=700) for cell in cells)
    goods = {(cell.good, cell.basis) for cell in cells}
    good, basis = goods.pop() if len(goods) == 1 else ("", "")
    return Column(
        id=id,
        name=Counter(cell.letter for cell in cells).most_common(1)[0][0],
        words=cells[0].words,
        good=good,
        basis=basis,
        is_condition=cells[0].is_condition,
        parts=tuple(dict.fromkeys(part for cell in cells for part in cell.parts)),
        width=max(BOX, widest, *(width_of(word) for word in cells[0].words.split())) + gap,
    )
