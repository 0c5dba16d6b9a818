"""The faces of the typeface that all is set in, cut down to the letters that may be printed.

A face is cut once and kept; each part of a document then holds the very same one, and the joined document holds it once.
"""

from __future__ import annotations

import io
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from hashlib import sha256
from pathlib import Path

from plangen.kept import Kept

#: Style and weight of each face, and its file in the package of the typeface.
FACES = {
    ("normal", 400): "SourceSansPro-Regular.ttf",
    ("italic", 400): "SourceSansPro-It.ttf",
    ("normal", 600): "SourceSansPro-Semibold.ttf",
    ("normal", 700): "SourceSansPro-Bold.ttf",
}

#: Letters that each cut face has: Latin, Greek, punctuation, signs, arrows, shapes.
_RANGES = (
    (0x20, 0x7F),
    (0xA0, 0x250),
    (0x2B0, 0x2E0),
    (0x370, 0x400),
    (0x2000, 0x2150),
    (0x2190, 0x2300),
    (0x25A0, 0x2600),
    (0x2700, 0x2760),
)
LETTERS = frozenset(chr(code) for first, after in _RANGES for code in range(first, after))


class PrintingUnavailable(RuntimeError):
    """The libraries that a PDF needs aren't on this machine."""


@dataclass(frozen=True)
class Face:
    """A face as a file."""

    style: str
    weight: int
    file: Path


def _package_folder() -> Path:
    from importlib.util import find_spec

    spec = find_spec("font_source_sans_pro")
    if spec is None or not spec.submodule_search_locations:
        raise PrintingUnavailable("the package font-source-sans-pro is missing: install plangen again")
    return Path(next(iter(spec.submodule_search_locations))) / "files"


def face_file(style: str, weight: int) -> Path:
    """Return the whole face as the package has it."""
    return _package_folder() / FACES[style, weight]


def faces_for(
    letters: frozenset[str], kept: Kept, folder: Callable[[], Path]
) -> tuple[tuple[Face, ...], bool]:
    """Return the faces that print some letters, and whether they are cut ones.

    Letters beyond the usual ones are printed with the whole faces, and with what the machine has where these lack them.
    """
    package = _package_folder()
    if not letters <= LETTERS:
        return tuple(Face(style, weight, package / name) for (style, weight), name in FACES.items()), False
    place = folder()
    faces = []
    for (style, weight), name in FACES.items():
        file = place / name
        file.write_bytes(_cut(package / name, kept))
        faces.append(Face(style, weight, file))
    return tuple(faces), True


def _cut(file: Path, kept: Kept) -> bytes:
    whole = file.read_bytes()
    return kept.made(sha256(b"face 1" + _fonttools().encode() + whole).hexdigest(), lambda: _subset(whole))


@cache
def _fonttools() -> str:
    from importlib.metadata import version

    return version("fonttools")


def _subset(whole: bytes) -> bytes:
    from fontTools import subset
    from fontTools.ttLib import TTFont

    options = subset.Options(
        hinting=False, notdef_outline=True, layout_features=["kern", "mark", "mkmk", "ccmp", "locl"]
    )
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=[ord(letter) for letter in LETTERS])
    font = TTFont(io.BytesIO(whole), recalcTimestamp=False)
    cutter.subset(font)
    made = io.BytesIO()
    font.save(made)
    return made.getvalue()
