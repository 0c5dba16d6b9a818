"""The workbook of the sheets, made of its rows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from copy import copy

from openpyxl import Workbook
from openpyxl.cell.cell import Cell
from openpyxl.styles import Alignment, Border, Font, Side
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from plangen.print.sheets_table import ALSO, COLUMNS
from plangen.print.workbook import saved, set_cell

#: Rows with room for what is also found.
_ALSO_ROWS = 40
#: What is typed stays text as it was typed, whatever a spreadsheet would make of it: 12-13 is no date, =1 no formula.
_TEXT = "@"
_LINE = Border(bottom=Side("thin", color="999999"))


def workbook_of(name: str, digest: str, rows: Sequence[tuple[str, ...]]) -> bytes:
    """Return the workbook of a boat's readings, with room for what is also found."""
    book = Workbook()
    sheet = book.active
    assert isinstance(sheet, Worksheet)
    sheet.title = "Readings"
    for line, (text, value) in enumerate((("plan", digest), ("by", ""), ("day", "")), start=1):
        _put(sheet, line, 1, text).font = Font(bold=True)
        _put(sheet, line, 2, value)
    _table(sheet, COLUMNS, rows, 4)
    also = book.create_sheet("Also found")
    _table(also, ALSO, [("",) * len(ALSO)] * _ALSO_ROWS, 1)
    for one in (sheet, also):
        one.oddHeader.center.text = name.replace("&", "&&")
        one.oddFooter.center.text = f"plan {digest}"
    return saved(book, f"Sheets of {name}")


def _table(sheet: Worksheet, columns: Mapping[str, int], rows: Sequence[tuple[str, ...]], at: int) -> None:
    """Write headings at a line and rows below it, each cell as text."""
    for number, (heading, width) in enumerate(columns.items(), start=1):
        _put(sheet, at, number, heading).font = Font(bold=True)
        sheet.column_dimensions[get_column_letter(number)].width = width
        sheet.column_dimensions[get_column_letter(number)].number_format = _TEXT
    plain = _put(sheet, at + 1, 1, "") if rows else None
    for line, row in enumerate(rows, start=at + 1):
        for number, text in enumerate(row, start=1):
            _put(sheet, line, number, text, plain)
    sheet.freeze_panes = f"B{at + 1}"
    sheet.print_title_rows = f"{at}:{at}"
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.fitToHeight = 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True


def _put(sheet: Worksheet, line: int, column: int, text: str, like: Cell | None = None) -> Cell:
    """Put text into a cell in the style of all, or of a cell that has it: to work it out for each takes longest."""
    cell = sheet.cell(line, column)
    assert isinstance(cell, Cell)
    if like is not None:
        cell._style = copy(like._style)
    if text:
        set_cell(cell, text)
    if like is None:
        cell.number_format = _TEXT
        cell.alignment = Alignment(wrap_text=True, vertical="top")
        cell.border = _LINE
    return cell
