"""How wide words are on paper, so that cells are given the room that they need before anything is laid out."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from plangen.print.pdf.faces import face_file

_MM_PER_POINT = 25.4 / 72


@cache
def _advances(weight: int) -> tuple[dict[int, float], float]:
    """Return how far each character moves the pen, in shares of the type size, and how far an unknown one does."""
    from fontTools.ttLib import TTFont

    with TTFont(face_file("normal", weight), lazy=True) as font:
        metrics = font["hmtx"].metrics
        unit = font["head"].unitsPerEm
        widths = {code: metrics[name][0] / unit for code, name in font.getBestCmap().items()}
    return widths, 0.6


@cache
def width_of(words: str, size: float = 10.0, weight: int = 400) -> float:
    """Return the width of words in millimetres."""
    widths, unknown = _advances(weight)
    return sum(widths.get(ord(letter), unknown) for letter in words) * size * _MM_PER_POINT


def lines_of(words: str, room: float, size: float = 10.0, weight: int = 400) -> int:
    """Return how many lines words take in a room of so many millimetres; a word is never parted."""
    return lines_in(pieces_of(words, size, weight), room, width_of(" ", size, weight))


def pieces_of(words: str, size: float = 10.0, weight: int = 400) -> tuple[float, ...]:
    """Return the widths of what isn't parted at the end of a line, in millimetres; a no-break space holds words together."""
    return tuple(width_of(word, size, weight) for word in words.split(" ") if word)


def lines_in(pieces: Iterable[float], room: float, space: float) -> int:
    """Return how many lines pieces take that are so wide."""
    lines, used = 1, 0.0
    for wide in pieces:
        if used and used + space + wide > room:
            lines, used = lines + 1, wide
        else:
            used += (space if used else 0.0) + wide
    return lines


def lines_around(pieces: Iterable[float], beside: float, many: int, whole: float, space: float) -> int:
    """Return how many lines pieces take, of which the first so many are narrower.

    >>> lines_around([30, 30, 30, 60], 40, 2, 100, 1)
    3
    """
    lines, used = 1, 0.0
    for wide in pieces:
        if used and used + space + wide > (beside if lines <= many else whole):
            lines, used = lines + 1, wide
        else:
            used += (space if used else 0.0) + wide
    return lines
