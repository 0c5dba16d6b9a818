"""Writing files whole or not at all, and one command at a time in a boat's folder."""

from __future__ import annotations

import errno
import os
import re
import secrets
import stat
import sys
import time
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import BinaryIO

#: Files that are being written are named so until they are whole.
_PART = ".plangen-part"
_LOCK = ".plangen.lock"
#: Says, while several files are put in their places, which parts belong to which.
_NOTE = ".plangen-belongs-together"
_ENTRY = re.compile(r"([0-9a-f]{8}) ([^/\\\0]{1,255})")
_LONGEST_NOTE = 100_000


def write_whole(path: Path, content: bytes) -> None:
    """Write a file so that at every moment either the old one or the new one is there, whole."""
    write_all(path.parent, {path.name: content})


def write_all(folder: Path, contents: Mapping[str, bytes]) -> list[Path]:
    """Write several files into a folder, each whole: all of them first beside the old ones, then in their places.

    So a disk that fills up leaves all the old files. A process that is killed between the first place and the last
    leaves a note of what belongs together, by which the next one that holds the folder goes on. A file that is there
    keeps its mode; a link is followed, and what it leads to is written. Raises `OSError` where that can't be done.
    """
    folder.mkdir(parents=True, exist_ok=True)
    moves: list[tuple[Path, Path]] = []
    note = folder / _NOTE
    try:
        tokens = {name: secrets.token_hex(4) for name in contents}
        for name, content in contents.items():
            target = _target(folder / name)
            moves.append((_written(target, content, tokens[name]), target))
        if len(moves) > 1:
            lines = "".join(f"{token} {name}\n" for name, token in tokens.items())
            moves.append((_written(note, lines.encode(), secrets.token_hex(4)), note))
            os.replace(*moves.pop())
            _settle(folder)
    except BaseException:
        for part, _ in moves:
            with suppress(OSError):
                part.unlink(missing_ok=True)
        raise
    try:
        _put_in_place(moves)
    except OSError:
        note.unlink(missing_ok=True)
        raise
    except BaseException:
        if len(moves) == 1:
            moves[0][0].unlink(missing_ok=True)
        raise
    if len(moves) > 1:
        note.unlink(missing_ok=True)
    return [folder / name for name in contents]


def _put_in_place(moves: Sequence[tuple[Path, Path]]) -> None:
    """Put every file in its place; one that can't be, as it is open in another program, keeps none of the others."""
    failed: OSError | None = None
    for part, target in moves:
        try:
            os.replace(part, target)
        except OSError as error:
            failed = failed or OSError(error.errno, error.strerror, str(target))
            with suppress(OSError):
                part.unlink(missing_ok=True)
    for place in dict.fromkeys(target.parent for _, target in moves):
        _settle(place)
    if failed is not None:
        raise failed


def go_on(folder: Path) -> None:
    """Put in place what a process had written whole before it was killed, and take away what it hadn't."""
    note = folder / _NOTE
    if note.is_file() and not note.is_symlink():
        moves: list[tuple[Path, Path]] = []
        for line in note.read_bytes()[:_LONGEST_NOTE].decode(errors="replace").splitlines():
            if (entry := _ENTRY.fullmatch(line)) is not None:
                target = _target(folder / entry[2])
                moves.append((_part(target, entry[1]), target))
        _put_in_place([(part, target) for part, target in moves if part.is_file()])
        note.unlink(missing_ok=True)
    for left in folder.glob(f".*{_PART}"):
        with suppress(OSError):
            left.unlink()


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


def _part(target: Path, token: str) -> Path:
    return target.with_name(f".{target.name[:100]}.{token}{_PART}")


def _written(target: Path, content: bytes, token: str) -> Path:
    """Write the content into a new file beside the target, and see it onto the disk."""
    part = _part(target, token)
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
    """Hold a folder for one command: another one waits until it is free; a process that ends lets go by itself.

    What a killed process left is settled first. A folder in which nothing can be written is only read, and not held.
    """
    with _lock_file(folder) as stream:
        if stream is None:
            yield
            return
        _lock(stream)
        try:
            go_on(folder)
            yield
        finally:
            _unlock(stream)


@contextmanager
def _lock_file(folder: Path) -> Iterator[BinaryIO | None]:
    path = folder / _LOCK
    try:
        stream: BinaryIO = path.open("a+b")
    except OSError as error:
        if error.errno not in (errno.EACCES, errno.EPERM, errno.EROFS):
            raise
        if not path.is_file():
            yield None
            return
        stream = path.open("rb")  # another user's; it can be locked all the same
    with stream:
        yield stream


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
