"""One HTML document becomes one PDF with WeasyPrint, which is imported only here and only when a PDF is made."""

from __future__ import annotations

import gc
import os
import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from plangen.print.pdf.faces import FACES, Face, PrintingUnavailable
from plangen.print.pdf.finish import finish_with

#: Pictures come as data in the document; what else a data URI may hold, as drawings that name files, is refused.
_OWN_PICTURES = ("data:image/jpeg;base64,", "data:image/png;base64,")

#: New objects since the last search for cycles, beyond which one is made between two documents: some twenty pages.
_MANY_OBJECTS = 500_000
#: Rules of WeasyPrint's own style that no document of ours needs: for notes, which match each element five times over, and
#: for scripts from right to left and frames of old tables, which are tried on each element.
_NEEDLESS = re.compile(
    r"^(?:\*?::(?:footnote|note)-[a-z]+|.*\[(?:dir|rules|frame)\b).*\{[^}]*\}$", re.MULTILINE
)
#: The same for what marks an item of a list: here only where there is an item.
_OF_MARKERS = re.compile(r"^\*?::marker(?= \{)", re.MULTILINE)


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
    from weasyprint.pdf import fonts

    fonts.harfbuzz_subset = None  # not every machine has it, and it cuts faces to other bytes than fontTools
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


def _lean_html(weasyprint: Any) -> Any:
    """Return WeasyPrint's HTML with its own style freed of rules that only cost: a style is worked out for each match."""
    from importlib.resources import files

    sheets = files("weasyprint.css")
    whole = (sheets / "html5_ua.css").read_text("utf-8")
    lean = _OF_MARKERS.sub("li::marker", _NEEDLESS.sub("", whole))
    own = weasyprint.CSS(string=lean)
    with_forms = weasyprint.CSS(string=lean + (sheets / "html5_ua_form.css").read_text("utf-8"))

    class LeanStyle(weasyprint.HTML):  # type: ignore[misc]
        def _ua_stylesheets(self, forms: bool = False) -> list[Any]:
            return [with_forms if forms else own]

    return LeanStyle


class _Classes(dict[Any, Any]):
    """Regular expressions for runs of some characters, by these and whether they are meant or the others."""

    def __missing__(self, key: tuple[frozenset[str], bool]) -> re.Pattern[str]:
        characters, opposite = key
        inside = "".join(re.escape(one) for one in sorted(characters))
        made = self[key] = re.compile(f"[{'' if opposite else '^'}{inside}]+")
        return made


def _remember_classes() -> None:
    """Let the reader of HTML find the expressions that it keeps: it keeps them under a key by which it never looks."""
    from tinyhtml5 import inputstream

    if isinstance(getattr(inputstream, "characters_until_regex", None), dict):
        inputstream.characters_until_regex = _Classes()


@contextmanager
def _without_searching() -> Iterator[None]:
    """Lay out without Python's search for cycles, which would walk the whole growing tree of boxes again and again.

    What a document leaves behind is searched afterwards, where it is much.
    """
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if gc.get_count()[0] > _MANY_OBJECTS:
            gc.collect()
        if was:
            gc.enable()


class Engine:
    """What lays out documents; the faces are loaded once, and each style is read once."""

    def __init__(self, faces: Sequence[Face], cut: bool) -> None:
        """Load the faces. Cut ones are the same in all documents, which only name them."""
        self._weasyprint = load()
        from weasyprint.text.fonts import FontConfiguration

        os.environ["SOURCE_DATE_EPOCH"] = "0"  # the time that stands in cut faces
        _remember_classes()
        self._html = _lean_html(self._weasyprint)
        self._cut = cut
        self._fonts = FontConfiguration()
        self._fetcher = _fetcher(self._weasyprint, frozenset(face.file.resolve() for face in faces))
        self._sheets: dict[str, Any] = {}
        self._sheet(
            "\n".join(
                f"@font-face {{ font-family: 'Plan Sans'; font-style: {face.style}; font-weight: {face.weight}; "
                f"src: url('{face.file.resolve().as_uri()}'); }}"
                for face in faces
            )
        )

    def _sheet(self, style: str) -> Any:
        if style not in self._sheets:
            self._sheets[style] = self._weasyprint.CSS(
                string=style, font_config=self._fonts, url_fetcher=self._fetcher
            )
        return self._sheets[style]

    def pdf(self, style: str, html: str, tags: bool = True) -> bytes:
        """Return the PDF of a document; the same document gives the same bytes."""
        with _without_searching():
            return self._drawn(self._sheet(style), html, tags, shared_faces=self._cut)

    def with_faces(self) -> bytes:
        """Return a PDF that holds the faces whole."""
        lines = "".join(
            f"<p style=\"font: {style} {weight} 9pt 'Plan Sans'\">x</p>" for style, weight in FACES
        )
        return self._drawn(self._sheet(""), f"<body>{lines}</body>", tags=False, shared_faces=False)

    def _drawn(self, sheet: Any, html: str, tags: bool, shared_faces: bool) -> bytes:
        laid_out = self._html(string=html, url_fetcher=self._fetcher, base_url=None).render(
            stylesheets=[sheet], font_config=self._fonts, pdf_forms=True
        )
        pdf: bytes = laid_out.write_pdf(
            pdf_forms=True, pdf_tags=tags, full_fonts=self._cut, finisher=finish_with(shared_faces)
        )
        return pdf

    def close(self) -> None:
        """Remove what the engine keeps in the temporary folder."""
        self._fonts.__del__()
