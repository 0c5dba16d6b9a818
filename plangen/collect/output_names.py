"""Papers into which somebody has written are never written over."""

from __future__ import annotations

from pathlib import Path

from plangen.spec.problems import InputProblems


def unfilled_name(folder: Path, stem: str) -> str:
    """Return the name for a PDF in a folder: the plain one, or one with a number where that is filled in."""
    names = [f"{stem}.pdf", *(f"{stem}-{number}.pdf" for number in range(2, 100))]
    return next(name for name in names if not is_filled(folder / name))


def is_filled(path: Path) -> bool:
    """Tell whether a PDF is there into which something was typed; one that can't be read counts as filled."""
    if not path.is_file():
        return False
    from plangen.collect.pdf_fields import read_form

    try:
        fields = read_form(path.read_bytes(), path.name).fields
    except InputProblems:
        return True
    return any(value for name, value in fields.items() if not name.startswith("plan/"))
