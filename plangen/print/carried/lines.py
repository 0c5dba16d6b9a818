"""The lines of a round's sheet: what to do, what is good, and the boxes to write in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from plangen.collect.field_names import reading_field
from plangen.findings.parse_reading import printed_label
from plangen.plan.alternatives import words_of
from plangen.plan.format import decimals_of, unit_words
from plangen.plan.model import Expectation, Plan, PlannedCheck
from plangen.print.carried.answers import BOX, CODE, Answers, answers_of
from plangen.print.carried.page import WIDTH
from plangen.print.carried.text_width import pieces_of, width_of
from plangen.print.words import BASIS_WORDS
from plangen.spec.quantity import convert_number

#: What is read as yes or no is ticked.
_YES_OR_NO = ("yes", "no")
#: Points of a series that stand side by side on a retest.
_POINTS_IN_A_ROW = 8
#: Millimetres: the room of a letter before a row of points, and what lies between a point's words and its box, and behind it.
LETTER, _NEAR, _BEHIND = 3.5, 0.8, 2.7

#: The basis in one word behind what is good; common practice, which most limits are, goes without a word.
BASIS_WORD = BASIS_WORDS | {"common-practice": ""}

#: The widest unit, in millimetres, beside which a number has room in a box.
_WIDEST_UNIT = 7.0

#: Grades that are printed on the sheet; the others mean that a snag gets a date or a remark.
_MARKED = {"stop": "STOP", "before-handover": "HANDOVER"}
#: The same as a mark below the code of a check.
_MARKS = {"STOP": "STOP", "HANDOVER": "H"}
#: The height of a code with a mark and a method's number below it, where both have no room side by side.
_HIGHEST_CODE = 12.3


@dataclass(frozen=True)
class Point:
    """One point of a series: where it is read, what is good there, the field to write it in, and its limits."""

    at: str
    good: str
    field: str
    place: float
    unit: str = ""
    value: float | None = None
    low: float | None = None
    high: float | None = None

    @property
    def short(self) -> str:
        """Return what is good without its unit, which stands behind what is read."""
        return self.good.replace(f" {self.unit}", "") if self.unit else self.good

    @property
    def words_width(self) -> float:
        """Return how wide its words stand before its box, in two lines, in millimetres."""
        return max(width_of(self.at), width_of(self.short, weight=700)) + _NEAR


@dataclass(frozen=True)
class Cell:
    """One reading: its code, its words, what is good and why, what to ring when bad, and the field to write it in."""

    id: str
    code: str
    letter: str
    words: str
    good: str
    basis: str
    unit: str
    field: str
    kind: Literal["tick", "write", "series"]
    tip: str
    parts: tuple[str, ...] = ()
    is_condition: bool = False
    is_plate: bool = False
    points: tuple[Point, ...] = ()

    @property
    def rows_of_points(self) -> tuple[tuple[Point, ...], ...]:
        """Return the points of a series as they stand side by side."""
        return tuple(
            self.points[start : start + _POINTS_IN_A_ROW]
            for start in range(0, len(self.points), _POINTS_IN_A_ROW)
        )

    @property
    def rows_beside(self) -> tuple[tuple[Point, ...], ...]:
        """Return the points of a series as they stand side by side with their words before their boxes."""
        rows: list[list[Point]] = [[]]
        left = room = WIDTH - CODE - LETTER
        for point in self.points:
            wide = point.words_width + BOX + _BEHIND
            if rows[-1] and wide > left:
                rows.append([])
                left = room
            rows[-1].append(point)
            left -= wide
        return tuple(tuple(row) for row in rows)

    @property
    def wide(self) -> bool:
        """Tell whether words or a long number are written into its box."""
        is_number = any(letter.isdigit() for letter in self.good) and not self.is_plate
        return self.kind == "write" and not is_number

    @property
    def limit(self) -> str:
        """Return what is good as its text says it; a series has it beside the box of each point."""
        return "" if self.kind == "series" else self.good

    @property
    def unit_inside(self) -> str:
        """Return its unit where the box has room for it and a number."""
        return self.unit if self.unit and width_of(self.unit, 8) <= _WIDEST_UNIT else ""

    @property
    def pieces(self) -> tuple[float, ...]:
        """Return the widths of all that is printed of it, the mark at its end included; what is good is never parted."""
        said = f"{'counts only if ' if self.is_condition else ''}{self.words}"
        said += f", {self.unit}" if self.kind == "series" and self.unit else ""
        parts = f"{':' if self.parts else ''} {' · '.join(self.parts)}"
        mark = ";" if not self.limit else ""
        good = f"{self.limit};".replace(" ", "\u00a0") if self.limit else ""
        return (
            *pieces_of(self.letter, weight=700),
            *pieces_of(f"{said}{parts.rstrip()}{mark}"),
            *pieces_of(good, weight=700),
            *pieces_of(self.basis, size=8),
        )


@dataclass(frozen=True)
class Line:
    """One check on a sheet: its cells, series apart.

    `like` is the code of the check above that has its words in full; `places` how many boxes stand side by side, as in what
    is alike above and below.
    """

    check: PlannedCheck
    code: str
    do: str
    item: str
    method: str
    grade: str
    people: int
    cells: tuple[Cell, ...]
    series: tuple[Cell, ...]
    like: str = ""
    places: int = 0

    @property
    def asked(self) -> str:
        """Return what to do, or which check above says it, and how many people it needs."""
        people = f", {self.people} people" if self.people > 1 else ""
        return f"{f'as {self.like}' if self.like else self.do}{people}."

    @property
    def said(self) -> tuple[Cell, ...]:
        """Return its readings as its text names them, by their letters."""
        return tuple(sorted((*self.cells, *self.series), key=lambda cell: (len(cell.letter), cell.letter)))

    @property
    def mark(self) -> str:
        """Return its grade as it stands below its code."""
        return _MARKS.get(self.grade, "")

    @property
    def code_height(self) -> float:
        """Return how high its code stands with what is below it, in millimetres."""
        return _HIGHEST_CODE if self.mark == "STOP" and not self.like else 0.0

    @property
    def pieces_asked(self) -> tuple[float, ...]:
        """Return the widths of all that is printed of what to do."""
        return (
            *pieces_of(f"{self.item}:" if self.item else "", weight=700),
            *pieces_of(self.asked),
        )

    @property
    def pieces(self) -> tuple[float, ...]:
        """Return the widths of all that is printed of it beside its boxes."""
        return (*self.pieces_asked, *(piece for cell in self.said for piece in cell.pieces))

    @property
    def answers(self) -> Answers:
        """Return how its boxes stand beside its text."""
        return answers_of(self.pieces, [cell.wide for cell in self.cells], self.places)


def line_of(check: PlannedCheck, plan: Plan, methods: Mapping[str, str], place: str | None) -> Line:
    """Return a check as the sheet of its round has it; its item is left out where the round's place says it."""
    cells = [_cell(check, index, expected, plan.units) for index, expected in enumerate(check.expect)]
    item = check.item if check.item not in (place, "boat") else ""
    return Line(
        check=check,
        code=check.code,
        do=(check.do or check.title).rstrip("."),
        item="" if item and item.casefold() in (check.do or check.title).casefold() else item,
        method=methods[check.rule],
        grade=_MARKED.get(check.grade, ""),
        people=check.people,
        cells=tuple(cell for cell in cells if cell.kind != "series"),
        series=tuple(cell for cell in cells if cell.kind == "series"),
    )


def _cell(check: PlannedCheck, index: int, expected: Expectation, units: str) -> Cell:
    """Return a reading with the unit that a bare number is read in: that of the plan's limits."""
    tick = expected.text is not None and expected.text.casefold() in _YES_OR_NO
    own = reading_field(check, index)
    letter, words = expected.code.lstrip("0123456789."), words_of(check.expect, index)
    tip = f"{expected.code} {check.item}, {expected.reading}" + ("" if tick else f": {expected.shown}")
    return Cell(
        id=expected.id,
        code=expected.code,
        letter=letter,
        words=words if letter or expected.condition else _begun(words),
        good="" if tick or (expected.record and not expected.plate) else expected.shown,
        basis="" if tick or expected.record else BASIS_WORD.get(expected.basis, expected.basis),
        unit=printed_label(expected.unit, units).removeprefix("Δ") if not tick else "",
        field=own,
        kind="series" if expected.series else "tick" if tick else "write",
        tip=tip,
        is_plate=expected.record == "plate",
        parts=expected.parts,
        is_condition=expected.condition,
        points=_points(check, index, expected, units),
    )


def _begun(words: str) -> str:
    """Return words as they begin a sentence.

    >>> _begun("list of the boat"), _begun("pH of the water")
    ('List of the boat', 'pH of the water')
    """
    return words if words[1:2].isupper() else words[:1].upper() + words[1:]


def _at(point: float, label: str, units: str) -> str:
    """Return where a reading of a series is taken, in the units of the plan."""
    printed = printed_label(label, units)
    value = point if printed == label else round(convert_number(point, label, printed), 1)
    return f"{value:.{decimals_of(value)}f} {printed}".strip()


def _points(check: PlannedCheck, index: int, expected: Expectation, units: str) -> tuple[Point, ...]:
    points = []
    unit = printed_label(expected.unit, units)
    for step, point in enumerate(expected.series):
        at = f"{point.point:.{decimals_of(point.point)}f} {unit_words(expected.series_unit, point.point)}".strip()
        field = reading_field(check, index, step)
        limits = (
            None if one is None else convert_number(one, expected.unit, unit)
            for one in (point.value, point.low, point.high)
        )
        points.append(Point(at, point.shown, field, point.point, unit.removeprefix("Δ"), *limits))
    return tuple(points)
