"""The check sheets of a plan: one sheet per run of a system in a setting, blocks of one rule, rows per reading."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from plangen.collect.field_names import reading_field, sessions_of
from plangen.plan.format import Limits, decimals_of, limits_text
from plangen.plan.model import Expectation, Plan, PlannedCheck
from plangen.print.sources import basis_text, source_numbers


@dataclass(frozen=True)
class Point:
    """One point of a series: where it is read, what is expected there, and the field to write it in."""

    label: str
    expected: str
    field: str


@dataclass(frozen=True)
class Cell:
    """One thing to read, what is expected, and the field to write it in; a series has a field for each point."""

    reading: str
    expected: str
    basis: str
    note: str
    field: str
    choice: bool
    points: tuple[Point, ...] = ()


@dataclass(frozen=True)
class Key:
    """A reading of a block with its letter, and what is expected where that is the same for every item."""

    letter: str
    reading: str
    expected: str
    basis: str
    note: str


@dataclass(frozen=True)
class RowCell:
    """A cell of one item: its letter, and what is expected of this item otherwise than of the others."""

    letter: str
    cell: Cell
    own: str


@dataclass(frozen=True)
class ItemRow:
    """The cells of one check, and what is to be said of this item alone."""

    check: PlannedCheck
    place: str
    cells: tuple[RowCell, ...]
    remarks: tuple[str, ...]


@dataclass(frozen=True)
class Block:
    """The checks of one rule, printed together: the procedure once, then the rows of each item."""

    rule: str
    title: str
    grade: str
    minutes: float
    people: int
    needs: tuple[str, ...]
    instruments: tuple[str, ...]
    procedure: tuple[str, ...]
    cautions: tuple[str, ...]
    watch_out: str | None
    used_boat: tuple[str, ...]
    keys: tuple[Key, ...]
    rows: tuple[ItemRow, ...]

    @property
    def single(self) -> bool:
        """Tell whether the block has one item, whose readings are printed one below the other."""
        return len(self.rows) == 1


@dataclass(frozen=True)
class Sheet:
    """One clipboard: a run of one system's blocks in one setting."""

    number: int
    anchor: str
    session: str
    setting: str
    setting_title: str
    system_title: str
    blocks: tuple[Block, ...]
    checks: int
    minutes: float
    opens_session: bool


def sheets_of(plan: Plan) -> tuple[Sheet, ...]:
    """Return the plan's check sheets in the order of work."""
    titles = {line.system: line.title for line in plan.summary}
    settings = {line.setting: line.title for line in plan.settings}
    numbers = source_numbers(plan)
    instruments = {item.id: item.title for item in plan.kit}
    zones = plan.zone_codes
    sheets: list[Sheet] = []
    for session, run in sessions_of(plan.checks):
        for system, group in groupby(run, key=lambda check: check.system):
            checks = list(group)
            setting = checks[0].setting
            blocks = tuple(
                _block(list(alike), plan, numbers, instruments, zones)
                for _, alike in groupby(checks, key=lambda c: (c.rule, c.title))
            )
            number = len(sheets) + 1
            sheets.append(
                Sheet(
                    number=number,
                    anchor=f"sheet-{number}",
                    session=session,
                    setting=setting,
                    setting_title=settings[setting],
                    system_title=titles[system],
                    blocks=blocks,
                    checks=len(checks),
                    minutes=sum(check.minutes for check in checks),
                    opens_session=checks[0] is run[0],
                )
            )
    return tuple(sheets)


def _block(
    checks: Sequence[PlannedCheck],
    plan: Plan,
    numbers: dict[str, int],
    instruments: dict[str, str],
    zones: dict[str, str],
) -> Block:
    first = checks[0]
    needs = dict.fromkeys(need for check in checks for need in check.needs)
    cells = [_cells(check, numbers, plan.units) for check in checks]
    keys = _keys(cells)
    steps = _common([check.procedure for check in checks])
    return Block(
        rule=first.rule,
        title=first.title,
        grade=first.grade,
        minutes=sum(check.minutes for check in checks),
        people=first.people,
        needs=tuple(needs),
        instruments=tuple(instruments[name] for name in first.instruments),
        procedure=steps,
        cautions=tuple(plan.cautions[name] for name in first.cautions),
        watch_out=first.watch_out,
        used_boat=tuple(dict.fromkeys(text for check in checks for text in check.used_boat)),
        keys=tuple(keys.values()),
        rows=tuple(
            ItemRow(
                check,
                zones.get(check.zone or "", check.zone or ""),
                tuple(
                    RowCell(keys[cell.reading].letter, cell, _own(cell, keys[cell.reading])) for cell in own
                ),
                _remarks(check, own, keys, steps),
            )
            for check, own in zip(checks, cells, strict=True)
        ),
    )


def _keys(cells: Sequence[tuple[Cell, ...]]) -> dict[str, Key]:
    """Return a key for each reading, with the expectation and the note where they are the same for every item."""
    by_reading: dict[str, list[Cell]] = {}
    for own in cells:
        for cell in own:
            by_reading.setdefault(cell.reading, []).append(cell)
    keys: dict[str, Key] = {}
    for number, (reading, alike) in enumerate(by_reading.items()):
        expected = _same([cell.expected for cell in alike])
        note = _same([cell.note for cell in alike])
        basis = "; ".join(dict.fromkeys(cell.basis for cell in alike if cell.basis))
        keys[reading] = Key(letter(number), reading, expected, basis, note)
    return keys


def _same(texts: Sequence[str]) -> str:
    return texts[0] if len(set(texts)) == 1 else ""


#: The longest note that stands above its cell; a longer one gets a line of the row.
_SHORT = 28


def _own(cell: Cell, key: Key) -> str:
    note = cell.note if not key.note and len(cell.note) <= _SHORT else ""
    return "; ".join(part for part in (cell.expected if not key.expected else "", note) if part)


def _remarks(
    check: PlannedCheck, own: Sequence[Cell], keys: dict[str, Key], steps: Sequence[str]
) -> tuple[str, ...]:
    """Return what is to be said of one item alone: its own steps, and its own notes with their letters."""
    notes = [
        f"{keys[cell.reading].letter}: {cell.note}"
        for cell in own
        if not keys[cell.reading].note and len(cell.note) > _SHORT
    ]
    return (*(step for step in check.procedure if step not in steps), *notes)


def letter(number: int) -> str:
    """Return the letter of the reading with this number, counted from 0.

    >>> letter(0), letter(25), letter(26)
    ('A', 'Z', 'AA')
    """
    first, second = divmod(number, 26)
    return (chr(64 + first) if first else "") + chr(65 + second)


#: So many steps that only some items have are printed with the common ones, and one more for every third item.
_FEW = 3


def _common(procedures: Sequence[tuple[str, ...]]) -> tuple[str, ...]:
    """Return the steps to print once: those of every item, and the others where they are few."""
    every = dict.fromkeys(step for procedure in procedures for step in procedure)
    common = [step for step in every if all(step in procedure for procedure in procedures)]
    few = max(_FEW, len(procedures) // 3 + 1)
    return tuple(every) if len(every) - len(common) <= few else tuple(common)


def _cells(check: PlannedCheck, numbers: dict[str, int], units: str) -> tuple[Cell, ...]:
    cells: list[Cell] = []
    for index, expected in enumerate(check.expect):
        basis = basis_text(expected, numbers)
        if expected.series:
            cells.append(_series_cell(check, index, expected, basis, units))
            continue
        choice = expected.text is not None and expected.text.lower() in ("yes", "no")
        cells.append(
            Cell(
                expected.reading,
                expected.shown,
                basis,
                expected.note or "",
                reading_field(check, index),
                choice,
            )
        )
    return tuple(cells)


def _series_cell(check: PlannedCheck, index: int, expected: Expectation, basis: str, units: str) -> Cell:
    numbers = [x for p in expected.series for x in (p.low, p.value, p.high) if x is not None]
    decimals = max((decimals_of(x) for x in numbers), default=0)
    system = units if units in ("metric", "us", "both") else "metric"
    points = []
    for step, point in enumerate(expected.series):
        label = f"{point.point:.{decimals_of(point.point)}f} {expected.series_unit}".strip()
        limits = Limits(point.low, point.value, point.high)
        shown = limits_text(limits, expected.unit, decimals, system) if numbers else ""  # type: ignore[arg-type]
        points.append(Point(label, shown, reading_field(check, index, step)))
    return Cell(
        reading=expected.reading,
        expected="" if numbers else expected.shown,
        basis=basis,
        note=expected.note or "",
        field="",
        choice=False,
        points=tuple(points),
    )
