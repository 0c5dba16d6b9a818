"""Tables as CSV in which no cell can act as a formula."""

from __future__ import annotations

import csv
import datetime
import io
from collections.abc import Iterable, Sequence

from plangen.print.snag_tables import harmless
from plangen.print.workbook import Value


def csv_bytes(columns: Sequence[str], rows: Iterable[Sequence[Value]]) -> bytes:
    """Return a table as CSV in UTF-8, marked as such for spreadsheets."""
    stream = io.StringIO()
    writer = csv.writer(stream, quoting=csv.QUOTE_NONNUMERIC, lineterminator="\r\n")
    writer.writerow(list(columns))
    for row in rows:
        writer.writerow([_cell(value) for value in row])
    return b"\xef\xbb\xbf" + stream.getvalue().encode("utf-8")


def _cell(value: Value) -> object:
    if isinstance(value, str):
        return harmless(value)
    return "" if value is None else value.isoformat() if isinstance(value, datetime.date) else value
