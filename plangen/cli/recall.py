"""`plangen recall`: every reading that one instrument took, over hulls."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import Annotated

import typer

from plangen.cli.faults import input_faults
from plangen.cli.options import InstrumentsOption


def recall(
    instrument: Annotated[
        str, typer.Argument(help="Id or serial number from the instrument register.", metavar="INSTRUMENT")
    ],
    folders: Annotated[
        list[Path],
        typer.Argument(help="The folders of the hulls, or a folder that holds them.", metavar="FOLDER..."),
    ],
    csv: Annotated[Path | None, typer.Option(help="Also write the readings as CSV to this file.")] = None,
    since: Annotated[
        datetime | None,
        typer.Option(formats=["%Y-%m-%d"], help="Only readings from this day on, and those without a day."),
    ] = None,
    instruments: InstrumentsOption = None,
) -> None:
    """List every reading that one instrument took, over hulls.

    Where the findings don't say which instrument was used, the only one of its kind is taken, and the list says so.
    Exit code 1: a hull was skipped.

    Example: plangen recall M-01 plans --since 2027-02-01 --csv recall.csv
    """
    from plangen.files import write_whole
    from plangen.hulls import assessments, hull_folders
    from plangen.instrument_registers import instruments_named
    from plangen.print.recall_table import recall_csv
    from plangen.series.recall import RecalledReading, recalled
    from plangen.terminal.console import say
    from plangen.terminal.recalled import say_recall
    from plangen.terminal.series import reading_hulls, say_skipped

    places = hull_folders(folders)
    with input_faults():
        named = instruments_named(instrument, places, instruments)
    ids = {one.id for one in named}
    readings: list[RecalledReading] = []
    skipped = 0
    with reading_hulls(len(places)) as step:
        for hull in assessments(places, instruments):
            step(hull.folder)
            if hull.assessment is None:
                say_skipped(hull)
                skipped += 1
            else:
                readings += recalled(hull.assessment, ids, since.date() if since else None)
    if skipped == len(places):
        raise typer.Exit(2)
    say_recall(named, readings, len(places) - skipped)
    if csv is not None:
        write_whole(csv, recall_csv(readings))
        say(f"wrote {csv}")
    if skipped:
        raise typer.Exit(1)
