"""`plangen questions`: what the spec leaves open."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from plangen.cli.faults import input_faults
from plangen.cli.options import HouseOption, PacksOption, PaperOption, SpecFile, UnitsOption, units_name
from plangen.cli.printing import paper_name, print_pdf


def questions(
    spec: SpecFile,
    pdf: Annotated[
        Path | None, typer.Option(help="Also write a one-page PDF for the builder or seller.")
    ] = None,
    units: UnitsOption = None,
    pack: PacksOption = None,
    paper: PaperOption = None,
    house: HouseOption = None,
) -> None:
    """List what the spec leaves open, ordered by how many expected values depend on it.

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
        from plangen.print.html import questions_document

        content = print_pdf(questions_document(plan, paper_name(paper, plan)), plan.digest, "questions")
        if content is not None:
            write_whole(pdf, content)
            say(f"wrote {pdf}")
