"""A part as it was laid out: a PDF, opened once for all that is asked of it."""

from __future__ import annotations

import io
from functools import cached_property
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pikepdf import Pdf


class Laid:
    """The PDF of a part."""

    def __init__(self, content: bytes) -> None:
        """Hold its bytes."""
        self._content = content

    @cached_property
    def pdf(self) -> Pdf:
        """The PDF, opened."""
        import pikepdf

        return pikepdf.open(io.BytesIO(self._content))

    @cached_property
    def pages(self) -> int:
        """How many pages it has."""
        return len(self.pdf.pages)

    @cached_property
    def anchors(self) -> dict[str, int]:
        """The page of each named target, from 0."""
        numbers = {page.objgen: number for number, page in enumerate(self.pdf.pages)}
        return {name: numbers[target[0].objgen] for name, target in targets(self.pdf.Root)}


def targets(catalog: Any) -> list[tuple[str, Any]]:
    """Return the named targets of a PDF: name, then page and place."""
    if "/Names" not in catalog or "/Dests" not in catalog.Names:
        return []
    entries = list(catalog.Names.Dests.Names)
    return [(str(name), target) for name, target in zip(entries[::2], entries[1::2], strict=True)]
