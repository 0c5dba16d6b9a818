"""Writing files whole or not at all, and one command at a time in a boat's folder."""

from __future__ import annotations

import os
import secrets
import stat
import sys
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import BinaryIO

#: Files that are being written are named so until they are whole.
_PART = ".plangen-part"
_LOCK = ".plangen.lock"


def write_whole(path: Path, content: bytes) -> None:
    """Write a file so that at every moment either the old one or the new one is there, whole."""
    write_all(path.parent, {path.name: content})


def write_all(folder: Path, contents: Mapping[str, bytes]) -> list[Path]:
    """Write several files into a folder, each whole: all of them first beside the old ones, then in their places.

    So a disk that fills up leaves all the old files. A file that is there keeps its mode; a link is followed, and
    what it leads to is written. Raises `OSError` where that can't be done.
    """
    folder.mkdir(parents=True, exist_ok=True)
    parts: list[tuple[Path, Path]] = []
    try:
        for name, content in contents.items():
            target = _target(folder / name)
            parts.append((_written(target, content), target))
        for part, target in parts:
            os.replace(part, target)
    except BaseException:
        for part, _ in parts:
            with suppress(OSError):
                part.unlink(missing_ok=True)
        raise
    for place in dict.fromkeys(target.parent for _, target in parts):
        _settle(place)
    return [folder / name for name in contents]


def _target(path: Path) -> Path:
    """Return the file that a path stands for, where it is a link."""
    if not path.is_symlink():
        if path.is_dir():
            raise IsADirectoryError(21, "a folder stands where a file is to be written", str(path))
        return path
    with suppress(FileNotFoundError):
        os.stat(path)  # a link that leads in a circle can't be followed
    target = Path(os.path.realpath(path))
    if target.exists() and not target.is_file():
        raise OSError(22, "a link to something that is no file", str(path))
    return target


def _written(target: Path, content: bytes) -> Path:
    """Write the content into a new file beside the target, and see it onto the disk."""
    part = target.with_name(f".{target.name[:100]}.{secrets.token_hex(4)}{_PART}")
    handle = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o666)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        with suppress(FileNotFoundError):
            os.chmod(part, stat.S_IMODE(os.stat(target).st_mode))
    except BaseException:
        with suppress(OSError):
            part.unlink(missing_ok=True)
        raise
    return part


def _settle(folder: Path) -> None:
    """See the names in a folder onto the disk, where the system can do that."""
    if sys.platform == "win32":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    except OSError:
        pass  # some file systems can't, and say so
    finally:
        os.close(handle)


@contextmanager
def hold(folder: Path) -> Iterator[None]:
    """Hold a folder for one command: another one waits until it is free; a process that ends lets go by itself."""
    with (folder / _LOCK).open("a+b") as stream:
        _lock(stream)
        try:
            for left in folder.glob(f".*{_PART}"):  # of a process that was killed while it wrote
                with suppress(OSError):
                    left.unlink()
            yield
        finally:
            _unlock(stream)


if sys.platform == "win32":
    import msvcrt

    def _lock(stream: BinaryIO) -> None:
        while True:
            stream.seek(0)
            try:
                msvcrt.locking(stream.fileno(), msvcrt.LK_NBLCK, 1)
                return
            except OSError:
                time.sleep(0.05)

    def _unlock(stream: BinaryIO) -> None:
        stream.seek(0)
        msvcrt.locking(stream.fileno(), msvcrt.LK_UNLCK, 1)

else:
    import fcntl

    def _lock(stream: BinaryIO) -> None:
        fcntl.flock(stream.fileno(), fcntl.LOCK_EX)

    def _unlock(stream: BinaryIO) -> None:
        fcntl.flock(stream.fileno(), fcntl.LOCK_UN)
