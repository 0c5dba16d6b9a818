"""HTML becomes PDF: in parts, side by side, what is known already from before, and joined."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Sequence
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

from plangen.kept import Kept, kept_folder
from plangen.print.pdf.faces import PrintingUnavailable, faces_for

if TYPE_CHECKING:
    from plangen.print.html import Document
    from plangen.print.pdf.faces import Face
    from plangen.print.pdf.parts import Part

__all__ = ["TEMPLATES", "PrintingUnavailable", "write_pdf"]

TEMPLATES = Path(__file__).resolve().parent.parent / "templates"
_FEET = "feet.css"


def _style(name: str) -> str:
    return (TEMPLATES / name).read_text(encoding="utf-8")


def write_pdf(document: Document, identifier: str, progress: Callable[[str], None] | None = None) -> bytes:
    """Return the PDF of a document; the same document gives the same bytes, however many processes laid it out.

    Raises `PrintingUnavailable` where a system library is missing.
    """
    from plangen.print.pdf.drawn import Drawn
    from plangen.print.pdf.engine import load, versions
    from plangen.print.pdf.join import joined
    from plangen.print.pdf.parts import parts_of
    from plangen.print.pdf.workers import drawing

    load()
    kept = Kept(kept_folder())
    parts = parts_of(document.html)
    style = "".join(_style(name) for name in (document.style, document.more_style) if name)
    with tempfile.TemporaryDirectory(prefix="plangen-") as place:
        faces, cut = faces_for(frozenset(document.html) - {"\n", "\r", "\t"}, kept, lambda: Path(place))
        made_from = sha256("\0".join([versions(), str(cut), style]).encode()).hexdigest()
        letters = sum(len(part.html) for part in parts)
        with drawing(style, faces, cut, letters, len(parts)) as draw:
            drawn = Drawn(made_from, kept, draw, progress or (lambda _: None))
            contents = drawn.whole(parts)
        feet = _feet(document, parts, contents, faces, cut) if document.foot else None
    kept.tidy()
    return joined(contents, feet, identifier)


def _feet(
    document: Document, parts: Sequence[Part], contents: Sequence[bytes], faces: Sequence[Face], cut: bool
) -> bytes:
    """Return the feet of all pages as a PDF."""
    from plangen.print.pdf.engine import Engine
    from plangen.print.pdf.feet import feet_html, feet_of, page_size
    from plangen.print.pdf.join import page_count

    counts = [
        (part.title, part.counted, page_count(content)) for part, content in zip(parts, contents, strict=True)
    ]
    engine = Engine(_style(_FEET), faces, cut)
    try:
        return engine.pdf(feet_html(feet_of(document.foot, counts), page_size(document.html)), tags=False)
    finally:
        engine.close()
