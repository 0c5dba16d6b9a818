"""Tables as CSV in which no cell can act as a formula."""

from __future__ import annotations

import csv
import datetime
import io
import re
from collections.abc import Iterable, Sequence

from plangen.print.cell_values import FORMULA, Value

#: What follows a semicolon, tab or line end is a formula where the spreadsheet takes that for the end of a cell.
_HIDDEN_FORMULA = re.compile(r"([;\t\r\n][ ]*)(?=[=+\-@])")


def harmless(text: str) -> str:
    """Return text with an apostrophe before whatever a spreadsheet would take for a formula.

    >>> harmless("=1+1"), harmless("none; -5 ok"), harmless("12.6 V")
    ("'=1+1", "none; '-5 ok", '12.6 V')
    """
    return _HIDDEN_FORMULA.sub(r"\1'", FORMULA.sub("'", text))


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
