"""One HTML document becomes one PDF with WeasyPrint, which is imported only here and only when a PDF is made."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from plangen.print.pdf.faces import Face, PrintingUnavailable
from plangen.print.pdf.lean import lean_drawings, lean_tags

#: Pictures come as data in the document; what else a data URI may hold, as drawings that name files, is refused.
_OWN_PICTURES = ("data:image/jpeg;base64,", "data:image/png;base64,")


def versions() -> str:
    """Return the versions of what lays out and writes, which decide the bytes."""
    from importlib.metadata import version

    return " ".join(f"{name} {version(name)}" for name in ("weasyprint", "pydyf", "pikepdf"))


def load() -> Any:
    """Import WeasyPrint. Raises `PrintingUnavailable` where a system library is missing."""
    try:
        import weasyprint
    except OSError as error:
        raise PrintingUnavailable(
            "no PDF: the Pango library is missing; on Debian or Ubuntu install libpango-1.0-0 and libpangoft2-1.0-0, "
            "on macOS pango from your package manager"
        ) from error
    return weasyprint


def _fetcher(weasyprint: Any, allowed: frozenset[Path]) -> Any:
    """Return a fetcher that reads our own faces, pictures that the document holds itself, and nothing else."""
    from urllib.parse import unquote, urlsplit

    class OwnFilesOnly(weasyprint.urls.URLFetcher):  # type: ignore[misc]
        def fetch(self, url: str, headers: Any = None) -> Any:
            if url.startswith(_OWN_PICTURES):
                return super().fetch(url, headers)
            parts = urlsplit(url)
            if parts.scheme != "file" or Path(unquote(parts.path)).resolve() not in allowed:
                raise ValueError(f"not one of the program's own files: {url}")
            return super().fetch(url, headers)

    return OwnFilesOnly()


def _finish(document: Any, pdf: Any) -> None:
    """Give each tick box the appearance that viewers draw a tick with, and pages the tab order of their structure.

    A tick box is drawn anew by some viewers when it is ticked; without a default appearance (ISO 32000-1, 12.7.3.3)
    they draw nothing.
    """
    import pydyf

    lean_tags(pdf)
    lean_drawings(pdf)
    marks = pydyf.Dictionary({"Type": "/Font", "Subtype": "/Type1", "BaseFont": "/ZapfDingbats"})
    pdf.add_object(marks)
    for entry in pdf.objects:
        if not isinstance(entry, pydyf.Dictionary):
            continue
        if entry.get("Subtype") == "/Widget" and entry.get("FT") == "/Btn":
            entry["DA"] = pydyf.String("/ZaDb 12 Tf 0 g")
            entry["MK"]["CA"] = pydyf.String("4")
        if entry.get("Type") == "/Page":
            entry["Tabs"] = "/S"
    form = pdf.catalog.get("AcroForm")
    if form is not None:
        form["DA"] = pydyf.String("/ZaDb 12 Tf 0 g")
        number = int(form["DR"].split()[0])
        resources = next(entry for entry in pdf.objects if entry.number == number)
        fonts = resources["Font"]
        if isinstance(fonts, bytes):
            number = int(fonts.split()[0])
            fonts = next(entry for entry in pdf.objects if entry.number == number)
        fonts["ZaDb"] = marks.reference


class Engine:
    """What lays out documents in one style sheet; the faces are loaded once."""

    def __init__(self, style: str, faces: Sequence[Face], cut: bool) -> None:
        """Load style and faces. Cut faces are written whole, so that all documents hold the same."""
        self._weasyprint = load()
        from weasyprint.text.fonts import FontConfiguration

        os.environ.setdefault("SOURCE_DATE_EPOCH", "0")
        self._cut = cut
        self._fonts = FontConfiguration()
        self._fetcher = _fetcher(self._weasyprint, frozenset(face.file.resolve() for face in faces))
        named = "\n".join(
            f"@font-face {{ font-family: 'Plan Sans'; font-style: {face.style}; font-weight: {face.weight}; "
            f"src: url('{face.file.resolve().as_uri()}'); }}"
            for face in faces
        )
        self._sheet = self._weasyprint.CSS(
            string=named + style, font_config=self._fonts, url_fetcher=self._fetcher
        )

    def pdf(self, html: str, identifier: str = "", tags: bool = True) -> bytes:
        """Return the PDF of a document; the same document gives the same bytes."""
        laid_out = self._weasyprint.HTML(string=html, url_fetcher=self._fetcher, base_url=None).render(
            stylesheets=[self._sheet], font_config=self._fonts, pdf_forms=True
        )
        pdf: bytes = laid_out.write_pdf(
            pdf_identifier=identifier.encode(),
            pdf_forms=True,
            pdf_tags=tags,
            full_fonts=self._cut,
            finisher=_finish,
        )
        return pdf

    def close(self) -> None:
        """Remove what the engine keeps in the temporary folder."""
        self._fonts.__del__()
