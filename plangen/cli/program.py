"""The program: its commands and its way in and out. Modules of the commands import the rest only inside."""

from __future__ import annotations

import gc
import io
import os
import sys
from contextlib import suppress
from typing import Annotated

import typer

from plangen import __version__
from plangen.cli.answers import answers
from plangen.cli.assess import assess
from plangen.cli.change_note import change_note
from plangen.cli.collect import collect
from plangen.cli.compare import compare
from plangen.cli.draft import draft
from plangen.cli.packs import packs_app
from plangen.cli.questions import questions
from plangen.cli.recall import recall
from plangen.cli.start import start
from plangen.cli.tally import tally
from plangen.cli.why import why

app = typer.Typer(
    name="plangen",
    help="Acceptance-trial plans for cruising boats: every check that this boat needs, the reading that counts as good, and why.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)
for _command in (start, questions, answers, draft, collect, assess, tally, recall, compare, change_note, why):
    app.command()(_command)
app.add_typer(packs_app, name="packs")


def _version(show: bool) -> None:
    if show:
        typer.echo(f"plangen {__version__}")
        raise typer.Exit


@app.callback()
def root(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Show the version.")
    ] = False,
) -> None:
    """Hold the options of the program itself."""


def main() -> None:
    """Run the program."""
    gc.disable()  # one short run that keeps nearly all it makes: collecting garbage only costs time
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")  # a terminal that can't show a letter shows a mark instead
    try:
        app()
    except OSError as error:
        from plangen.terminal.faults import say_system_fault

        say_system_fault(error)
        sys.exit(2)
    except UnicodeEncodeError as error:
        from plangen.terminal.faults import say_unnameable

        say_unnameable(error)
        sys.exit(2)


def run() -> None:
    """Run the program as a process of its own, which ends without taking down what the system frees anyway."""
    sys.modules.setdefault("numpy", None)  # type: ignore[arg-type]  # pint and openpyxl would load it; nothing here has arrays
    try:
        main()
    except SystemExit as end:
        with suppress(OSError):
            sys.stdout.flush()
            sys.stderr.flush()
        if isinstance(end.code, int):
            os._exit(end.code)
        raise
