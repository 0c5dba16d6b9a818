"""How far down the last page of a clipboard reaches, known before anything is laid out: what is left there takes snags."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from plangen.print.carried.answers import CODE
from plangen.print.carried.blocks import Block, height_of, series_height
from plangen.print.carried.clipboards import Clipboard, RoundSheet
from plangen.print.carried.page import WIDTH, height
from plangen.print.carried.run_table import ROW as STEP
from plangen.print.carried.text_width import lines_of, width_of

#: Millimetres: a clipboard's heading, what lies above a round, its band, a line of its facts with what is around,
#: what a caution and a change have around their lines.
_HEAD, _ABOVE, _BAND, _FACTS, _CAUTION, _CHANGE = 10.6, 1.8, 7.35, 1.1, 1.3, 3.65
#: Millimetres: a line of facts, of a caution, of a change.
_FACTS_LINE, _CAUTION_LINE, _CHANGE_LINE = 3.9, 3.95, 4.3
#: What a rule between rows adds, and what a run has around its steps.
_RULE, _RUN = 0.1, 1.8

#: What the heights of a page may be wrong by, and what the ends may then differ by.
_UNSURE, _ALIKE = (0.0, 0.7), 12.0


@dataclass(frozen=True)
class Piece:
    """What is never parted over two pages: `margin` goes where it stands at the top of one, `again` comes there above it."""

    high: float
    margin: float = 0.0
    keeps_next: bool = False
    again: float = 0.0


def last_page_used(board: Clipboard, page: float) -> float:
    """Return how many millimetres of a clipboard's last page are taken, where a page has so many; all where it isn't sure."""
    pieces = tuple(_pieces(board))
    ways = [_last_page_used(pieces, page - unsure) for unsure in _UNSURE]
    return max(ways) if max(ways) - min(ways) <= _ALIKE else page


def _last_page_used(pieces: Iterable[Piece], page: float) -> float:
    used = 0.0
    group: list[Piece] = []
    for piece in pieces:
        group.append(piece)
        if piece.keeps_next:
            continue
        high = sum(one.high + one.margin for one in group)
        used = used + high if used + high <= page else high - group[0].margin + group[0].again
        group = []
    return used


def _pieces(board: Clipboard) -> Iterator[Piece]:
    yield Piece(
        _HEAD + height(f"{board.facts}; also {', '.join(board.beside)} {'n' * 100}", WIDTH), 0.0, True
    )
    for number, sheet in enumerate(board.rounds):
        yield Piece(_start(sheet), _ABOVE if number else 0.0, True)
        for block in sheet.blocks:
            yield from _of_block(block)


def _start(sheet: RoundSheet) -> float:
    facts = f"{sheet.start} · {sheet.where} · {sheet.people} · "
    line = width_of(facts) + width_of(f"with {sheet.tools_shown}", 8)
    high = _BAND + _FACTS + _FACTS_LINE * max(1, -(-line // (WIDTH - CODE)))
    for change in sheet.changes:
        words = f"{change.clock} First: {change.title}, 00 min. {change.caution or ''}"
        high += _CHANGE + _CHANGE_LINE * lines_of(words, WIDTH - 5)
    if sheet.cautions:
        words = f"Caution. {' '.join(sheet.cautions)}"
        high += _CAUTION + _CAUTION_LINE * lines_of(words, WIDTH - 3.1)
    return high


def _of_block(block: Block) -> Iterator[Piece]:
    if block.items is not None:
        yield Piece(block.items.words_height, keeps_next=True)
        yield Piece(block.items.head_height, keeps_next=True)
        for line in block.lines:
            yield Piece(block.items.row_height(line) + _RULE, again=block.items.head_height)
    elif block.run is not None:
        line = block.lines[0]
        others = sum(series_height(cell) for cell in block.run.others)
        yield Piece(line.answers.height + others + _RULE, keeps_next=True)
        yield Piece(block.run.head_height + len(block.run.steps) * STEP + _RUN)
    else:
        for line in block.lines:
            yield Piece(height_of(line) + _RULE)
