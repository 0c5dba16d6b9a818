"""Faults of the input end a command with exit code 2, all of them said."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

import typer


@contextmanager
def input_faults() -> Iterator[None]:
    """Say every fault of the user's input and leave with exit code 2."""
    from plangen.spec.problems import InputProblems

    try:
        yield
    except InputProblems as faults:
        from plangen.terminal.faults import say_problems

        say_problems(faults.problems)
        raise typer.Exit(2) from faults
