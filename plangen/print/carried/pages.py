"""The pages of a clipboard, known before anything is laid out: what stands on each, and what is said again at its top.

A caution stands in full where the work that it belongs to begins, once on a page; a round that begins on the same page names
it. What goes on overleaf begins with the round's name and the cautions of the checks that are left.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Literal

from plangen.plan.day import TimetableStep
from plangen.print.carried.answers import CODE, LINE
from plangen.print.carried.blocks import Block, height_of
from plangen.print.carried.clipboards import Clipboard, RoundSheet
from plangen.print.carried.lines import Line
from plangen.print.carried.page import WIDTH, room
from plangen.print.carried.run_table import ROW as STEP
from plangen.print.carried.text_width import lines_around, lines_of, pieces_of, width_of
from plangen.print.html import Paper

#: Millimetres: a clipboard's heading with what is below it, each line of that, what lies above a round.
_HEAD, _HEAD_LINE, _BETWEEN = 9.3, 4.1, 1.4
#: Millimetres: what the head of a round has around its lines, one of these, what is written at its right.
_ROUND, ROUND_LINE, WRITTEN = 2.4, 4.1, 69.5
#: Millimetres: what a caution, a change and a round that goes on have around their lines.
_CAUTION, _CHANGE, _GOES_ON = 1.2, 1.9, 1.7
#: What a run has around its steps, and what a clipboard's page has more than another: its lower margin is narrower still, so
#: that a line more than was counted has room.
_RUN, _MORE = 1.8, 3.0
#: Letters of a fact that is never parted at the end of a line.
_WHOLE = 40
#: Millimetres: the heading of snags on a clipboard, and a snag.
_SNAGS, SNAG = 11.5, 29.6


@dataclass(frozen=True)
class Opening:
    """The head of a round as it stands on its page: facts, tools, changes before it, cautions in full and by name."""

    sheet: RoundSheet
    facts: str
    tools: str
    changes: tuple[TimetableStep, ...]
    cautions: tuple[str, ...]
    named: tuple[str, ...]
    kind: Literal["opening"] = "opening"


@dataclass(frozen=True)
class GoesOn:
    """A round that goes on at the top of a page."""

    sheet: RoundSheet
    cautions: tuple[str, ...]
    kind: Literal["goes-on"] = "goes-on"


@dataclass(frozen=True)
class Share:
    """As much of a block as stands on one page; what stands above its items is said where it begins."""

    block: Block
    lines: tuple[Line, ...]
    begins: bool

    @property
    def kind(self) -> str:
        """Return how its lines stand."""
        return self.block.kind


Entry = Opening | GoesOn | Share


@dataclass
class Page:
    """One page: what stands on it and how much of it is used, what it says of cautions and setting."""

    entries: list[Entry] = field(default_factory=list)
    used: float = 0.0
    said: set[str] = field(default_factory=set)
    setting: str = ""


@dataclass(frozen=True)
class Board:
    """A clipboard with its pages, and the snags that its last page has room for."""

    clipboard: Clipboard
    pages: tuple[Page, ...]
    snags: range


def boards_of(clipboards: Sequence[Clipboard], paper: Paper) -> tuple[Board, ...]:
    """Return the clipboards with their pages, and snags where the last of these have room, numbered through."""
    found = []
    after = 0
    for clipboard in clipboards:
        pages = pages_of(clipboard, room(paper) + _MORE)
        many = max(0, int((room(paper) + _MORE - pages[-1].used - _SNAGS) // SNAG))
        found.append(Board(clipboard, pages, range(after + 1, after + many + 1)))
        after += many
    return tuple(found)


def danger_of(caution: str) -> str:
    """Return what a caution warns of.

    >>> danger_of("Mains: only a qualified person opens a live enclosure.")
    'Mains'
    """
    return re.split(r"[:.;]", caution, maxsplit=1)[0]


def in_short(caution: str) -> str:
    """Return the first sentence of a caution, which says what matters.

    >>> in_short("Batteries are heavy. Lift with two people.")
    'Batteries are heavy.'
    """
    return re.split(r"(?<=[.!]) ", caution, maxsplit=1)[0]


def pages_of(clipboard: Clipboard, page: float) -> tuple[Page, ...]:
    """Return the pages of a clipboard, each with so much height."""
    pages = [Page(used=_head_height(clipboard))]
    for sheet in clipboard.rounds:
        units = list(_units(sheet))
        opening, high = _opening(sheet, pages[-1])
        if pages[-1].used + high + units[0].high > page:
            pages.append(Page())
            opening, high = _opening(sheet, pages[-1])
        _put(pages[-1], opening, high)
        for number, unit in enumerate(units):
            if number and pages[-1].used + unit.high > page:
                left = [line for other in units[number:] for line in other.lines]
                again = GoesOn(sheet, tuple(in_short(text) for text in sheet.cautions_of(left)))
                pages.append(Page(setting=sheet.setting))
                _put(pages[-1], again, _goes_on_height(again))
                pages[-1].used += unit.again
            _put_lines(pages[-1], unit)
    return tuple(pages)


@dataclass(frozen=True)
class _Unit:
    """What is never parted: lines of a block, how high they stand, what comes above them at the top of a page."""

    block: Block
    lines: tuple[Line, ...]
    high: float
    again: float = 0.0
    begins: bool = False


def _put(page: Page, entry: Opening | GoesOn, high: float) -> None:
    page.entries.append(entry)
    page.used += high
    page.said |= set(entry.cautions)
    if isinstance(entry, Opening):
        page.said |= {step.caution for step in entry.changes if step.caution}
        page.setting = entry.sheet.setting


def _put_lines(page: Page, unit: _Unit) -> None:
    last = page.entries[-1]
    if isinstance(last, Share) and last.block is unit.block:
        page.entries[-1] = Share(unit.block, (*last.lines, *unit.lines), last.begins)
    else:
        page.entries.append(Share(unit.block, unit.lines, unit.begins))
    page.used += unit.high


def _units(sheet: RoundSheet) -> Iterator[_Unit]:
    for block in sheet.blocks:
        if block.pairs is not None:
            for number, row in enumerate(block.pairs.rows):
                above = 0.0 if number else block.pairs.words_height
                yield _Unit(block, row, above + STEP, begins=not number)
        elif block.items is not None:
            head = block.items.head_height
            for number, line in enumerate(block.lines):
                above = 0.0 if number else block.items.words_height + head
                high = above + block.items.row_height(line)
                yield _Unit(block, (line,), high, head if number else 0.0, not number)
        elif block.run is not None:
            steps = block.run.head_height + len(block.run.steps) * STEP + _RUN
            yield _Unit(block, block.lines, height_of(block.lines[0]) + steps, begins=True)
        else:
            for line in block.lines:
                yield _Unit(block, (line,), height_of(line), begins=True)


def _opening(sheet: RoundSheet, page: Page) -> tuple[Opening, float]:
    """Return the head of a round as it would stand next on a page, and its height."""
    changed = {step.caution for step in sheet.changes if step.caution}
    told = page.said | changed
    every = sheet.cautions_of(sheet.lines)
    facts = [sheet.minutes, *([sheet.people] if sheet.people else [])]
    facts += [*([sheet.setting] if sheet.setting != page.setting else []), *sheet.states]
    facts = [fact.replace(" ", "\u00a0") if len(fact) <= _WHOLE else fact for fact in facts]
    dot = width_of("\u00a0·")
    start = (
        *pieces_of(sheet.title, 12, 700),
        *([width_of(sheet.start, weight=700) + dot + 1.0] if sheet.start else [1.0]),
    )
    said = (*start, *pieces_of("\u00a0· ".join(facts)))
    whole, space = WIDTH - CODE, width_of(" ")
    lines = lines_around(said, whole - WRITTEN, 1, whole, space)
    tools = _tools(sheet.tools, said, lines)
    opening = Opening(
        sheet=sheet,
        facts="\u00a0· ".join(facts),
        tools=tools,
        changes=sheet.changes,
        cautions=tuple(text for text in every if text not in told),
        named=tuple(danger_of(text) for text in every if text in told),
    )
    high = (_BETWEEN if page.used else 0.0) + _ROUND + lines * ROUND_LINE
    for step in sheet.changes:
        words = f"{step.clock} First: {step.title}, 00 min. {step.caution or ''}"
        high += _CHANGE + LINE * lines_of(words, WIDTH - 5)
    return opening, high + _caution_height(cautions_said(opening.cautions, opening.named))


def cautions_said(cautions: Iterable[str], named: Iterable[str] = ()) -> str:
    """Return cautions as they stand at the head of a round, those by name that are said above on the page."""
    names = list(named)
    above = [f"As above: {', '.join([names[0], *(_lower(name) for name in names[1:])])}."] if names else []
    return " ".join([*above, *cautions])


def _lower(name: str) -> str:
    return name if name[1:2].isupper() else name[:1].lower() + name[1:]


def _tools(tools: Sequence[str], said: Sequence[float], lines: int) -> str:
    """Return what to take along, as much as the last line of the facts has room for; the kit has it by round."""
    whole, space = WIDTH - CODE, width_of(" ")
    for many in range(len(tools), 0, -1):
        more = len(tools) - many
        words = ", ".join([*tools[:many], *([f"{more} more"] if more else [])])
        pieces = (*said[:-1], said[-1] + width_of("\u00a0·"), *pieces_of(f"with {words}", 8))
        if lines_around(pieces, whole - WRITTEN, 1, whole, space) <= lines:
            return words
    return ""


def _caution_height(words: str) -> float:
    return _CAUTION + LINE * lines_of(f"Caution. {words}", WIDTH - 3.1) if words else 0.0


def _goes_on_height(again: GoesOn) -> float:
    words = (
        f"{again.sheet.round.number} {again.sheet.title}, goes on. Caution. {cautions_said(again.cautions)}"
    )
    return _GOES_ON + LINE * lines_of(words, WIDTH - 5)


def _head_height(clipboard: Clipboard) -> float:
    words = f"{clipboard.facts}; also {', '.join(clipboard.beside)} {'n' * 70}"
    return _HEAD + _HEAD_LINE * lines_of(words, WIDTH)
