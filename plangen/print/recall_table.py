"""The readings that one instrument took, as rows for the terminal and a spreadsheet."""

from __future__ import annotations

import datetime
from collections.abc import Iterable

from plangen.print.cell_values import Value
from plangen.print.csv_table import csv_bytes
from plangen.print.words import VERDICT_WORDS
from plangen.series.recall import RecalledReading

COLUMNS = (
    "Hull", "Check", "Item", "Reading", "Found", "Expected", "Verdict", "Uncertainty", "Unit", "Day", "By", "Attempt",
    "Instrument", "How known", "Calibration", "Check id", "Reading id",
)  # fmt: skip


def recall_csv(readings: Iterable[RecalledReading]) -> bytes:
    """Return the readings as CSV."""
    return csv_bytes(COLUMNS, (_row(one) for one in readings))


def _row(one: RecalledReading) -> tuple[Value, ...]:
    check, attempt, reading = one.check, one.attempt, one.reading
    return (
        one.hull, check.title, check.item, reading.reading, reading.found, reading.expected, VERDICT_WORDS[reading.verdict],
        reading.uncertainty, reading.unit, datetime.date.fromisoformat(attempt.when) if attempt.when else None, attempt.by,
        attempt.attempt, reading.taken_with, one.how_known, reading.instrument_fault or "", check.id, reading.id,
    )  # fmt: skip
