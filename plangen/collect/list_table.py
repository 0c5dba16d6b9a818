"""Line lists as tables: a CSV file or a spreadsheet with the codes in a column, or with a line's parts in its cells."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from plangen.collect.list_columns import CODE, FOUND, GRADE, PHOTO, PLACE, PRINTED, REMARK, WHAT
from plangen.collect.list_lines import LineList, ListLine, line_of, line_of_parts, photo_names
from plangen.spec.problems import InputProblems, Mark, Problem

_ALIKE = {"value": FOUND, "reading": FOUND, "note": REMARK, "photos": PHOTO, "place": PLACE}


@dataclass(frozen=True)
class Row:
    """A row of a table: where it stands, and the texts of its cells."""

    where: str
    cells: tuple[str, ...]


def lines_of_csv(text: str, name: str) -> LineList:
    """Return the lines of a CSV file, parted by the mark that its lines have most."""
    delimiter = max(";\t,", key=text.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter)
    try:
        rows = [
            Row(f"line {reader.line_num}", tuple(" ".join(cell.split()) for cell in cells))
            for cells in reader
        ]
    except csv.Error as error:
        mark = Mark(name, reader.line_num)
        raise InputProblems([Problem(mark, "", f"no CSV ({error})", "a row a line")]) from error
    return LineList(name, lines_of_rows(rows))


def lines_of_rows(rows: Iterable[Row]) -> tuple[ListLine, ...]:
    """Return the lines of a table's rows.

    Below a row of headings each cell goes by its column; elsewhere the cells of a row are read as one line.
    """
    lines: list[ListLine] = []
    headings: list[str] = []
    for row in rows:
        filled = [cell for cell in row.cells if cell]
        if not filled:
            continue
        names = [_ALIKE.get(cell.casefold(), cell.casefold()) for cell in row.cells]
        if CODE in names or (WHAT in names and PLACE in names):
            headings = names
        elif headings:
            line = _headed(row, headings)
            if line is not None:
                lines.append(line)
        else:
            lines.append(line_of(_joined(filled), row.where))
    return tuple(lines)


def _joined(cells: Sequence[str]) -> str:
    """Return cells as one line: a code and what it is apart by a blank, further values by semicolons."""
    first = line_of(cells[0], "")
    return f"{cells[0]} {'; '.join(cells[1:])}".strip() if first.code else " ".join(cells)


def _headed(row: Row, headings: Sequence[str]) -> ListLine | None:
    """Return the line of a row below headings; nothing where only what was printed stands in it."""
    named: dict[str, list[str]] = {}
    for index, cell in enumerate(row.cells):
        heading = headings[index] if index < len(headings) else ""
        if cell and heading not in PRINTED:
            known = heading in (CODE, FOUND, REMARK, PHOTO, WHAT, PLACE, GRADE)
            named.setdefault(heading if known else REMARK, []).append(cell)
    cells = {heading: "; ".join(own) for heading, own in named.items()}
    text = "; ".join(cells.values())
    if WHAT in headings and cells:
        parts = [cells.get(name, "") for name in (WHAT, PLACE, GRADE)]
        photos = photo_names(cells.get(PHOTO, ""))
        said = ", ".join(part for part in parts if part)
        if not said:
            return ListLine(row.where, text)
        return ListLine(row.where, text, found=said, note=cells.get(REMARK, ""), photos=photos)
    if set(cells) <= {CODE}:
        return None
    code = line_of(cells.get(CODE, ""), "").code
    if not code or code.casefold() != cells[CODE].casefold():
        return line_of(text, row.where) if CODE not in cells else ListLine(row.where, text)
    return line_of_parts(
        row.where, text, code, cells.get(FOUND, ""), cells.get(REMARK, ""), cells.get(PHOTO, "")
    )
