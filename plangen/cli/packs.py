"""`plangen packs`: the packs listed and checked."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from plangen.cli.faults import input_faults
from plangen.cli.options import PacksOption

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
    folder: Annotated[
        Path | None, typer.Argument(help="A folder of packs of your own; without it, the shipped packs.")
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
    from plangen.packs.library import load_library
    from plangen.packs.lint import check_library
    from plangen.packs.lint_shipped import check_shipped
    from plangen.spec.problems import InputProblems
    from plangen.terminal.console import say
    from plangen.terminal.faults import say_pack_problems

    try:
        library = load_library([folder] if folder else ())
        problems = check_shipped(library) if shipped else check_library(library)
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
