"""Writing plain values as YAML text, the same bytes for the same values."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from typing import Any

from ruamel.yaml.cyaml import CEmitter  # type: ignore[attr-defined]
from ruamel.yaml.events import (
    DocumentEndEvent,
    DocumentStartEvent,
    Event,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
    StreamEndEvent,
    StreamStartEvent,
)

#: A line is broken at the next space behind this many letters.
_WIDTH = 110
#: Text that some YAML reader takes for something else than text unless it's in quotes.
_AMBIGUOUS = re.compile(
    r"[-+.]?[0-9].*|[-+]?\.(inf|nan)|~|null|true|false|yes|no|on|off|y|n|=|<<|", re.IGNORECASE
)


def yaml_text(data: Any, heading: str = "") -> str:
    """Return the YAML text of plain values, keys in their own order, below an optional comment line.

    >>> print(yaml_text({"a": 1.0, "b": ["yes", "port head"]}, "demo"), end="")
    # demo
    a: 1
    b:
    - 'yes'
    - port head
    """
    stream = io.StringIO()
    emitter = CEmitter(stream, width=_WIDTH, allow_unicode=True)
    emitter.emit(StreamStartEvent())
    emitter.emit(DocumentStartEvent(explicit=False))
    for event in _events(data):
        emitter.emit(event)
    emitter.emit(DocumentEndEvent(explicit=False))
    emitter.emit(StreamEndEvent())
    return (f"# {heading}\n" if heading else "") + stream.getvalue()


def _events(value: Any) -> Iterator[Event]:
    if isinstance(value, dict):
        yield MappingStartEvent(None, None, True, flow_style=not value)
        for key, item in value.items():
            yield _text(str(key))
            yield from _events(item)
        yield MappingEndEvent()
    elif isinstance(value, (list, tuple)):
        yield SequenceStartEvent(None, None, True, flow_style=not value)
        for item in value:
            yield from _events(item)
        yield SequenceEndEvent()
    elif isinstance(value, str):
        yield _text(value)
    else:
        yield ScalarEvent(None, None, (True, False), _plain(value))


def _text(text: str) -> Event:
    plain = not _AMBIGUOUS.fullmatch(text)
    return ScalarEvent(None, None, (plain, True), text)


def _plain(value: Any) -> str:
    """Return a value that is no text as YAML has it."""
    if value is None:
        return "null"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, float) and value == int(value) and abs(value) < 1e15:
        return str(int(value))
    return str(value)
