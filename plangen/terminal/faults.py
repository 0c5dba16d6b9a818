"""What the terminal says of faults: in a file, and of the system."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from rich.text import Text

from plangen.terminal.console import errors

if TYPE_CHECKING:
    from plangen.spec.problems import Problem

#: Faults beyond these are counted: nobody reads more at once.
_MOST_SHOWN = 100


def say_system_fault(error: OSError) -> None:
    """Print why the system refused to read or write something."""
    place = f"{error.filename}: " if error.filename else ""
    errors.print(Text(f"{place}{error.strerror or error}; nothing half-written was left."), soft_wrap=True)


def say_unnameable(error: UnicodeEncodeError) -> None:
    """Print that no file or folder of such a name can be made under the language that is set."""
    name = error.object[max(0, error.start - 20) : error.end + 20]
    errors.print(
        Text(
            f"no file can be named {name!r} under this language setting; set one with UTF-8 (LC_ALL=C.UTF-8)"
        ),
        soft_wrap=True,
    )


def say_problems(problems: Iterable[Problem], outcome: str = "nothing was written.") -> None:
    """Print faults to standard error, each with its place, and what came of them."""
    count = 0
    for problem in problems:
        count += 1
        if count <= _MOST_SHOWN:
            errors.print(Text(str(problem)), soft_wrap=True)
    if count > _MOST_SHOWN:
        errors.print(Text(f"and {count - _MOST_SHOWN} more of them"))
    errors.print(Text(f"{count} fault{'s' if count != 1 else ''}; {outcome}"), soft_wrap=True)


def say_pack_problems(problems: Sequence[Problem]) -> int:
    """Print faults and warnings of packs, then how many faults each file has; return how many there are."""
    for problem in problems[:_MOST_SHOWN]:
        errors.print(Text(str(problem)), soft_wrap=True)
    if len(problems) > _MOST_SHOWN:
        errors.print(Text(f"and {len(problems) - _MOST_SHOWN} more of them"))
    faults = Counter(problem.mark.file for problem in problems if not problem.is_warning)
    for file, count in faults.items() if len(faults) > 1 else ():
        errors.print(Text(f"{file}: {count} fault{'s' if count != 1 else ''}"), soft_wrap=True)
    total = faults.total()
    if total:
        errors.print(Text(f"{total} fault{'s' if total != 1 else ''}"))
    return total
