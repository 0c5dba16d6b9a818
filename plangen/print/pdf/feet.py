"""The feet of all pages, drawn when it is known how many pages there are: boat and plan, part, page numbers."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from html import escape


@dataclass(frozen=True)
class Foot:
    """The foot of one page."""

    left: str
    middle: str
    right: str


def feet_of(foot: str, parts: Sequence[tuple[str, bool, int]]) -> list[Foot]:
    """Return the foot of each page of parts that have a title, may be counted by themselves, and have some pages.

    >>> [one.right for one in feet_of("Tern", [("Cover", False, 1), ("Clipboard A", True, 2)])]
    ['page 1 of 3', 'page 1 of 2 of this clipboard, 2 of 3', 'page 2 of 2 of this clipboard, 3 of 3']
    """
    total = sum(pages for _, _, pages in parts)
    feet: list[Foot] = []
    for title, counted, pages in parts:
        for page in range(1, pages + 1):
            whole = f"{len(feet) + 1} of {total}"
            own = f"page {page} of {pages} of this clipboard, {whole}" if counted else f"page {whole}"
            feet.append(Foot(foot, title, own))
    return feet


#: Height of the place of each foot on the page that holds all, three lines; and how far below the lower edge of what a page
#: holds a foot begins, in pixels of CSS.
ROW, _BELOW = 60, 3.6 * 96 / 25.4
#: The lower margin of all paper with such feet, in millimetres.
_MARGIN = 14
_WIDTHS = {"A4": "210mm", "letter": "8.5in"}
#: A piece of text as WeasyPrint draws it: what comes before its place, and how far down it stands.
_TEXT = re.compile(rb"BT\n.*?\nET", re.DOTALL)
_DOWN = re.compile(rb"1 0 0 -1 [-\d.]+ ([-\d.]+) Tm")


def feet_html(feet: Sequence[Foot], paper: str) -> str:
    """Return a document with all feet on a single page, as wide as the paper."""
    rows = "".join(
        f"<div><p>{escape(foot.left)}</p><p>{escape(foot.middle)}</p><p>{escape(foot.right)}</p></div>"
        for foot in feet
    )
    size = f"@page {{ size: {_WIDTHS.get(paper, _WIDTHS['A4'])} {ROW * len(feet)}px; }}"
    return f'<!doctype html><html lang="en"><head><meta charset="utf-8"><title>feet</title><style>{size}</style></head><body>{rows}</body></html>'


def paper_of(html: str) -> str:
    """Return the name of a document's paper."""
    found = re.search(r"@page \{ size: ([^ ;}]+)", html)
    return found[1] if found else "A4"


def feet_drawn(drawn: bytes, heights: Sequence[float]) -> list[bytes]:
    """Return what draws the foot of each page, out of what draws all; pages have some heights in points."""
    pieces: list[list[bytes]] = [[] for _ in heights]
    for piece in _TEXT.findall(drawn):
        place = _DOWN.search(piece)
        if place is not None:
            pieces[int(float(place[1]) // ROW)].append(piece)
    return [
        _placed(b"\n".join(texts), height, number)
        for number, (texts, height) in enumerate(zip(pieces, heights, strict=True))
    ]


def _placed(texts: bytes, height: float, number: int) -> bytes:
    top = height / 0.75 - _MARGIN * 96 / 25.4 + _BELOW
    return (
        f"q 0.75 0 0 -0.75 0 {height:.2f} cm 1 0 0 1 0 {top - number * ROW:.2f} cm\n".encode()
        + texts
        + b"\nQ"
    )
