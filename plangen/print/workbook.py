"""Spreadsheets in which no cell can act as a formula, and whose bytes depend on nothing but what stands in them."""

from __future__ import annotations

import datetime
import io
import zipfile
from collections.abc import Mapping, Sequence
from decimal import Decimal

from openpyxl import Workbook
from openpyxl.cell.cell import ILLEGAL_CHARACTERS_RE, Cell
from openpyxl.styles import Alignment, Font
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet
from openpyxl.xml.functions import tostring

from plangen.print.cell_values import FORMULA, Value

#: Spreadsheets carry dates of their making; ours carry this one, so that the same content gives the same bytes.
_NO_DATE = datetime.datetime(1980, 1, 1)


def workbook_of(
    sheets: Sequence[tuple[str, Mapping[str, int], Sequence[Sequence[Value]]]], title: str
) -> bytes:
    """Return a workbook of sheets, each with a title, its columns with their widths, and its rows."""
    book = Workbook()
    for number, (name, columns, rows) in enumerate(sheets):
        sheet = book.active if number == 0 else book.create_sheet(name)
        assert isinstance(sheet, Worksheet)
        sheet.title = name
        fill(sheet, columns, rows)
    return saved(book, title)


def saved(book: Workbook, title: str) -> bytes:
    """Return a workbook as bytes, without any time of writing."""
    book.properties.creator = "plangen"
    book.properties.title = ILLEGAL_CHARACTERS_RE.sub("", title)
    book.properties.created = _NO_DATE
    written = io.BytesIO()
    book.save(written)
    book.properties.modified = _NO_DATE
    return _without_dates(written.getvalue(), {"docProps/core.xml": tostring(book.properties.to_tree())})


def fill(sheet: Worksheet, columns: Mapping[str, int], rows: Sequence[Sequence[Value]]) -> None:
    """Fill a sheet with rows below their headings, which stay in sight."""
    for number, (name, width) in enumerate(columns.items(), start=1):
        cell = sheet.cell(1, number, name)
        cell.font = Font(bold=True)
        sheet.column_dimensions[get_column_letter(number)].width = width
    for line, row in enumerate(rows, start=2):
        for number, value in enumerate(row, start=1):
            cell = sheet.cell(line, number)
            assert isinstance(cell, Cell)
            set_cell(cell, value)
            cell.alignment = Alignment(wrap_text=True, vertical="top")
    sheet.freeze_panes = "A2"
    sheet.auto_filter.ref = sheet.dimensions
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.fitToHeight = 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True
    sheet.print_title_rows = "1:1"


def set_cell(cell: Cell, value: Value) -> None:
    """Set a cell; text is typed as text, so that no spreadsheet takes it for a formula."""
    if isinstance(value, str):
        cell.value = ILLEGAL_CHARACTERS_RE.sub("", value)
        cell.data_type = "s"
        cell.quotePrefix = bool(FORMULA.match(value))
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
