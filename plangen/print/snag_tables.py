"""The snag list for spreadsheets: CSV and XLSX, in which no cell can act as a formula."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from decimal import Decimal

from openpyxl import Workbook
from openpyxl.worksheet.worksheet import Worksheet

from plangen.assess.model import Assessment, Snag
from plangen.print.csv_table import csv_bytes
from plangen.print.words import GRADE_WORDS, SETTLEMENT_WORDS
from plangen.print.workbook import Value, fill, saved

_COLUMNS: Mapping[str, int] = {
    "No.": 5, "Item": 22, "Check": 34, "Expected": 40, "Found": 34, "Grade": 16, "State": 10, "Settlement": 24, "Who": 16,
    "Due": 12, "Sum": 12, "Currency": 9, "Note": 40, "Cause": 20, "History": 34, "Accuracy that decides": 20, "Check id": 30, "Reading ids": 30,
}  # fmt: skip


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
        snag.cause,
        "; ".join(snag.history),
        snag.instruments_that_decide,
        snag.check,
        "; ".join(snag.readings),
    )


def snags_csv(snags: Sequence[Snag]) -> bytes:
    """Return the snag list as CSV in UTF-8, marked as such for spreadsheets."""
    return csv_bytes(list(_COLUMNS), (_row(snag) for snag in snags))


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
