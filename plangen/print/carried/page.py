"""The room on a page, and heights of what is put there, known before anything is laid out."""

from __future__ import annotations

from collections.abc import Iterable

from plangen.print.carried.text_width import lines_of
from plangen.print.html import Paper

#: What the margins of carried.css leave of a page, in millimetres.
_HEIGHT: dict[Paper, float] = {"A4": 271.0, "letter": 253.4}
WIDTH = 183.0
#: Half of the width, without the gap between two columns, and a third.
HALF, THIRD = 88.0, 57.7
_LINE = 1.22 * 10 * 25.4 / 72


def room(paper: Paper) -> float:
    """Return the height that a page has, in millimetres."""
    return _HEIGHT[paper]


def height(words: str, width: float, size: float = 10.0, pad: float = 0.0, least: float = 0.0) -> float:
    """Return how high words stand, in millimetres."""
    return max(lines_of(words, width, size) * _LINE * size / 10 + pad, least)


def in_columns(heights: Iterable[float], columns: int) -> float:
    """Return the height of things that follow one another in balanced columns."""
    each = list(heights)
    return (sum(each) + max(each, default=0.0) * (columns - 1)) / columns
