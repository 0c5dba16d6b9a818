"""A document comes apart into what starts on a page of its own, so that each part is laid out by itself.

A template marks where a part begins with a comment, which `part_mark` writes. What one part says of another is settled
here: page numbers of the contents, and links.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup

_MARK = re.compile(r"<!--part (\{.*?\})-->")
_STYLE = re.compile(r"<style>.*?</style>", re.DOTALL)
_ID = re.compile(r'\sid="([^"]+)"')
_LINK = re.compile(r'(<a class="pages[^"]*" )?href="#([^"]+)"')
_PAGES = re.compile(r'<a class="(pages[^"]*)" href="#([^"]+)"(?: data-end="#([^"]+)")?></a>')

#: Links from part to part are written with this scheme and made inner links when the parts are joined.
SCHEME = "part"


def part_mark(title: str, counted: bool = False) -> Markup:
    """Return the mark of a part: its title, for the foot of its pages, and whether its pages are counted by themselves."""
    said = (
        json.dumps({"title": title, "counted": counted})
        .replace("<", "\\u003c")
        .replace(">", "\\u003e")
        .replace("-", "\\u002d")
    )
    return Markup(f"<!--part {said}-->")


@dataclass(frozen=True)
class Part:
    """What starts on a page of its own, as a document of its own."""

    title: str
    counted: bool
    html: str
    ids: frozenset[str]

    @property
    def asks_pages(self) -> bool:
        """Whether the part says on which pages others are, and so has to wait for them."""
        return _PAGES.search(self.html) is not None

    def with_pages(self, pages: Mapping[str, int]) -> Part:
        """Return the part with the page numbers of its contents written in."""

        def written(found: re.Match[str]) -> str:
            first, last = pages.get(found[2]), pages.get(found[3] or "")
            said = (
                ""
                if first is None
                else f"{first}–{last}"
                if last is not None and last > first
                else f"{first}"
            )
            return f'<a class="{found[1]}" href="{SCHEME}:{found[2]}">{said}</a>'

        return Part(self.title, self.counted, _PAGES.sub(written, self.html), self.ids)


def parts_of(html: str) -> tuple[Part, ...]:
    """Return the parts of a document; one without marks is a single part."""
    pieces = _MARK.split(html)
    if len(pieces) == 1:
        return (Part("", False, html, frozenset(_ID.findall(html))),)
    before, marks, bodies = pieces[0], pieces[1::2], pieces[2::2]
    last, _, _ = bodies[-1].rpartition("</body>")
    bodies = [*bodies[:-1], last or bodies[-1]]
    lean = _lean_head(before)
    parts = []
    for place, (mark, body) in enumerate(zip(marks, bodies, strict=True)):
        ids = frozenset(_ID.findall(body))
        said = json.loads(mark)
        whole = f"{before if place == 0 else lean}{_linked(body, ids)}</body></html>"
        parts.append(Part(said["title"], said["counted"], whole, ids))
    return tuple(parts)


def _linked(body: str, ids: frozenset[str]) -> str:
    """Return a part with its links to other parts written so; those of its contents wait for their numbers."""
    return _LINK.sub(
        lambda found: found[0] if found[1] or found[2] in ids else f'href="{SCHEME}:{found[2]}"', body
    )


def _lean_head(before: str) -> str:
    """Return the head of a part that isn't the first: nothing of the boat, so that hulls of one model share parts."""
    styles = "".join(_STYLE.findall(before))
    return f'<!doctype html><html lang="en"><head><meta charset="utf-8">{styles}</head><body>'
