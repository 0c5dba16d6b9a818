"""The snag list for spreadsheets: CSV and XLSX, in which no cell can act as a formula."""

from __future__ import annotations

import csv
import datetime
import io
import re
import zipfile
from collections.abc import Mapping, Sequence
from decimal import Decimal

from openpyxl import Workbook
from openpyxl.cell.cell import ILLEGAL_CHARACTERS_RE, Cell
from openpyxl.styles import Alignment, Font
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet
from openpyxl.xml.functions import tostring

from plangen.assess.model import Assessment, Snag
from plangen.print.words import GRADE_WORDS, SETTLEMENT_WORDS

Value = str | int | Decimal | datetime.date | None

_COLUMNS: Mapping[str, int] = {
    "No.": 5, "Item": 22, "Check": 34, "Expected": 40, "Found": 34, "Grade": 16, "State": 10, "Settlement": 24, "Who": 16,
    "Due": 12, "Sum": 12, "Currency": 9, "Note": 40, "History": 34, "Accuracy that decides": 20, "Check id": 30, "Reading ids": 30,
}  # fmt: skip

#: A cell that begins so is a formula to some spreadsheet; so is what follows a semicolon, tab or line end
#: where the spreadsheet takes that for the end of a cell.
_FORMULA = re.compile(r"^(?=[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20])")
_HIDDEN_FORMULA = re.compile(r"([;\t\r\n][ ]*)(?=[=+\-@])")

#: Spreadsheets carry dates of their making; ours carry this one, so that the same snags give the same bytes.
_NO_DATE = datetime.datetime(1980, 1, 1)


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
    return _HIDDEN_FORMULA.sub(r"\1'", _FORMULA.sub("'", text))


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
    _fill(sheet, _COLUMNS, [_row(snag) for snag in assessment.snags])
    totals = (("held back", assessment.sums_held_back), ("price reduced by", assessment.price_reductions))
    _fill(
        book.create_sheet("Totals"),
        {"What": 18, "Currency": 12, "Sum": 16},
        [
            (words, currency, Decimal(total.replace(" ", "")))
            for words, by_currency in totals
            for currency, total in by_currency.items()
        ],
    )
    book.properties.creator = "plangen"
    book.properties.title = f"Snags of {ILLEGAL_CHARACTERS_RE.sub('', assessment.boat)}"
    book.properties.created = _NO_DATE
    written = io.BytesIO()
    book.save(written)
    book.properties.modified = _NO_DATE
    return _without_dates(written.getvalue(), {"docProps/core.xml": tostring(book.properties.to_tree())})


def _fill(sheet: Worksheet, columns: Mapping[str, int], rows: Sequence[Sequence[Value]]) -> None:
    for number, (name, width) in enumerate(columns.items(), start=1):
        cell = sheet.cell(1, number, name)
        cell.font = Font(bold=True)
        sheet.column_dimensions[get_column_letter(number)].width = width
    for line, row in enumerate(rows, start=2):
        for number, value in enumerate(row, start=1):
            cell = sheet.cell(line, number)
            assert isinstance(cell, Cell)
            _set(cell, value)
            cell.alignment = Alignment(wrap_text=True, vertical="top")
    sheet.freeze_panes = "A2"
    sheet.auto_filter.ref = sheet.dimensions
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.fitToHeight = 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True
    sheet.print_title_rows = "1:1"


def _set(cell: Cell, value: Value) -> None:
    """Set a cell; text is typed as text, so that no spreadsheet takes it for a formula."""
    if isinstance(value, str):
        cell.value = ILLEGAL_CHARACTERS_RE.sub("", value)
        cell.data_type = "s"
        cell.quotePrefix = bool(_FORMULA.match(value))
    elif value is not None:
        cell.value = value
        if isinstance(value, Decimal):
            cell.number_format = "#,##0.00"
        elif isinstance(value, datetime.date):
            cell.number_format = "yyyy-mm-dd"


def _without_dates(content: bytes, instead: Mapping[str, bytes]) -> bytes:
    """Return a workbook whose parts carry no time of writing."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            part = zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0))
            part.compress_type = zipfile.ZIP_DEFLATED
            part.external_attr = 0o600 << 16
            new.writestr(part, instead.get(name, old.read(name)))
    return out.getvalue()
