"""The sheets as a spreadsheet: a row for each reading with its code, what is good, and empty cells to type into."""

from __future__ import annotations

from collections.abc import Iterator

from openpyxl import Workbook
from openpyxl.cell.cell import Cell
from openpyxl.styles import Alignment, Border, Font, Side
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from plangen.collect.list_columns import CODE, FOUND, GRADE, PHOTO, PLACE, PRINTED, REMARK, WHAT
from plangen.plan.alternatives import words_of
from plangen.plan.format import decimals_of
from plangen.plan.model import Expectation, Plan, PlannedCheck
from plangen.print.workbook import saved, set_cell

_COLUMNS = dict(zip((CODE, *PRINTED, FOUND, REMARK, PHOTO), (8, 26, 60, 34, 22, 40, 10), strict=True))
_ALSO = {WHAT: 50, PLACE: 34, GRADE: 18, REMARK: 40, PHOTO: 10}
#: Rows with room for what is also found.
_ALSO_ROWS = 40
#: What is typed stays text as it was typed, whatever a spreadsheet would make of it: 12-13 is no date, =1 no formula.
_TEXT = "@"
_LINE = Border(bottom=Side("thin", color="999999"))


def sheets_xlsx(plan: Plan) -> bytes:
    """Return the workbook that comes with a plan, and comes back filled."""
    book = Workbook()
    sheet = book.active
    assert isinstance(sheet, Worksheet)
    sheet.title = "Readings"
    for line, (text, value) in enumerate((("plan", plan.short_digest), ("by", ""), ("day", "")), start=1):
        _put(sheet, line, 1, text).font = Font(bold=True)
        _put(sheet, line, 2, value)
    rows = [_row(check, expected, plan) for check, expected in _readings(plan)]
    _table(sheet, _COLUMNS, rows, 4)
    also = book.create_sheet("Also found")
    _table(also, _ALSO, [("",) * len(_ALSO)] * _ALSO_ROWS, 1)
    for one in (sheet, also):
        one.oddHeader.center.text = plan.boat.name.replace("&", "&&")
        one.oddFooter.center.text = f"plan {plan.short_digest}"
    return saved(book, f"Sheets of {plan.boat.name}")


def _readings(plan: Plan) -> Iterator[tuple[PlannedCheck, Expectation]]:
    """Yield the readings that have a code, in the order of the rounds."""
    checks = {check.id: check for check in plan.checks}
    for one in plan.rounds:
        for id in one.checks:
            if id in checks:
                yield from ((checks[id], expected) for expected in checks[id].expect if expected.code)


def _row(check: PlannedCheck, expected: Expectation, plan: Plan) -> tuple[str, ...]:
    where = next((f"{one.number} {one.title}" for one in plan.rounds if check.id in one.checks), "")
    item = "" if check.item == "boat" else f" ({check.item})"
    asked = f"{check.do or check.title}{item}: {words_of(check.expect, check.expect.index(expected))}"
    if expected.series:
        points = ", ".join(f"{one.point:.{decimals_of(one.point)}f}" for one in expected.series)
        asked += f" at {points} {expected.series_unit}".rstrip()
    if expected.parts:
        asked += f" ({', '.join(expected.parts)})"
    return (expected.code, where, asked, expected.shown, "", "", "")


def _table(sheet: Worksheet, columns: dict[str, int], rows: list[tuple[str, ...]], at: int) -> None:
    """Write headings at a line and rows below it, each cell as text."""
    for number, (heading, width) in enumerate(columns.items(), start=1):
        _put(sheet, at, number, heading).font = Font(bold=True)
        sheet.column_dimensions[get_column_letter(number)].width = width
        sheet.column_dimensions[get_column_letter(number)].number_format = _TEXT
    for line, row in enumerate(rows, start=at + 1):
        for number, text in enumerate(row, start=1):
            _put(sheet, line, number, text)
    sheet.freeze_panes = f"B{at + 1}"
    sheet.print_title_rows = f"{at}:{at}"
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.fitToHeight = 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True


def _put(sheet: Worksheet, line: int, column: int, text: str) -> Cell:
    cell = sheet.cell(line, column)
    assert isinstance(cell, Cell)
    if text:
        set_cell(cell, text)
    cell.number_format = _TEXT
    cell.alignment = Alignment(wrap_text=True, vertical="top")
    cell.border = _LINE
    return cell
