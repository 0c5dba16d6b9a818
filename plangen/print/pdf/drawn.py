"""The parts of a document as PDFs: those that are kept from before, and the others laid out now."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from hashlib import sha256

from plangen.kept import Kept
from plangen.print.pdf.laid import Laid
from plangen.print.pdf.parts import Part

#: How often contents may change their own length before their page numbers are taken as they are.
_ROUNDS = 3

Draw = Callable[[Sequence[str]], Iterator[tuple[int, bytes]]]
#: Begins to draw the feet of parts with some numbers of pages; gives nothing where no feet are wanted.
Feet = Callable[[Sequence[int]], Iterator[tuple[int, bytes]]]


class Drawn:
    """What makes PDFs of the parts of one document."""

    def __init__(self, parts: Sequence[Part], made_from: str, kept: Kept) -> None:
        """Look up what is kept; it goes by a digest of all that the parts share, and of each part."""
        self._parts, self._made_from, self._kept = parts, made_from, kept
        self._waiting = [place for place, part in enumerate(parts) if part.asks_pages]
        self._known: dict[int, Laid] = {}
        for place, part in enumerate(parts):
            content = None if part.asks_pages else kept.get(self._key(part))
            if content is not None:
                self._known[place] = Laid(content)

    @property
    def missing(self) -> list[str]:
        """Return the documents that have to be laid out before anything is known of page numbers."""
        return [
            part.html
            for place, part in enumerate(self._parts)
            if place not in self._known and not part.asks_pages
        ]

    def draw_others(self, draw: Draw, say: Callable[[str], None]) -> None:
        """Lay out the parts that wait for no page numbers."""
        places = [
            place
            for place, part in enumerate(self._parts)
            if place not in self._known and not part.asks_pages
        ]
        drawn = draw([self._parts[place].html for place in places])
        for number, (which, content) in enumerate(drawn, start=1):
            place = places[which]
            self._kept.put(self._key(self._parts[place]), content)
            self._known[place] = Laid(content)
            say(f"laid out {number} of {len(places)} parts")

    def draw_waiting(self, draw: Draw, feet: Feet) -> tuple[list[Laid], bytes | None]:
        """Return all parts, the contents with the page numbers of the others, and the feet of all pages.

        The feet are begun together with the contents, whose length seldom is another than thought.
        """
        counts = {place: laid.pages for place, laid in self._known.items()}
        counts |= dict.fromkeys(self._waiting, 1)
        inner = {place: laid.anchors for place, laid in self._known.items()}
        for _ in range(_ROUNDS):
            lengths = dict(counts)
            begun = feet([counts[place] for place in range(len(self._parts))])
            self._draw_contents(draw, _pages(counts, inner, len(self._parts)))
            counts |= {place: self._known[place].pages for place in self._waiting}
            if counts == lengths:
                break
        else:
            begun = feet([counts[place] for place in range(len(self._parts))])
        return [self._known[place] for place in range(len(self._parts))], next(
            (content for _, content in begun), None
        )

    def _draw_contents(self, draw: Draw, pages: dict[str, int]) -> None:
        asking = {place: self._parts[place].with_pages(pages) for place in self._waiting}
        kept = {place: self._kept.get(self._key(part)) for place, part in asking.items()}
        missing = [place for place in self._waiting if kept[place] is None]
        drawn = draw([asking[place].html for place in missing])
        for which, content in drawn:
            place = missing[which]
            self._kept.put(self._key(asking[place]), content)
            kept[place] = content
        self._known |= {place: Laid(content) for place, content in kept.items() if content is not None}

    def _key(self, part: Part) -> str:
        return sha256((self._made_from + part.html).encode()).hexdigest()


def _pages(counts: dict[int, int], inner: dict[int, dict[str, int]], many: int) -> dict[str, int]:
    """Return the page of each target in the whole, counted from 1."""
    pages: dict[str, int] = {}
    first = 1
    for place in range(many):
        for name, page in inner.get(place, {}).items():
            pages.setdefault(name, first + page)
        first += counts[place]
    return pages
