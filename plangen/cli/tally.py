"""`plangen tally`: what many hulls come to."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from plangen.cli.options import InstrumentsOption, PaperOption
from plangen.cli.printing import paper_name, print_pdf


def tally(
    folders: Annotated[
        list[Path],
        typer.Argument(help="The folders of the hulls, or a folder that holds them.", metavar="FOLDER..."),
    ],
    out: Annotated[Path, typer.Option(help="Folder for the tables and the PDF.")] = Path("tally"),
    make_pdf: Annotated[
        bool, typer.Option("--pdf/--no-pdf", help="Whether to print the tally as PDF.")
    ] = True,
    paper: PaperOption = None,
    instruments: InstrumentsOption = None,
) -> None:
    """Tally hulls: what passes at first, what fails by option set, how readings spread, what is open, causes.

    Reads assessment.yaml where it is up to date, and assesses anew where it isn't. Exit code 1: a hull was left out.

    Example: plangen tally plans --out tally
    """
    from hashlib import sha256

    from plangen.files import write_all
    from plangen.hulls import assessments, hull_folders
    from plangen.print.tally import tally_document
    from plangen.print.tally_tables import tally_csvs, tally_xlsx
    from plangen.series.tally import SeriesTally
    from plangen.terminal.series import reading_hulls, say_skipped
    from plangen.terminal.tallied import say_tally

    series = SeriesTally()
    places = hull_folders(folders)
    with reading_hulls(len(places)) as step:
        for hull in assessments(places, instruments):
            step(hull.folder)
            if hull.assessment is not None:
                series.add(hull.assessment)
            else:
                say_skipped(hull)
                series.skip(str(hull.folder), [str(problem) for problem in hull.problems])
    found = series.result()
    if not found.hulls:
        raise typer.Exit(2)
    contents = {"tally.xlsx": tally_xlsx(found), **tally_csvs(found)}
    if make_pdf:
        document = tally_document(found, paper_name(paper, None))
        pdf = print_pdf(document, sha256(document.html.encode()).hexdigest(), "tally.pdf")
        contents |= {"tally.pdf": pdf} if pdf is not None else {}
    say_tally(found, write_all(out, contents))
    if found.skipped:
        raise typer.Exit(1)
