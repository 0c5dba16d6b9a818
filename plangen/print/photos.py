"""Photos on paper: found beside the findings, turned upright, scaled down and stripped of what a camera adds."""

from __future__ import annotations

import base64
import io
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from PIL import Image, ImageOps, UnidentifiedImageError

_FORMATS = ("JPEG", "PNG", "WEBP", "GIF", "TIFF")
_LONGEST_SIDE = 900
_LARGEST_FILE = 60_000_000
_MOST_PIXELS = 120_000_000


@dataclass(frozen=True)
class Photo:
    """A photo by its name in the findings: the picture as a data URI, or why it can't be shown."""

    name: str
    picture: str | None = None
    why_not: str = ""


def load_photos(folder: Path, names: Iterable[str]) -> dict[str, Photo]:
    """Return the named photos from the folder `photos` beside the findings, or from beside them."""
    return {name: _load(folder, name) for name in dict.fromkeys(names)}


def _load(folder: Path, name: str) -> Photo:
    path = _place(folder, name)
    if path is None:
        return Photo(name, why_not="not in the folder")
    try:
        if path.stat().st_size > _LARGEST_FILE:
            return Photo(name, why_not="the file is too large")
        return Photo(name, data_uri(path.read_bytes()))
    except ValueError as fault:
        return Photo(name, why_not=str(fault))
    except OSError as fault:
        return Photo(name, why_not=f"can't be read: {fault.strerror or 'no picture'}")


def _place(folder: Path, name: str) -> Path | None:
    """Return where a photo lies; a name that leads out of the folder counts as not there."""
    if "\0" in name:
        return None
    root = folder.resolve()
    for base in (root / "photos", root):
        path = (base / name).resolve()
        if path.is_relative_to(root) and path.is_file():
            return path
    return None


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
