"""The lines of a round's sheet: what to do, what is good, and the boxes to write in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from plangen.collect.field_names import reading_field
from plangen.plan.format import decimals_of
from plangen.plan.model import Expectation, Plan, PlannedCheck
from plangen.print.words import BASIS_WORD

#: What is read as yes or no is ticked.
_YES_OR_NO = ("yes", "no")
#: Readings that stand side by side, and points of a series.
_CELLS_IN_A_ROW = 3
_POINTS_IN_A_ROW = 8


@dataclass(frozen=True)
class Point:
    """One point of a series: where it is read, what is good there, and the field to write it in."""

    at: str
    good: str
    field: str


@dataclass(frozen=True)
class Cell:
    """One reading: its code, its words, what is good and why, and the field to write it in."""

    code: str
    words: str
    good: str
    basis: str
    unit: str
    field: str
    kind: Literal["tick", "write", "series"]
    tip: str
    is_condition: bool = False
    points: tuple[tuple[Point, ...], ...] = ()


@dataclass(frozen=True)
class Line:
    """One check on a sheet: its cells in rows, series apart, and what to ring when bad."""

    check: PlannedCheck
    code: str
    do: str
    item: str
    parts: tuple[str, ...]
    method: str
    grade: str
    people: int
    cells: tuple[tuple[Cell, ...], ...]
    series: tuple[Cell, ...]

    @property
    def alone(self) -> Cell | None:
        """Return the reading of a line that has only one: it stands beside what to do, on the same row."""
        return self.cells[0][0] if len(self.cells) == 1 and len(self.cells[0]) == 1 else None


#: Grades that are printed on the sheet; the others mean that a snag gets a date or a remark.
_MARKED = {"stop": "STOP", "before-handover": "HANDOVER"}


def line_of(check: PlannedCheck, plan: Plan, methods: Mapping[str, str], place: str | None) -> Line:
    """Return a check as the sheet of its round has it; its item is left out where the round's place says it."""
    cells = [_cell(check, index, expected) for index, expected in enumerate(check.expect)]
    small = [cell for cell in cells if cell.kind != "series"]
    rows = tuple(
        tuple(small[start : start + _CELLS_IN_A_ROW]) for start in range(0, len(small), _CELLS_IN_A_ROW)
    )
    item = check.item if check.item not in (place, "boat") else ""
    return Line(
        check=check,
        code=check.code,
        do=check.do or check.title,
        item="" if item and item.casefold() in (check.do or check.title).casefold() else item,
        parts=tuple(dict.fromkeys(part for expected in check.expect for part in expected.parts)),
        method=methods[check.rule],
        grade=_MARKED.get(check.grade, ""),
        people=check.people,
        cells=rows,
        series=tuple(cell for cell in cells if cell.kind == "series"),
    )


def _cell(check: PlannedCheck, index: int, expected: Expectation) -> Cell:
    tick = expected.text is not None and expected.text.casefold() in _YES_OR_NO
    own = reading_field(check, index)
    tip = f"{expected.code} {check.item}, {expected.reading}" + ("" if tick else f": {expected.shown}")
    numbers = bool(expected.series)
    return Cell(
        code=expected.code,
        words=expected.reading,
        good="" if tick or expected.record else expected.shown,
        basis="" if tick or expected.record else BASIS_WORD.get(expected.basis, expected.basis),
        unit=expected.unit if not tick else "",
        field=own,
        kind="series" if numbers else "tick" if tick else "write",
        tip=tip,
        is_condition=expected.condition,
        points=_points(check, index, expected) if numbers else (),
    )


def _points(check: PlannedCheck, index: int, expected: Expectation) -> tuple[tuple[Point, ...], ...]:
    points = []
    for step, point in enumerate(expected.series):
        at = f"{point.point:.{decimals_of(point.point)}f} {expected.series_unit}".strip()
        points.append(Point(at, point.shown, reading_field(check, index, step)))
    return tuple(
        tuple(points[start : start + _POINTS_IN_A_ROW]) for start in range(0, len(points), _POINTS_IN_A_ROW)
    )
