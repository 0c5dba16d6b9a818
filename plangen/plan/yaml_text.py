"""Writing plain values as YAML text, the same bytes for the same values."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from typing import Any

from plangen.plan.yaml_emitted import AMBIGUOUS, WIDTH, emitted_text, plain_text

_LETTER = r"[ !\"$-9;-~¡-¬®-ɏͰ-Ͽ‐-‧‰-⁞←-⋿]"
#: Text that stands in a line without quotes, whoever reads it, and text that stands there within quotes.
_BARE = re.compile(rf"[A-Za-z0-9(/.+°±≤≥Ωµ×“](?:{_LETTER}|:(?! |$)|(?<! )#)*+(?<! )")
_WITHIN_QUOTES = re.compile(rf"[A-Za-z0-9](?:{_LETTER}|[:#])*+")
#: What asks for quotes.
_IN_NEED = re.compile(r": | #|[ :]$")
#: A key that is longer is written in another form.
_LONGEST_KEY = 100


class _UnusualError(Exception):
    """A value that only the emitter writes."""


def yaml_text(data: Any, heading: str = "") -> str:
    """Return the YAML text of plain values, keys in their own order, below an optional comment line.

    >>> print(yaml_text({"a": 1.0, "b": ["yes", "port head"]}, "demo"), end="")
    # demo
    a: 1
    b:
    - 'yes'
    - port head
    """
    try:
        if not isinstance(data, dict) or not data:
            raise _UnusualError
        lines: list[str] = []
        _put_mapping(lines, data, "", "")
        text = "\n".join(lines) + "\n"
    except _UnusualError:
        text = emitted_text(data)
    return (f"# {heading}\n" if heading else "") + text


def _put_mapping(lines: list[str], mapping: dict[Any, Any], pad: str, lead: str) -> None:
    """Write a mapping's lines behind a pad; the lead takes its place in the first."""
    for key, value in mapping.items():
        _put(lines, f"{lead}{_key(str(key))}:", value, pad)
        lead = pad


def _put(lines: list[str], start: str, value: Any, pad: str) -> None:
    """Write what stands behind a key or a dash; the pad is that of the key or the dash."""
    if isinstance(value, str):
        lines.append(f"{start} {_scalar(value, len(start) + 1, pad)}")
    elif isinstance(value, dict):
        if value:
            lines.append(start)
            _put_mapping(lines, value, f"{pad}  ", f"{pad}  ")
        else:
            lines.append(f"{start} {{}}")
    elif isinstance(value, (list, tuple)):
        if value:
            lines.append(start)
            _put_sequence(lines, value, pad, pad)
        else:
            lines.append(f"{start} []")
    else:
        lines.append(f"{start} {plain_text(value)}")


def _put_sequence(lines: list[str], items: Sequence[Any], pad: str, lead: str) -> None:
    """Write the lines of a list's items behind a pad; the lead takes its place in the first."""
    for item in items:
        if isinstance(item, dict) and item:
            _put_mapping(lines, item, f"{pad}  ", f"{lead}- ")
        elif isinstance(item, (list, tuple)) and item:
            _put_sequence(lines, item, f"{pad}  ", f"{lead}- ")
        else:
            _put(lines, f"{lead}-", item, pad)
        lead = pad


@lru_cache(maxsize=10_000)
def _key(key: str) -> str:
    if len(key) > _LONGEST_KEY:
        raise _UnusualError
    return _quoted(key)


def _scalar(text: str, column: int, pad: str) -> str:
    """Return a text as it stands from a column on, its further lines two letters behind the pad."""
    written = _quoted(text)
    return written if column + len(written) <= WIDTH else _folded(written, column, f"{pad}  ")


@lru_cache(maxsize=20_000)
def _quoted(text: str) -> str:
    if _BARE.fullmatch(text) and not AMBIGUOUS.fullmatch(text):
        return text
    if _WITHIN_QUOTES.fullmatch(text) and (_IN_NEED.search(text) or AMBIGUOUS.fullmatch(text)):
        return "'" + text.replace("'", "''") + "'"
    return _as_emitted(text)


def _as_emitted(text: str) -> str:
    """Return a text in one line as the emitter writes it."""
    written = emitted_text({"k": text}, width=10 * len(text) + 1_000).removeprefix("k: ")[:-1]
    if written.startswith('"') or len(written.splitlines()) > 1:
        raise _UnusualError
    return written


def _folded(written: str, column: int, pad: str) -> str:
    """Break a line at each single space that stands beyond the width; not at one beside the quotes."""
    end = len(written) - (2 if written.startswith("'") else 0)
    lines: list[str] = []
    start = 0
    while True:
        space = written.find(" ", max(2, start + WIDTH + 1 - column), end)
        while space != -1 and " " in (written[space - 1], written[space + 1]):
            space = written.find(" ", space + 1, end)
        if space == -1:
            return f"\n{pad}".join([*lines, written[start:]])
        lines.append(written[start:space])
        start, column = space + 1, len(pad)
