"""`plangen tally`: what many hulls come to."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from plangen.cli.options import InstrumentsOption, PaperOption
from plangen.cli.printing import paper_name, print_pdf

if TYPE_CHECKING:
    from plangen.hulls import Hull


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

    from plangen import api
    from plangen.files import hold, write_all
    from plangen.hulls import hull_folders
    from plangen.print.tally import tally_document
    from plangen.print.tally_tables import tally_csvs, tally_xlsx
    from plangen.terminal.series import reading_hulls, say_skipped
    from plangen.terminal.tallied import say_tally

    with reading_hulls(len(hull_folders(folders))) as step:

        def read(hull: Hull) -> None:
            step(hull.folder)
            if hull.problems:
                say_skipped(hull)

        found = api.tally(folders, instruments, read)
    if not found.hulls:
        raise typer.Exit(2)
    contents = {"tally.xlsx": tally_xlsx(found), **tally_csvs(found)}
    if make_pdf:
        document = tally_document(found, paper_name(paper, None))
        pdf = print_pdf(document, sha256(document.html.encode()).hexdigest(), "tally.pdf")
        contents |= {"tally.pdf": pdf} if pdf is not None else {}
    out.mkdir(parents=True, exist_ok=True)
    with hold(out):
        files = write_all(out, contents)
    say_tally(found, files)
    if found.skipped:
        raise typer.Exit(1)
