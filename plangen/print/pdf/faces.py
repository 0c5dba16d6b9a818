"""The faces of the typeface that all is set in, cut down to the letters that may be printed.

A face is cut once and kept; each part of a document then holds the very same one, and the joined document holds it once.
"""

from __future__ import annotations

import io
from collections.abc import Callable, Iterable, Sequence
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

#: The end of the name by which each face goes in a PDF.
_NAMES = ("+Plan-Sans", "+Plan-Sans-Italic", "+Plan-Sans-Semi-Bold", "+Plan-Sans-Bold")

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


def in_every_part(name: str) -> bool:
    """Return whether a face with this name in a PDF is one that all parts share, where faces are cut.

    >>> in_every_part("/ABCDEF+Plan-Sans-Bold"), in_every_part("/ABCDEF+Plan-Sans-Bold-Italic")
    (True, False)
    """
    return name.endswith(_NAMES)


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


def may_be_cut(letters: frozenset[str]) -> bool:
    """Return whether the cut faces have some letters. Others are printed with the whole faces, and with what the
    machine has where these lack them.
    """
    return letters - {"\n", "\r", "\t"} <= LETTERS


def whole_faces() -> tuple[Face, ...]:
    """Return the faces as the package has them."""
    return tuple(Face(style, weight, face_file(style, weight)) for style, weight in FACES)


#: Cuts some faces, each by itself, and gives the place and the bytes of each as it is done.
Cut = Callable[[Sequence[bytes]], Iterable[tuple[int, bytes]]]


def cut_faces(folder: Path, kept: Kept, cut: Cut) -> tuple[Face, ...]:
    """Write the cut faces into a folder, those that aren't kept from before cut by what is given."""
    wholes = {face: face_file(*face).read_bytes() for face in FACES}
    keys = {
        face: sha256(b"face 4" + _fonttools().encode() + whole).hexdigest() for face, whole in wholes.items()
    }
    known = {face: content for face, key in keys.items() if (content := kept.get(key)) is not None}
    missing = [face for face in FACES if face not in known]
    for place, made in cut([wholes[face] for face in missing]):
        kept.put(keys[missing[place]], made)
        known[missing[place]] = made
    return tuple(_written(folder, face, known[face]) for face in FACES)


def _written(folder: Path, face: tuple[str, int], content: bytes) -> Face:
    file = folder / FACES[face]
    file.write_bytes(content)
    return Face(*face, file)


@cache
def _fonttools() -> str:
    from importlib.metadata import version

    return version("fonttools")


#: A face's own names, in the encoding that every program reads (OpenType, table `name`).
_LAST_NAME, _WINDOWS = 6, 3


def cut_down(whole: bytes) -> bytes:
    """Return a face with no more than the letters that may be printed, and how they stand beside one another."""
    from fontTools import subset
    from fontTools.ttLib import TTFont

    options = subset.Options(hinting=False, notdef_outline=True, layout_features=["kern", "mark", "mkmk"])
    options.drop_tables += ["GSUB"]  # no ligatures, and letters with marks are letters of their own
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=[ord(letter) for letter in LETTERS])
    font = TTFont(io.BytesIO(whole), recalcTimestamp=False, recalcBBoxes=False, lazy=True)
    names = font["name"]  # while it is in the face, all of its rules are searched for what they are called
    del font["name"]
    cutter.subset(font)
    names.names = [one for one in names.names if one.nameID <= _LAST_NAME and one.platformID == _WINDOWS]
    font["name"] = names
    made = io.BytesIO()
    font.save(made)
    return made.getvalue()
