"""What is wrong with a user's file, said so that the user can mend it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from typing import NamedTuple


class Mark(NamedTuple):
    """A place in a file; line and column count from 1."""

    file: str
    line: int = 0
    column: int = 0

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}" if self.line else self.file


@dataclass(frozen=True)
class Problem:
    """One fault: where it is, what was found there and what is accepted."""

    mark: Mark
    key: str
    found: str
    accepted: str = ""
    nearest: str = ""
    is_warning: bool = False

    def __str__(self) -> str:
        found = f"warning: {self.found}" if self.is_warning else self.found
        text = f"{self.mark}: {self.key}: {found}" if self.key else f"{self.mark}: {found}"
        if self.accepted:
            text += f"\n    accepted: {self.accepted}"
        if self.nearest:
            text += f"\n    nearest: {self.nearest}"
        return text


class InputProblems(Exception):
    """All the faults of the user's input, together."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(
            sorted(set(problems), key=lambda p: (p.mark.file, p.mark.line, p.mark.column, p.key))
        )
        super().__init__("\n".join(str(problem) for problem in self.problems))


def nearest_name(name: str, names: Iterable[str]) -> str:
    """Return the name most like the given one, or nothing when none is alike."""
    found = get_close_matches(str(name), list(names), n=1, cutoff=0.65)
    return found[0] if found else ""


def name_list(names: Sequence[str], most: int = 40) -> str:
    """Return the names in one line, cut when they are many."""
    shown = ", ".join(names[:most])
    return f"{shown}, … ({len(names)} in all)" if len(names) > most else shown
