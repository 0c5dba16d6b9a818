"""`plangen packs`: the packs listed and checked."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from plangen.cli.faults import input_faults
from plangen.cli.options import PacksOption

if TYPE_CHECKING:
    from plangen.packs.library import Library

packs_app = typer.Typer(
    help="List the packs, or check them.\n\nExample: plangen packs check my-packs",
    invoke_without_command=True,
    add_completion=False,
)


@packs_app.callback()
def packs(context: typer.Context, pack: PacksOption = None) -> None:
    """List the packs with their editions and sources; `packs check` checks them."""
    if context.invoked_subcommand is None:
        with input_faults():
            from plangen.packs.library import load_library
            from plangen.terminal.packs import say_packs

            library = load_library(pack or ())
        say_packs(library)


@packs_app.command()
def check(
    own: Annotated[
        Path | None,
        typer.Argument(
            help="A folder of packs of your own, or a house file; without it, the shipped packs.",
            metavar="FOLDER",
        ),
    ] = None,
    shipped: Annotated[
        bool,
        typer.Option(
            "--shipped", help="Also what is asked of shipped packs: whole sources and rules, no orphans."
        ),
    ] = False,
) -> None:
    """Check packs: every name, key, unit, formula, instrument, source and rule reference.

    On sample boats it also finds limits that depend on the boat and that the instrument can't decide.

    Example: plangen packs check my-packs
    """
    from plangen.api import undecidable_on_samples
    from plangen.packs.lint import check_library, check_own
    from plangen.packs.lint_shipped import check_shipped
    from plangen.spec.problems import InputProblems
    from plangen.terminal.console import say
    from plangen.terminal.faults import say_pack_problems

    try:
        library = _library_with(own)
        problems = (
            check_shipped(library) if shipped else check_own(library) if own else check_library(library)
        )
        if not any(not problem.is_warning for problem in problems):
            problems += undecidable_on_samples(library)
    except InputProblems as unreadable:
        problems = list(unreadable.problems)
    if say_pack_problems(problems):
        raise typer.Exit(1)
    rules = sum(len(pack.model.checks) for pack in library.rules)
    say(
        f"no faults, {len(problems)} warnings: {len(library.rules)} systems, {rules} rules, {len(library.law)} law packs, {len(library.stores)} stores packs"
    )


def _library_with(own: Path | None) -> Library:
    """Load the packs with a folder of one's own, or with a house file laid over them."""
    from plangen.packs.house.overlay import lay_house
    from plangen.packs.house.read import read_house
    from plangen.packs.library import load_library

    if own is None or own.is_dir() or not own.suffix:
        return load_library([own] if own else ())
    return lay_house(load_library(), read_house(own))


@packs_app.command()
def ids(
    word: Annotated[
        str | None,
        typer.Argument(help="Only what has this word in an id, a title or the words of a reading."),
    ] = None,
    pack: PacksOption = None,
) -> None:
    """List what a house file can name: rules and their readings with titles and limits as stated, and what laws demand.

    Example: plangen packs ids seacock
    """
    with input_faults():
        from plangen.packs.library import load_library
        from plangen.terminal.packs import say_ids

        library = load_library(pack or ())
    if not say_ids(library, word):
        raise typer.Exit(1)
