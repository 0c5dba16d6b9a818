"""What the terminal says of a recall."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.text import Text

from plangen.print.words import VERDICT_WORDS
from plangen.terminal.console import console, table_of

if TYPE_CHECKING:
    from plangen.findings.register import OwnInstrument
    from plangen.series.recall import RecalledReading


def say_recall(instruments: Sequence[OwnInstrument], readings: Sequence[RecalledReading], hulls: int) -> None:
    """Print every reading that the instruments took, hull by hull."""
    for own in instruments:
        held = [
            f"calibrated {own.calibrated}" if own.calibrated else "no calibration stated",
            f"due {own.calibration_due}" if own.calibration_due else "",
        ]
        console.print(
            Text.assemble((own.words, "bold"), f"  {', '.join(part for part in held if part)}"),
            soft_wrap=True,
        )
    columns = ("hull", "day", "by", "item", "reading", "found", "verdict", "known", "calibration")
    table = table_of(*columns, numbers=("found",))
    for one in readings:
        reading = one.reading
        table.add_row(
            *(
                Text(cell)
                for cell in (
                    one.hull,
                    one.attempt.when or "–",
                    one.attempt.by or "–",
                    one.check.item,
                    reading.reading,
                    reading.found,
                    VERDICT_WORDS[reading.verdict],
                    "assumed" if reading.taken_with_assumed else "said",
                    "out" if reading.instrument_fault else "",
                )
            )
        )
    if readings:
        console.print(table)
    boats = len({one.hull for one in readings})
    out = sum(1 for one in readings if one.reading.instrument_fault)
    assumed = sum(1 for one in readings if one.reading.taken_with_assumed)
    console.print(
        Text(
            f"{len(readings)} reading{'s' if len(readings) != 1 else ''} on {boats} of {hulls} hull{'s' if hulls != 1 else ''}"
        )
    )
    if assumed:
        console.print(
            Text(f"{assumed} by assumption: nobody wrote which instrument, and there is one of the kind")
        )
    if out:
        console.print(Text(f"{out} out of calibration on the day", "bold"))
