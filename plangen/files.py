"""Writing files whole or not at all."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Mapping
from pathlib import Path


def write_whole(path: Path, content: bytes) -> None:
    """Write a file so that at every moment either the old one or the new one is there, whole."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        os.chmod(name, 0o644)
        os.replace(name, path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise


def write_all(folder: Path, contents: Mapping[str, bytes]) -> list[Path]:
    """Write several files into a folder, each whole."""
    paths = []
    for name, content in contents.items():
        path = folder / name
        write_whole(path, content)
        paths.append(path)
    return paths
