"""A check that stands on a clipboard again: its words are printed once, and the later ones name where they stand.

What differs from the first time is always printed: its item, grade and limits, and each instruction that isn't the same.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace

from plangen.print.carried.lines import Cell, Line

#: Words after which what is read is only told more closely.
_CLOSER = re.compile(
    r",| (?:above|after|as|at|before|below|between|by|for|from|in|of|on|over|per|since|to|under|when|while|with|within|without) "
)


def said_once(lines: Iterable[Line]) -> list[Line]:
    """Return the lines of a clipboard in their order, those whose words stand above without them."""
    first: dict[tuple[str, str], Line] = {}
    found = []
    for line in lines:
        full = first.setdefault((line.check.rule, line.do), line)
        short = line if full is line else _referring(line, full)
        found.append(short if sum(short.pieces) < sum(line.pieces) else line)
    return found


def _referring(line: Line, full: Line) -> Line:
    above = {cell.id: cell for cell in full.cells}
    cells = tuple(_without_said(cell, above.get(cell.id)) for cell in line.cells)
    short = [_noun(cell, above.get(cell.id)) for cell in cells]
    cells = tuple(
        replace(cell, words=words) if short.count(words) == 1 else cell
        for cell, words in zip(cells, short, strict=True)
    )
    return replace(line, like=full.code, cells=cells)


def _without_said(cell: Cell, above: Cell | None) -> Cell:
    """Return a reading without those of its parts that stand above in the same place."""
    if above is None or len(above.parts) != len(cell.parts):
        return cell
    own = tuple(part for part, said in zip(cell.parts, above.parts, strict=True) if part != said)
    return replace(cell, parts=own)


def _noun(cell: Cell, above: Cell | None) -> str:
    """Return what is read in a few words, where the same words stand above."""
    if above is None or above.words != cell.words or not cell.letter:
        return cell.words
    return shortest(cell.words, lists=not cell.good)


def shortest(words: str, lists: bool = False) -> str:
    """Return what is read without what tells it more closely, but never a single word; a list is never cut short.

    >>> shortest("voltage lost between battery and pump"), shortest("cold water at the start")
    ('voltage lost', 'cold water')
    >>> shortest("time to empty the tray"), shortest("rise in the bowl overnight, in all")
    ('time to empty the tray', 'rise in the bowl overnight')
    >>> shortest("marked bronze, brass or composite, no pink", lists=True)
    'marked bronze, brass or composite, no pink'
    """
    if lists and "," in words:
        return words
    for closer in _CLOSER.finditer(words):
        said = words[: closer.start()]
        if " " in said:
            return said
    return words
