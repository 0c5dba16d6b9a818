"""`plangen answers`: pages of questions that came back, written into the spec."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from plangen.cli.faults import input_faults
from plangen.cli.options import HouseOption, PacksOption, SpecFile


def answers(
    spec: SpecFile,
    filled: Annotated[
        list[Path], typer.Argument(help="Filled PDFs of `plangen questions --pdf`.", metavar="FILLED...")
    ],
    write: Annotated[
        bool, typer.Option("--write", help="Write the lines into the spec; without it they are only shown.")
    ] = False,
    leave: Annotated[
        list[str] | None,
        typer.Option(help="Key of an answer to leave out, as it is shown; may be given more than once."),
    ] = None,
    pack: PacksOption = None,
    house: HouseOption = None,
) -> None:
    """Show what the answers of filled pages would write into the spec, and write it with --write.

    Comments, order and whatever stands there stay as they are; what the spec says otherwise is said and not written
    (exit code 1). An answer that can't be read is named, and nothing is written (exit code 2).

    Example: plangen answers halcyon.yaml questions-filled.pdf --write
    """
    from plangen import api
    from plangen.terminal.answers import say_answered, say_written

    with input_faults():
        answered = api.answer(spec, filled, pack or (), house, leave or ())
    say_answered(answered)
    if write and answered.after != answered.before:
        with input_faults():
            api.write_answered(answered)
    say_written(answered, write)
    if answered.conflicts:
        raise typer.Exit(1)
