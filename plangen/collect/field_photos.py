"""Photos that come with a field page's file: whether they are pictures, and the names under which they are kept."""

from __future__ import annotations

import hashlib
import io
import re
from collections.abc import Callable, Iterable, Mapping

from plangen.spec.names import slug

_SAFE = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]*(?:\.[A-Za-z0-9_-]+)*\.jpg")
_LONGEST_NAME = 80
_MOST_PIXELS = 40_000_000

#: Gives the content of a photo that is there under a name already, or nothing.
PhotoThere = Callable[[str], bytes | None]


def is_photo(content: bytes) -> bool:
    """Tell whether a content is a JPEG, and no larger than a camera makes one."""
    if not content.startswith(b"\xff\xd8\xff"):
        return False
    from PIL import Image

    try:
        with Image.open(io.BytesIO(content), formats=("JPEG",)) as picture:
            small = picture.width * picture.height <= _MOST_PIXELS
            picture.verify()
    except (OSError, SyntaxError, ValueError, Image.DecompressionBombError):
        return False
    return small


def safe_name(name: str) -> str:
    """Return a name that leads nowhere but into the folder of photos.

    >>> safe_name("7.3b-1-mjk5.jpg"), safe_name("../../etc/passwd"), safe_name("..")
    ('7.3b-1-mjk5.jpg', 'etc-passwd.jpg', 'item.jpg')
    """
    if _SAFE.fullmatch(name) and len(name) <= _LONGEST_NAME:
        return name
    stem = (
        slug(name[:200].removesuffix(".jpg"))
        .encode("ascii", "ignore")
        .decode()[: _LONGEST_NAME - 4]
        .strip("-")
    )
    return f"{stem or 'photo'}.jpg"


def kept_names(
    photos: Iterable[tuple[str, bytes]], taken: Mapping[str, bytes], there: PhotoThere
) -> tuple[dict[str, str], dict[str, bytes]]:
    """Return each photo's name in the folder by the one that it came under, and the contents by their names there.

    `taken` are those of other files. A name under which another photo is kept gets some of the content's fingerprint
    behind it.
    """
    names: dict[str, str] = {}
    contents: dict[str, bytes] = {}
    for came_as, content in photos:
        name = safe_name(came_as)
        before = contents.get(name) or taken.get(name) or there(name)
        if before is not None and before != content:
            name = f"{name.removesuffix('.jpg')}-{hashlib.sha256(content).hexdigest()[:8]}.jpg"
        names.setdefault(came_as, name)
        contents[name] = content
    return names, contents
