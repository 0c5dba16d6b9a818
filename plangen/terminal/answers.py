"""What the terminal says of answers that came back."""

from __future__ import annotations

from difflib import unified_diff
from typing import TYPE_CHECKING

from rich.text import Text

from plangen.terminal.console import console, say

if TYPE_CHECKING:
    from plangen.answering import Answered


def say_answered(answered: Answered) -> None:
    """Print who answered, the lines that change, what was added to an answer, and what needs a look."""
    for one in answered.answers:
        whose = ", ".join(part for part in (one.by, one.day) if part)
        counts = f"{len(one.new)} new, {len(one.known)} known already"
        left = f", {len(one.left)} left out" if one.left else ""
        say(f"{one.form}{f' ({whose})' if whose else ''}: {counts}{left}")
        for answer in one.new:
            if answer.added:
                say(f"  {answer.key}: {answer.typed} is taken in {answer.added}")
        for line in one.conflicts:
            say(f"  not written, for it is said otherwise: {line}")
        if one.remarks:
            say(f"  remarks: {one.remarks}")
    name = str(answered.path)
    lines = unified_diff(
        answered.before.splitlines(), answered.after.splitlines(), name, f"{name}, answered", n=1, lineterm=""
    )
    for line in lines:
        style = (
            {"+": "green", "-": "red"}.get(line[:1], "") if not line.startswith(("+++", "---")) else "bold"
        )
        console.print(Text(line, style), soft_wrap=True)


def say_written(answered: Answered, written: bool) -> None:
    """Print whether anything was written, and how to do it."""
    if answered.after == answered.before:
        say("nothing new in these answers")
    elif written:
        say(f"wrote {answered.path}")
    else:
        say(f"nothing was written; --write puts these lines into {answered.path}")
