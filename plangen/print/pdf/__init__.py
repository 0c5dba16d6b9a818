"""HTML becomes PDF: in parts, side by side, what is known already from before, and joined."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Iterator, Sequence
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

from plangen.kept import Kept, kept_folder
from plangen.print.pdf.faces import PrintingUnavailable

if TYPE_CHECKING:
    from plangen.print.html import Document
    from plangen.print.pdf.parts import Part
    from plangen.print.pdf.tasks import Setting
    from plangen.print.pdf.workers import Crew

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
    from plangen.print.pdf.engine import versions
    from plangen.print.pdf.faces import cut_down, cut_faces, may_be_cut, whole_faces
    from plangen.print.pdf.join import joined
    from plangen.print.pdf.parts import parts_of
    from plangen.print.pdf.tasks import Setting, Task, draw
    from plangen.print.pdf.workers import crew

    say = progress or (lambda _: None)
    kept = Kept(kept_folder())
    parts = parts_of(document.html)
    style = "".join(_style(name) for name in (document.style, document.more_style) if name)
    cut = may_be_cut(frozenset(document.html))
    made_from = sha256("\0".join([versions(), str(cut), style]).encode()).hexdigest()
    drawn = Drawn(parts, made_from, kept)
    missing = drawn.missing
    with (
        tempfile.TemporaryDirectory(prefix="plangen-") as place,
        crew(sum(map(len, missing)), len(missing)) as workers,
    ):
        folder = Path(place)
        faces = cut_faces(folder, kept, lambda wholes: workers.do(cut_down, wholes)) if cut else whole_faces()
        say("faces ready")
        setting = Setting(faces, cut)

        def lay_out(documents: Sequence[str]) -> Iterator[tuple[int, bytes]]:
            return workers.do(
                draw, [Task(setting, style, html) for html in documents], lambda task: len(task.html)
            )

        def feet(counts: Sequence[int]) -> Iterator[tuple[int, bytes]]:
            if not document.foot:
                return iter(())
            return workers.do(
                draw, [Task(setting, _style(_FEET), _feet(document, parts, counts), tags=False)]
            )

        shared = _shared_faces(setting, kept, workers)
        drawn.draw_others(lay_out, say)
        laid, drawn_feet = drawn.draw_waiting(lay_out, feet)
        held = shared()
        say("contents and feet drawn")
    kept.tidy()
    content = joined(laid, held, drawn_feet, identifier)
    say("joined")
    return content


def _shared_faces(setting: Setting, kept: Kept, workers: Crew) -> Callable[[], bytes | None]:
    """Begin a PDF that holds the faces which parts only name, and return what gives it."""
    from plangen.print.pdf.engine import versions
    from plangen.print.pdf.tasks import draw_faces

    if not setting.cut:
        return lambda: None
    said = [versions(), *(sha256(face.file.read_bytes()).hexdigest() for face in setting.faces)]
    key = sha256("\0".join(["held faces 1", *said]).encode()).hexdigest()
    known = kept.get(key)
    if known is not None:
        return lambda: known
    begun = workers.do(draw_faces, [setting])

    def made() -> bytes:
        _, content = next(begun)
        kept.put(key, content)
        return content

    return made


def _feet(document: Document, parts: Sequence[Part], counts: Sequence[int]) -> str:
    """Return the document of the feet of all pages."""
    from plangen.print.pdf.feet import feet_html, feet_of, paper_of

    counted = [(part.title, part.counted, count) for part, count in zip(parts, counts, strict=True)]
    return feet_html(feet_of(document.foot, counted), paper_of(document.html))
