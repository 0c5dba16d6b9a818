"""The names of the form fields, by which a filled PDF is read back."""

from __future__ import annotations


def reading_field(check: str, index: int, step: int | None = None) -> str:
    """Return the field of one reading of a check, or of one point of its series; counted from 1."""
    return f"{check}/{index + 1}" + (f".{step + 1}" if step is not None else "")


def note_field(check: str) -> str:
    """Return the field for a remark on a check."""
    return f"{check}/note"


def by_field(check: str) -> str:
    """Return the field for the initials of who did a check."""
    return f"{check}/by"


def snag_field(row: int, column: str) -> str:
    """Return a field of the blank snag sheet."""
    return f"snag/{row}/{column}"
