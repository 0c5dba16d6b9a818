"""`plangen collect`: what comes back from the boat."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from plangen.cli.faults import input_faults

if TYPE_CHECKING:
    from plangen.collect.collect import Returned


def collect(
    folder: Annotated[Path, typer.Argument(help="The boat's folder, with plan.yaml.", metavar="FOLDER")],
    filled: Annotated[
        list[Path],
        typer.Argument(
            help="Filled PDFs of her plan, files of her field page (.json, .txt), line lists as .txt, .csv or .xlsx; - for standard input.",
            metavar="FILLED...",
        ),
    ],
) -> None:
    """Read filled PDFs, field pages' files and line lists into findings.yaml; what stands there stays, and what two people found is kept twice.

    A line list has a reading a line, by the code on the sheet: 7.3b 14,1 photo 12.

    Example: plangen collect plans/second-wind filled-deck.pdf notes.txt
    """
    from plangen.folder import require_plan, take_forms
    from plangen.terminal.collected import say_collected
    from plangen.terminal.console import say

    with input_faults():
        require_plan(folder)
        collected, path = take_forms(folder, _returned(filled))
    for form in collected.forms:
        say_collected(form)
    say(f"wrote {path}" if path is not None else "nothing new in these files")
    if any(
        form.disagreements or ((form.is_list or form.is_page) and form.faults) for form in collected.forms
    ):
        raise typer.Exit(1)


def _returned(paths: list[Path]) -> list[Returned]:
    """Read all that comes back from the boat, or say what is wrong with any of it."""
    import sys

    from plangen.collect.field_export import LARGEST_EXPORT
    from plangen.collect.returned import read_returned
    from plangen.spec.ordinary_files import read_some
    from plangen.spec.problems import InputProblems, Mark, Problem

    forms: list[Returned] = []
    faults: list[Problem] = []
    for path in paths:
        try:
            if str(path) == "-":
                forms.append(read_returned(sys.stdin.buffer.read(LARGEST_EXPORT + 1), "standard input"))
                continue
            forms.append(read_returned(read_some(path, LARGEST_EXPORT), str(path)))
        except OSError as error:
            faults.append(Problem(Mark(str(path)), "", f"the file can't be read: {error.strerror}"))
        except InputProblems as found:
            faults.extend(found.problems)
    if faults:
        raise InputProblems(faults)
    return forms
