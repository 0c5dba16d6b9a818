"""HTML becomes PDF with WeasyPrint, which is imported only here and only when a PDF is made."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from plangen.print.html import Document

TEMPLATES = Path(__file__).resolve().parent / "templates"
_FACES = {
    ("normal", 400): "SourceSansPro-Regular.ttf",
    ("italic", 400): "SourceSansPro-It.ttf",
    ("normal", 600): "SourceSansPro-Semibold.ttf",
    ("normal", 700): "SourceSansPro-Bold.ttf",
}

#: Pictures come as data in the document; what else a data URI may hold, as drawings that name files, is refused.
_OWN_PICTURES = ("data:image/jpeg;base64,", "data:image/png;base64,")


class PrintingUnavailable(RuntimeError):
    """The libraries that a PDF needs aren't on this machine."""


def _font_folder() -> Path:
    from importlib.util import find_spec

    spec = find_spec("font_source_sans_pro")
    if spec is None or not spec.submodule_search_locations:
        raise PrintingUnavailable("the package font-source-sans-pro is missing: install plangen again")
    return Path(next(iter(spec.submodule_search_locations))) / "files"


def _load() -> Any:
    try:
        import weasyprint
    except OSError as error:
        raise PrintingUnavailable(
            "no PDF: the Pango library is missing; on Debian or Ubuntu install libpango-1.0-0 and libpangoft2-1.0-0, "
            "on macOS pango from your package manager"
        ) from error
    return weasyprint


def _fetcher(weasyprint: Any, allowed: frozenset[Path]) -> Any:
    """Return a fetcher that reads our own fonts, pictures that the document holds itself, and nothing else."""
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


def _style(name: str) -> str:
    return (TEMPLATES / name).read_text(encoding="utf-8")


def _finish_forms(document: Any, pdf: Any) -> None:
    """Give each tick box the appearance that viewers draw a tick with, and pages the tab order of their structure.

    A tick box is drawn anew by some viewers when it is ticked; without a default appearance (ISO 32000-1, 12.7.3.3)
    they draw nothing.
    """
    import pydyf

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


def write_pdf(document: Document, identifier: str, progress: Callable[[str], None] | None = None) -> bytes:
    """Return the PDF of a document; the same document gives the same bytes.

    Raises `PrintingUnavailable` where a system library is missing.
    """
    with _temporary_folder():
        return _print(document, identifier, progress)


@contextmanager
def _temporary_folder() -> Iterator[None]:
    """Let the printer put its copies of the fonts into a folder that is taken away, however the process ends later."""
    before = tempfile.tempdir
    with tempfile.TemporaryDirectory(prefix="plangen-", ignore_cleanup_errors=True) as folder:
        tempfile.tempdir = folder
        try:
            yield
        finally:
            tempfile.tempdir = before


def _print(document: Document, identifier: str, progress: Callable[[str], None] | None) -> bytes:
    weasyprint = _load()
    from weasyprint.text.fonts import FontConfiguration

    folder = _font_folder()
    files = frozenset((folder / name).resolve() for name in _FACES.values())
    faces = "\n".join(
        f"@font-face {{ font-family: 'Plan Sans'; font-style: {style}; font-weight: {weight}; src: url('{(folder / name).as_uri()}'); }}"
        for (style, weight), name in _FACES.items()
    )
    os.environ.setdefault("SOURCE_DATE_EPOCH", "0")
    fetcher = _fetcher(weasyprint, files)
    fonts = FontConfiguration()
    sheet = weasyprint.CSS(
        string=faces + "".join(_style(name) for name in (document.style, document.more_style) if name),
        font_config=fonts,
        url_fetcher=fetcher,
    )
    if progress:
        progress("laying out pages")
    laid_out = weasyprint.HTML(string=document.html, url_fetcher=fetcher, base_url=None).render(
        stylesheets=[sheet], font_config=fonts, pdf_forms=True
    )
    if progress:
        progress(f"writing {len(laid_out.pages)} pages")
    pdf: bytes = laid_out.write_pdf(
        pdf_identifier=identifier.encode(),
        pdf_forms=True,
        pdf_tags=True,
        full_fonts=False,
        finisher=_finish_forms,
    )
    return pdf
