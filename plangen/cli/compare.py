"""`plangen compare`: two plans side by side."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from plangen.cli.faults import input_faults


def compare(
    first: Annotated[Path, typer.Argument(help="A plan.yaml, or the folder that holds it.", metavar="A")],
    second: Annotated[Path, typer.Argument(help="Another one.", metavar="B")],
) -> None:
    """Compare two plans: checks added, gone, and changed in what they expect.

    Example: plangen compare plans/hull-101 plans/hull-102
    """
    from plangen import api
    from plangen.terminal.comparison import say_comparison

    with input_faults():
        before, after = (api.load_plan(path) for path in (first, second))
    say_comparison(api.compare(before, after))
