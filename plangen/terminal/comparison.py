"""What the terminal says of two plans side by side."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.text import Text

from plangen.terminal.console import console

if TYPE_CHECKING:
    from plangen.plan.compare import Comparison


def say_comparison(comparison: Comparison) -> None:
    """Print what differs between two plans."""
    if comparison.is_empty:
        console.print("no check was added, dropped or changed in what it expects")
        return
    for words, checks in (("added", comparison.added), ("gone", comparison.gone)):
        for check in checks:
            console.print(Text(f"{words}    {check.id}  {check.title}"[:200]), soft_wrap=True)
    for change in comparison.changed:
        console.print(Text(f"changed  {change.check}  {change.before}  ->  {change.after}"), soft_wrap=True)
    counts = (len(comparison.added), len(comparison.gone), len(comparison.changed))
    console.print(Text("{} added, {} gone, {} changed in what they expect".format(*counts)))
