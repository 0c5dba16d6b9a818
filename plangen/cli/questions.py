"""`plangen questions`: what the spec leaves open."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from plangen.cli.faults import input_faults
from plangen.cli.options import HouseOption, PacksOption, PaperOption, SpecFile, UnitsOption, units_name
from plangen.cli.printing import paper_name, print_pdf


class Asked(StrEnum):
    """Who is asked."""

    builder = "builder"
    owner = "owner"


def questions(
    spec: SpecFile,
    pdf: Annotated[
        Path | None, typer.Option(help="Also write the weightiest on two pages of a PDF that is filled in.")
    ] = None,
    to: Annotated[
        Asked, typer.Option(help="Who is asked on these pages: the builder or seller, or the owner.")
    ] = Asked.builder,
    units: UnitsOption = None,
    pack: PacksOption = None,
    paper: PaperOption = None,
    house: HouseOption = None,
) -> None:
    """List what the spec leaves open, what most hangs on first; --pdf is for the builder or seller to fill in.

    `plangen answers` reads it when it comes back.

    Example: plangen questions specs/catamaran.yaml --pdf questions.pdf
    """
    from plangen import api
    from plangen.files import write_whole
    from plangen.terminal.console import say
    from plangen.terminal.questions import say_questions

    with input_faults():
        plan = api.draft(api.load_spec(spec, pack or (), house), units_name(units))
    say_questions(plan)
    if pdf is not None:
        from plangen.print.questions import questions_document

        document = questions_document(plan, paper_name(paper, plan), to.value)
        content = print_pdf(document, plan.digest, "questions")
        if content is not None:
            write_whole(pdf, content)
            say(f"wrote {pdf}; all {len(plan.questions)} questions are in the list above")
