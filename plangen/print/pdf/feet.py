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


def feet_html(feet: Sequence[Foot], page_style: str) -> str:
    """Return a document of empty pages with these feet, on the paper that a style says."""
    rows = "".join(
        f"<div><p>{escape(foot.left)}</p><p>{escape(foot.middle)}</p><p>{escape(foot.right)}</p></div>"
        for foot in feet
    )
    return f'<!doctype html><html lang="en"><head><meta charset="utf-8"><title>feet</title><style>{page_style}</style></head><body>{rows}</body></html>'


def page_size(html: str) -> str:
    """Return the rule that gives a document's paper."""
    found = re.search(r"@page \{ size: [^}]*\}", html)
    return found[0] if found else ""
