"""What the packs make use of, noted while they are checked: formulas, and keys of the spec."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field


@dataclass
class Usage:
    """The formulas that expressions call, and the keys that they look up, by the section's model and the key."""

    formulas: set[str] = field(default_factory=set)
    keys: set[tuple[str, str]] = field(default_factory=set)


_noting: ContextVar[Usage | None] = ContextVar("noting", default=None)


@contextmanager
def noting(usage: Usage | None) -> Iterator[None]:
    """Note what is used while this lasts; with nothing to note in, note nothing."""
    before = _noting.set(usage)
    try:
        yield
    finally:
        _noting.reset(before)


def is_noting() -> bool:
    """Tell whether somebody wants to know what is used."""
    return _noting.get() is not None


def note_formula(name: str) -> None:
    """Note that a formula is called."""
    usage = _noting.get()
    if usage is not None:
        usage.formulas.add(name)


def note_key(section: str, key: str) -> None:
    """Note that a key of a section is looked up."""
    usage = _noting.get()
    if usage is not None:
        usage.keys.add((section, key))
