"""What the terminal says while many hulls are read."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn
from rich.text import Text

from plangen.terminal.console import errors, visible

if TYPE_CHECKING:
    from plangen.hulls import Hull


@contextmanager
def reading_hulls(many: int) -> Iterator[Callable[[Path], None]]:
    """Show how many hulls were read, and which one is being read."""
    columns = (
        TextColumn("hulls"),
        BarColumn(),
        MofNCompleteColumn(),
        TextColumn("{task.description}", markup=False),
    )
    with Progress(*columns, console=errors, transient=True, disable=not errors.is_terminal) as progress:
        task = progress.add_task("", total=many)

        def step(folder: Path) -> None:
            progress.update(task, advance=1, description=visible(folder.name))

        yield step


def say_skipped(hull: Hull, most: int = 20) -> None:
    """Print which hull was skipped, and the faults of its files."""
    errors.print(Text(f"{hull.folder} is left out:"), soft_wrap=True)
    for problem in hull.problems[:most]:
        errors.print(Text(f"  {problem}"), soft_wrap=True)
    if len(hull.problems) > most:
        errors.print(Text(f"  and {len(hull.problems) - most} more faults"))
