"""Photos on paper: found beside the findings, turned upright, scaled down and stripped of what a camera adds."""

from __future__ import annotations

import base64
import io
import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from PIL import Image, ImageOps, UnidentifiedImageError

_ENDINGS = ("jpg", "jpeg", "png", "webp", "gif", "tif", "tiff", "heic", "heif")
#: A camera's name for a picture: letters, then a number with zeros before it.
_NUMBER = re.compile(r"[A-Za-z _-]*(?P<number>[0-9]{1,9})")
_FORMATS = ("JPEG", "PNG", "WEBP", "GIF", "TIFF")
_LONGEST_SIDE = 900
_LARGEST_FILE = 60_000_000
_MOST_PIXELS = 120_000_000


@dataclass(frozen=True)
class Photo:
    """A photo by its name in the findings: the picture as a data URI, or why it can't be shown; `file` is what it is called."""

    name: str
    picture: str | None = None
    why_not: str = ""
    file: str = ""


def load_photos(folder: Path, names: Iterable[str]) -> dict[str, Photo]:
    """Return the named photos from the folder `photos` beside the findings, or from beside them."""
    return {name: _load(folder, name) for name in dict.fromkeys(names)}


def missing_photos(folder: Path, names: Iterable[str]) -> dict[str, str]:
    """Return the names of which no picture is found, or more than one, and why."""
    found = {name: _places(folder, name) for name in dict.fromkeys(names)}
    return {name: _why_not(paths) for name, paths in found.items() if len(paths) != 1}


def _why_not(paths: tuple[Path, ...]) -> str:
    if not paths:
        return "not in the folder"
    return f"{len(paths)} files could be meant: {', '.join(path.name for path in paths)}"


def _load(folder: Path, name: str) -> Photo:
    paths = _places(folder, name)
    if len(paths) != 1:
        return Photo(name, why_not=_why_not(paths))
    try:
        if paths[0].stat().st_size > _LARGEST_FILE:
            return Photo(name, why_not="the file is too large")
        return Photo(name, data_uri(paths[0].read_bytes()), file=paths[0].name)
    except ValueError as fault:
        return Photo(name, why_not=str(fault))
    except OSError as fault:
        return Photo(name, why_not=f"can't be read: {fault.strerror or 'no picture'}")


def _places(folder: Path, name: str) -> tuple[Path, ...]:
    """Return the files that a name may mean: the one of exactly that name, or else all that it may stand for in short.

    A name that leads out of the folder counts as not there.
    """
    if "\0" in name:
        return ()
    root = folder.resolve()
    bases = [base for base in (root / "photos", root) if base.is_dir()]
    for base in bases:
        path = (base / name).resolve()
        if path.is_relative_to(root) and path.is_file():
            return (path,)
    meant = [path for base in bases for path in sorted(base.iterdir()) if may_be_short_for(name, path.name)]
    inside = [path for path in meant if path.resolve().is_relative_to(root) and path.is_file()]
    return tuple(dict.fromkeys(inside))


def may_be_short_for(name: str, file: str) -> bool:
    """Tell whether a name as people type it may mean a picture's file: its number, or its name in other letters.

    >>> [file for file in ("12.jpg", "IMG_0012.JPG", "IMG_0112.jpg", "12.txt") if may_be_short_for("12", file)]
    ['12.jpg', 'IMG_0012.JPG']
    >>> may_be_short_for("img_7", "IMG_7.jpeg"), may_be_short_for("7", "2027-04-06 7.jpg")
    (True, False)
    """
    stem, _, ending = file.rpartition(".")
    typed, _, typed_ending = name.rpartition(".")
    if ending.casefold() not in _ENDINGS:
        return False
    if file.casefold() == name.casefold() or stem.casefold() == name.casefold():
        return True
    if typed_ending.casefold() in _ENDINGS:
        return stem.casefold() == typed.casefold()
    number = _NUMBER.fullmatch(stem)
    return number is not None and name.isascii() and name.isdigit() and int(number["number"]) == int(name)


def data_uri(content: bytes) -> str:
    """Return a picture as a JPEG in a data URI: upright, no larger than print needs, without camera data.

    Raises `ValueError` for what isn't a picture of a known kind or is larger than any camera makes.
    """
    try:
        with Image.open(io.BytesIO(content), formats=_FORMATS) as picture:
            if picture.width * picture.height > _MOST_PIXELS:
                raise ValueError("the picture is too large")
            picture.draft("RGB", (_LONGEST_SIDE * 2, _LONGEST_SIDE * 2))
            upright = ImageOps.exif_transpose(picture)
            upright.thumbnail((_LONGEST_SIDE, _LONGEST_SIDE))
            plain = Image.new("RGB", upright.size, "white")
            plain.paste(upright, mask=upright.convert("RGBA").getchannel("A"))
    except (UnidentifiedImageError, OSError, SyntaxError, Image.DecompressionBombError) as fault:
        raise ValueError("no picture that can be printed (JPEG, PNG, WebP, GIF or TIFF)") from fault
    out = io.BytesIO()
    plain.save(out, "JPEG", quality=82)
    return "data:image/jpeg;base64," + base64.b64encode(out.getvalue()).decode("ascii")
