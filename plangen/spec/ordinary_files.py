"""Reading files that a stranger may have named: ordinary ones only, and never more of one than is wanted."""

from __future__ import annotations

import errno
import os
import stat
from pathlib import Path


def read_some(path: Path, most: int) -> bytes:
    """Return the content of a file, of a longer one the first `most` bytes and one byte more.

    Raises `OSError` where it can't be read, and for a pipe, a device or a folder, of which nobody knows when they end.
    """
    # without O_NONBLOCK a pipe that nobody writes into would be waited for before it can be told from a file
    flags = os.O_RDONLY | getattr(os, "O_BINARY", 0) | getattr(os, "O_NONBLOCK", 0)
    handle = os.open(path, flags)
    with os.fdopen(handle, "rb") as stream:
        kind = os.fstat(handle).st_mode
        if stat.S_ISDIR(kind):
            raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), str(path))
        if not stat.S_ISREG(kind):
            raise OSError(errno.EINVAL, "a pipe or a device, where a file is wanted", str(path))
        return stream.read(most + 1)
