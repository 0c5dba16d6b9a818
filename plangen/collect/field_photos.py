"""Photos that come with a field page's file: whether they are pictures, and the names under which they are kept."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Iterable, Mapping

from plangen.spec.names import is_device, slug

_SAFE = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]*(?:\.[A-Za-z0-9_-]+)*\.jpg")
_LONGEST_NAME = 80
_MOST_PIXELS = 40_000_000
#: Markers of frame headers and of the scan that follows them.
_FRAMES = (0xC0, 0xC1, 0xC2)
_SCAN = 0xDA

#: Gives the content of a photo that is there under a name already, or nothing.
PhotoThere = Callable[[str], bytes | None]


def is_photo(content: bytes) -> bool:
    """Tell whether a content is a JPEG (ISO/IEC 10918-1, annex B), and no larger than a camera makes one."""
    if not content.startswith(b"\xff\xd8\xff") or b"\xff\xd9" not in content[-64:]:
        return False
    at, size = 2, None
    while at + 4 <= len(content) and content[at] == 0xFF:
        marker, length = content[at + 1], int.from_bytes(content[at + 2 : at + 4], "big")
        if marker == 0xFF:
            at += 1
            continue
        if marker in _FRAMES and at + 9 <= len(content):
            size = (
                int.from_bytes(content[at + 5 : at + 7], "big"),
                int.from_bytes(content[at + 7 : at + 9], "big"),
            )
        if marker == _SCAN:
            return size is not None and 0 < size[0] * size[1] <= _MOST_PIXELS
        if length < 2:
            return False
        at += 2 + length
    return False


def safe_name(name: str) -> str:
    """Return a name that leads nowhere but into the folder of photos.

    >>> safe_name("7.3b-1-mjk5.jpg"), safe_name("../../etc/passwd"), safe_name("..")
    ('7.3b-1-mjk5.jpg', 'etc-passwd.jpg', 'item.jpg')
    >>> safe_name("NUL.jpg")
    'photo-nul.jpg'
    """
    if _SAFE.fullmatch(name) and len(name) <= _LONGEST_NAME and not is_device(name):
        return name
    stem = (
        slug(name[:200].removesuffix(".jpg"))
        .encode("ascii", "ignore")
        .decode()[: _LONGEST_NAME - 4]
        .strip("-")
    )
    return f"{stem}.jpg" if stem and not is_device(stem) else f"photo-{stem}".rstrip("-") + ".jpg"


def kept_names(
    photos: Iterable[tuple[str, bytes]], taken: Mapping[str, bytes], there: PhotoThere
) -> tuple[dict[str, str], dict[str, bytes]]:
    """Return each photo's name in the folder by the one that it came under, and the contents by their names there.

    `taken` are those of other files. A name under which another photo is kept gets some of the content's fingerprint
    behind it.
    """
    names: dict[str, str] = {}
    contents: dict[str, bytes] = {}
    here = {
        name.casefold(): content for name, content in taken.items()
    }  # as file systems of Windows and macOS do
    for came_as, content in photos:
        name = safe_name(came_as)
        before = here.get(name.casefold()) or there(name)
        if before is not None and before != content:
            name = f"{name.removesuffix('.jpg')}-{hashlib.sha256(content).hexdigest()[:8]}.jpg"
        names.setdefault(came_as, name)
        contents[name] = here[name.casefold()] = content
    return names, contents
