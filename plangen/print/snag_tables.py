"""The snag list for spreadsheets: CSV and XLSX, in which no cell can act as a formula."""

from __future__ import annotations

import csv
import datetime
import io
import re
from collections.abc import Mapping, Sequence
from decimal import Decimal

from openpyxl import Workbook
from openpyxl.worksheet.worksheet import Worksheet

from plangen.assess.model import Assessment, Snag
from plangen.print.words import GRADE_WORDS, SETTLEMENT_WORDS
from plangen.print.workbook import FORMULA, Value, fill, saved

_COLUMNS: Mapping[str, int] = {
    "No.": 5, "Item": 22, "Check": 34, "Expected": 40, "Found": 34, "Grade": 16, "State": 10, "Settlement": 24, "Who": 16,
    "Due": 12, "Sum": 12, "Currency": 9, "Note": 40, "History": 34, "Accuracy that decides": 20, "Check id": 30, "Reading ids": 30,
}  # fmt: skip

#: What follows a semicolon, tab or line end is a formula where the spreadsheet takes that for the end of a cell.
_HIDDEN_FORMULA = re.compile(r"([;\t\r\n][ ]*)(?=[=+\-@])")


def _row(snag: Snag) -> tuple[Value, ...]:
    amount, _, currency = (snag.sum or "").rpartition(" ")
    return (
        snag.number,
        snag.item,
        snag.title,
        snag.expected,
        snag.found,
        GRADE_WORDS[snag.grade],
        snag.state,
        SETTLEMENT_WORDS.get(snag.settlement or "", ""),
        snag.who,
        datetime.date.fromisoformat(snag.due) if snag.due else None,
        Decimal(amount.replace(" ", "")) if amount else None,
        currency,
        snag.note,
        "; ".join(snag.history),
        snag.instruments_that_decide,
        snag.check,
        "; ".join(snag.readings),
    )


def harmless(text: str) -> str:
    """Return text with an apostrophe before whatever a spreadsheet would take for a formula.

    >>> harmless("=1+1"), harmless("none; -5 ok"), harmless("12.6 V")
    ("'=1+1", "none; '-5 ok", '12.6 V')
    """
    return _HIDDEN_FORMULA.sub(r"\1'", FORMULA.sub("'", text))


def snags_csv(snags: Sequence[Snag]) -> bytes:
    """Return the snag list as CSV in UTF-8, marked as such for spreadsheets."""
    stream = io.StringIO()
    writer = csv.writer(stream, quoting=csv.QUOTE_NONNUMERIC, lineterminator="\r\n")
    writer.writerow(list(_COLUMNS))
    for snag in snags:
        writer.writerow(
            [harmless(value) if isinstance(value, str) else _plain(value) for value in _row(snag)]
        )
    return b"\xef\xbb\xbf" + stream.getvalue().encode("utf-8")


def _plain(value: Value) -> object:
    return "" if value is None else value.isoformat() if isinstance(value, datetime.date) else value


def snags_xlsx(assessment: Assessment) -> bytes:
    """Return the snag list as a workbook, with the totals of the sums on a second sheet."""
    book = Workbook()
    sheet = book.active
    assert isinstance(sheet, Worksheet)
    sheet.title = "Snags"
    fill(sheet, _COLUMNS, [_row(snag) for snag in assessment.snags])
    totals = (("held back", assessment.sums_held_back), ("price reduced by", assessment.price_reductions))
    fill(
        book.create_sheet("Totals"),
        {"What": 18, "Currency": 12, "Sum": 16},
        [
            (words, currency, Decimal(total.replace(" ", "")))
            for words, by_currency in totals
            for currency, total in by_currency.items()
        ],
    )
    return saved(book, f"Snags of {assessment.boat}")
