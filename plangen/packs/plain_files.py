"""A pack's file as plain values: read from YAML once, then kept by the digest of its text.

Places are looked up in the YAML only where a message names one.
"""

from __future__ import annotations

import datetime
import json
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from hashlib import sha256
from pathlib import Path
from typing import Any

from plangen.kept import Kept
from plangen.spec.problems import Mark
from plangen.spec.yaml_source import Node, read_text_file, read_yaml

#: Changes where the same text gives other plain values, or they are written otherwise.
_FORM = "plain values of a pack, 1: "


@dataclass(frozen=True)
class PlainFile:
    """A file's values, and how to come by their places."""

    values: Any
    read: Callable[[], Node]

    @cached_property
    def node(self) -> Node:
        """The values with their places."""
        return self.read()

    def mark_at(self, path: tuple[str | int, ...]) -> Mark:
        """Return the place of the value at the path, or of the nearest value that holds it."""
        return self.node.mark_at(path)


def read_plain(path: Path, name: str, kept: Kept) -> PlainFile:
    """Read a pack's file. Raises `InputProblems` as `read_yaml` does."""
    text = read_text_file(path, name)
    key = sha256(f"{_FORM}{text}".encode()).hexdigest()
    known = kept.get(key)
    if known is not None:
        return PlainFile(_read(known), lambda: read_yaml(text, name))
    file = plain_of(read_yaml(text, name))
    kept.put(key, _written(file.values))
    return file


def plain_of(node: Node) -> PlainFile:
    """Return values that have been read with their places already."""
    return PlainFile(node.plain(), lambda: node)


def _written(values: Any) -> bytes:
    """Write plain values as JSON; JSON has no days, so their places stand beside."""
    days = [path for path, value in _leaves(values, ()) if isinstance(value, datetime.date)]
    return json.dumps([values, days], default=datetime.date.isoformat, ensure_ascii=False).encode()


def _read(content: bytes) -> Any:
    values, days = json.loads(content)
    for *above, last in days:
        holder = values
        for step in above:
            holder = holder[step]
        holder[last] = datetime.date.fromisoformat(holder[last])
    return values


def _leaves(value: Any, path: tuple[str | int, ...]) -> Any:
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from _leaves(inner, (*path, key))
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from _leaves(inner, (*path, index))
    else:
        yield path, value
