"""The parts of a document as PDFs: those that are kept from before, and the others laid out now."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from hashlib import sha256

from plangen.kept import Kept
from plangen.print.pdf.join import anchors, page_count
from plangen.print.pdf.parts import Part
from plangen.print.pdf.workers import Draw

#: How often contents may change their own length before their page numbers are taken as they are.
_ROUNDS = 3


class Drawn:
    """What makes PDFs of parts."""

    def __init__(self, made_from: str, kept: Kept, draw: Draw, say: Callable[[str], None]) -> None:
        """Draw with something that lays out; what is kept goes by a digest of all that the parts share."""
        self._made_from, self._kept, self._draw, self._say = made_from, kept, draw, say

    def whole(self, parts: Sequence[Part]) -> list[bytes]:
        """Return the PDF of each part, the contents with the page numbers of the others."""
        known = dict(
            zip(
                [place for place, part in enumerate(parts) if not part.asks_pages],
                self._parts([part for part in parts if not part.asks_pages]),
                strict=True,
            )
        )
        asking = [place for place, part in enumerate(parts) if part.asks_pages]
        counts = {place: page_count(content) for place, content in known.items()}
        counts |= dict.fromkeys(asking, 1)
        inner = {place: anchors(content) for place, content in known.items()}
        for _ in range(_ROUNDS if asking else 0):
            pages = _pages(counts, inner, len(parts))
            made = self._parts([parts[place].with_pages(pages) for place in asking])
            known |= dict(zip(asking, made, strict=True))
            lengths = {place: page_count(known[place]) for place in asking}
            if all(counts[place] == length for place, length in lengths.items()):
                break
            counts |= lengths
        return [known[place] for place in range(len(parts))]

    def _parts(self, parts: Sequence[Part]) -> list[bytes]:
        keys = [sha256((self._made_from + part.html).encode()).hexdigest() for part in parts]
        found = {key: self._kept.get(key) for key in keys}
        missing = {key: part.html for key, part in zip(keys, parts, strict=True) if found[key] is None}
        for number, (key, content) in enumerate(
            zip(missing, self._draw(list(missing.values())), strict=True)
        ):
            self._say(f"laid out {number + 1} of {len(missing)} parts")
            self._kept.put(key, content)
            found[key] = content
        return [one for key in keys if (one := found[key]) is not None]


def _pages(counts: dict[int, int], inner: dict[int, dict[str, int]], many: int) -> dict[str, int]:
    """Return the page of each target in the whole, counted from 1."""
    pages: dict[str, int] = {}
    first = 1
    for place in range(many):
        for name, page in inner.get(place, {}).items():
            pages.setdefault(name, first + page)
        first += counts[place]
    return pages
