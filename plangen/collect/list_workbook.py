"""A line list that comes as a spreadsheet: cells as they were typed, and formulas as their text."""

from __future__ import annotations

import datetime
import io
import zipfile
from collections.abc import Iterator
from typing import Any

from plangen.collect.list_lines import LineList
from plangen.collect.list_table import Row, lines_of_rows
from plangen.spec.problems import InputProblems, Mark, Problem

_LARGEST_UNPACKED = 134_217_728
_MOST_ROWS, _MOST_COLUMNS = 20_000, 40


def lines_of_workbook(content: bytes, name: str, path: str) -> LineList:
    """Return the lines of all sheets of a workbook.

    Raises `InputProblems` for what is no workbook, or larger than any list.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as packed:
            too_large = sum(part.file_size for part in packed.infolist()) > _LARGEST_UNPACKED
        sheets = [] if too_large else list(_sheets(content))
    except Exception as error:
        raise InputProblems(
            [Problem(Mark(path), "", f"a damaged workbook ({type(error).__name__})", "a whole .xlsx")]
        ) from error
    if too_large:
        raise InputProblems([Problem(Mark(path), "", "a workbook that is larger than any list", "a list")])
    return LineList(name, tuple(line for rows in sheets for line in lines_of_rows(rows)))


def _sheets(content: bytes) -> Iterator[list[Row]]:
    from openpyxl import load_workbook

    book = load_workbook(io.BytesIO(content), read_only=True, data_only=False)
    for sheet in book.worksheets:
        rows = sheet.iter_rows(max_row=_MOST_ROWS, max_col=_MOST_COLUMNS, values_only=True)
        yield [
            Row(f"sheet {sheet.title}, row {number}", tuple(_text(cell) for cell in cells))
            for number, cells in enumerate(rows, start=1)
        ]


def _text(value: Any) -> str:
    """Return a cell as somebody would have typed it.

    >>> _text(14.1), _text(28.0), _text(True), _text(datetime.datetime(2027, 5, 10)), _text(None)
    ('14.1', '28', 'yes', '2027-05-10', '')
    """
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float) and value.is_integer() and abs(value) < 1e15:
        return str(int(value))
    if isinstance(value, datetime.datetime) and value.time() == datetime.time():
        return value.date().isoformat()
    return " ".join(str(value).split())
