"""The snag list for spreadsheets: CSV and XLSX, in which no cell can act as a formula."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from decimal import Decimal

from plangen.assess.model import Assessment, Snag
from plangen.print.cell_values import Value
from plangen.print.csv_table import csv_bytes
from plangen.print.kept_workbook import kept_workbook
from plangen.print.words import GRADE_WORDS, SETTLEMENT_WORDS

_COLUMNS: Mapping[str, int] = {
    "No.": 5, "Item": 22, "Check": 34, "Expected": 40, "Found": 34, "Grade": 16, "State": 10, "Settlement": 24, "Who": 16,
    "Due": 12, "Sum": 12, "Currency": 9, "Note": 40, "Cause": 20, "History": 34, "Accuracy that decides": 20, "Check id": 30, "Reading ids": 30,
}  # fmt: skip

_TOTALS: Mapping[str, int] = {"What": 18, "Currency": 12, "Sum": 16}


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
    rows = [_row(snag) for snag in assessment.snags]
    sums = (("held back", assessment.sums_held_back), ("price reduced by", assessment.price_reductions))
    totals = [
        (words, currency, Decimal(total.replace(" ", "")))
        for words, by_currency in sums
        for currency, total in by_currency.items()
    ]

    def made() -> bytes:
        from plangen.print.workbook import workbook_of

        sheets = (("Snags", _COLUMNS, rows), ("Totals", _TOTALS, totals))
        return workbook_of(sheets, f"Snags of {assessment.boat}")

    return kept_workbook([assessment.boat, _COLUMNS, rows, _TOTALS, totals], made)
