"""The logo of a letterhead: a PNG or JPEG told by its content, small, whole, and from the house file's own folder."""

from __future__ import annotations

import base64
import struct
import zlib
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from plangen.spec.ordinary_files import read_some
from plangen.spec.problems import Mark, Problem, nearest_name

LARGEST_LOGO = 500_000
LONGEST_SIDE = 4000
_ACCEPTED = "the name of a PNG or JPEG in the house file's own folder, such as logo.png"
_BEGINNINGS: tuple[tuple[bytes, Literal["png", "jpeg"]], ...] = (
    (b"\x89PNG\r\n\x1a\n", "png"),
    (b"\xff\xd8\xff", "jpeg"),
)
#: Markers of a JPEG's frame header, which gives the size.
_JPEG_FRAMES = frozenset(range(0xC0, 0xD0)) - {0xC4, 0xC8, 0xCC}


@dataclass(frozen=True)
class LogoData:
    """A picture that was looked at and found whole; `data` is its content in base64."""

    type: Literal["png", "jpeg"]
    width: int
    height: int
    data: str


def read_logo(folder: Path, name: str, mark: Mark) -> LogoData | Problem:
    """Return the logo, or what is wrong with it."""

    def fault(found: str, accepted: str = _ACCEPTED, nearest: str = "") -> Problem:
        return Problem(mark, "letterhead.logo", found, accepted, nearest)

    if Path(name).name != name or "\\" in name or "\0" in name or name in (".", ".."):
        return fault(f"{name!r}")
    path = (folder / name).resolve()
    if path.parent != folder.resolve():
        return fault(f"{name!r}, which leads out of the folder")
    if not path.is_file():
        pictures = [one.name for one in folder.iterdir() if one.suffix.lower() in (".png", ".jpg", ".jpeg")]
        return fault(f"{name!r}: there is no such file", nearest=nearest_name(name, pictures))
    try:
        content = read_some(path, LARGEST_LOGO)
    except OSError as error:
        return fault(f"{name!r} can't be read: {error.strerror}")
    if len(content) > LARGEST_LOGO:
        return fault(f"{name!r}, which is too large", f"a picture of at most {LARGEST_LOGO // 1000} kB")
    kind = next((kind for start, kind in _BEGINNINGS if content.startswith(start)), None)
    if kind is None:
        return fault(f"{name!r}, which is neither a PNG nor a JPEG by its content")
    size = _size(content, kind)
    if size is None:
        return fault(f"{name!r}, a picture that is damaged or has more than {LONGEST_SIDE} pixels a side")
    return LogoData(kind, *size, base64.b64encode(content).decode("ascii"))


def _size(content: bytes, kind: Literal["png", "jpeg"]) -> tuple[int, int] | None:
    """Return width and height of a picture that is whole and small enough."""
    size = _png_size(content) if kind == "png" else _jpeg_size(content)
    return size if size is not None and min(size) > 0 and max(size) <= LONGEST_SIDE else None


def _png_size(content: bytes) -> tuple[int, int] | None:
    """Return the size that the header chunk gives, where every chunk up to the last one is there and undamaged."""
    size: tuple[int, int] | None = None
    at = 8
    while at + 12 <= len(content):
        (length,) = struct.unpack(">I", content[at : at + 4])
        name, end = content[at + 4 : at + 8], at + 8 + length
        if content[end : end + 4] != struct.pack(">I", zlib.crc32(content[at + 4 : end])):
            return None
        if size is None:
            if name != b"IHDR" or length != 13:
                return None
            size = struct.unpack(">II", content[at + 8 : at + 16])
        if name == b"IEND":
            return size
        at = end + 4
    return None


def _jpeg_size(content: bytes) -> tuple[int, int] | None:
    """Return the size that the frame header gives, where the picture has its end."""
    if b"\xff\xd9" not in content[-64:]:
        return None
    at = 2
    while at + 9 <= len(content) and content[at] == 0xFF:
        marker = content[at + 1]
        if marker == 0xFF:
            at += 1
            continue
        if marker in _JPEG_FRAMES:
            height, width = struct.unpack(">HH", content[at + 5 : at + 9])
            return width, height
        (length,) = struct.unpack(">H", content[at + 2 : at + 4])
        at += 2 + length
    return None
