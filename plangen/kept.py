"""What was made before and is kept, by the digest of all that it was made from; the folder may be deleted at any time."""

from __future__ import annotations

import os
import secrets
from collections.abc import Callable
from contextlib import suppress
from hashlib import sha256
from pathlib import Path

#: The folder is given here; empty, nothing is kept.
VARIABLE = "PLANGEN_CACHE"
#: What is kept beyond this is deleted, the longest unused first.
MOST_BYTES = 200_000_000
_DIGEST = 32


class Kept:
    """A folder of files by digest, each behind the digest of its own content. Two programs may use it at once."""

    def __init__(self, folder: Path | None) -> None:
        """Use a folder, or none."""
        self.folder = folder

    def made(self, key: str, make: Callable[[], bytes]) -> bytes:
        """Return what is kept under a key, made now where it isn't."""
        content = self.get(key)
        if content is None:
            content = make()
            self.put(key, content)
        return content

    def get(self, key: str) -> bytes | None:
        """Return what is kept under a key; what isn't whole any more is thrown away."""
        if self.folder is None:
            return None
        file = self.folder / key
        try:
            stored = file.read_bytes()
        except OSError:
            return None
        content = stored[_DIGEST:]
        if sha256(key.encode() + content).digest() != stored[:_DIGEST]:
            with suppress(OSError):
                file.unlink()
            return None
        with suppress(OSError):
            os.utime(file)
        return content

    def put(self, key: str, content: bytes) -> None:
        """Keep something; where that can't be done it is simply not kept."""
        if self.folder is None:
            return
        part = self.folder / f".{key}.{secrets.token_hex(4)}"
        try:
            self.folder.mkdir(mode=0o700, parents=True, exist_ok=True)
            part.write_bytes(sha256(key.encode() + content).digest() + content)
            os.replace(part, self.folder / key)
        except OSError:
            with suppress(OSError):
                part.unlink()

    def tidy(self) -> None:
        """Delete the longest unused where too much is kept, and what a killed program left half-written."""
        if self.folder is None:
            return
        with suppress(OSError):
            files = []
            for entry in os.scandir(self.folder):
                with suppress(OSError):
                    state = entry.stat(follow_symlinks=False)
                    files.append((state.st_mtime, state.st_size, entry.path))
            room = MOST_BYTES
            for _, size, path in sorted(files, reverse=True):
                room -= size
                if room < 0:
                    with suppress(OSError):
                        os.unlink(path)


def kept_folder() -> Path | None:
    """Return the folder in which things are kept on this machine: the one named, or the user's own for such things."""
    named = os.environ.get(VARIABLE)
    if named is not None:
        return Path(named) if named else None
    from platformdirs import user_cache_path

    return user_cache_path("plangen", appauthor=False)
