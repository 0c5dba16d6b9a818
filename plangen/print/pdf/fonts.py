"""The fonts of a joined PDF, each held once."""

from __future__ import annotations

import io
import zlib
from hashlib import sha256
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pikepdf import Pdf


#: Tables of a face by which letters are set, which a PDF with set letters has no use for.
_OF_SETTING = ("GPOS", "GSUB", "GDEF", "kern")


def without_setting(content: bytes) -> bytes:
    """Return a PDF whose fonts lack the tables by which letters are set."""
    import pikepdf

    with pikepdf.open(io.BytesIO(content)) as pdf:
        for entry in pdf.objects:
            if isinstance(entry, pikepdf.Dictionary) and "/FontFile2" in entry:
                face = _lean_face(entry.FontFile2.read_bytes())
                entry.FontFile2.write(zlib.compress(face, 9), filter=pikepdf.Name.FlateDecode)
                entry.FontFile2.Length1 = len(face)
        made = io.BytesIO()
        pdf.save(made, static_id=True)
    return made.getvalue()


def _lean_face(face: bytes) -> bytes:
    from fontTools.ttLib import TTFont

    font = TTFont(io.BytesIO(face), recalcTimestamp=False, recalcBBoxes=False, lazy=True)
    for table in _OF_SETTING:
        if table in font:
            del font[table]
    made = io.BytesIO()
    font.save(made, reorderTables=False)
    return made.getvalue()


class Fonts:
    """The fonts that a PDF holds so far."""

    def __init__(self, whole: Pdf, faces: bytes | None) -> None:
        """Take the faces that parts only name from a PDF that holds them."""
        self._alike: dict[bytes, Any] = {}
        self._named: dict[str, Any] = {}
        if faces is None:
            return
        import pikepdf

        with pikepdf.open(io.BytesIO(faces)) as source:
            fonts = source.pages[0].obj.Resources.Font
            for key in sorted(fonts.keys()):
                font = fonts[key]
                if "/DescendantFonts" in font:
                    self._named[str(font.BaseFont)] = whole.copy_foreign(font)

    def once_in(self, resources: Any) -> None:
        """Put into resources the fonts that are there already, where they are alike."""
        if "/Font" in resources:
            for key in sorted(resources.Font.keys()):
                resources.Font[key] = self._once(resources.Font[key])

    def _once(self, font: Any) -> Any:
        """Return the first font that is like this one in all that it says and holds; its file is the first alike too."""
        if font.get("/Subtype") == "/Type0" and "/DescendantFonts" not in font:
            return self._named[str(font.BaseFont)]
        for inner in font.get("/DescendantFonts", []):
            if "/FontFile2" in inner.FontDescriptor:
                file = inner.FontDescriptor.FontFile2
                inner.FontDescriptor.FontFile2 = self._alike.setdefault(_said(file), file)
        return self._alike.setdefault(_said(font), font)


def _said(value: Any) -> bytes:
    """Return a digest of all that an object says, whatever its number is."""
    from pikepdf import Array, Dictionary, Stream

    if isinstance(value, Stream):
        return sha256(b"stream" + _said_items(value) + value.read_raw_bytes()).digest()
    if isinstance(value, (Array, Dictionary)):
        written = value.unparse(resolved=True)
        if b" R" not in written:
            return sha256(b"said" + written).digest()
    if isinstance(value, Dictionary):
        return sha256(b"dictionary" + _said_items(value)).digest()
    if isinstance(value, Array):
        return sha256(b"array" + b"".join(_said(one) for one in value)).digest()
    return sha256(f"{type(value).__name__} {value!s}".encode()).digest()


def _said_items(value: Any) -> bytes:
    keys = sorted(str(key) for key in value.keys())  # noqa: SIM118 - no mapping of Python's own
    return b"".join(key.encode() + _said(value[key]) for key in keys)
