"""The sheets as a spreadsheet: a row for each reading with its code, what is good, and empty cells to type into."""

from __future__ import annotations

from collections.abc import Iterator

from plangen.collect.list_columns import CODE, FOUND, GRADE, PHOTO, PLACE, PRINTED, REMARK, WHAT
from plangen.collect.output_names import keep_unfilled
from plangen.plan.alternatives import words_of
from plangen.plan.format import decimals_of
from plangen.plan.model import Expectation, Plan, PlannedCheck
from plangen.print.kept_workbook import kept_workbook

COLUMNS = dict(zip((CODE, *PRINTED, FOUND, REMARK, PHOTO), (8, 26, 60, 34, 22, 40, 10), strict=True))
ALSO = {WHAT: 50, PLACE: 34, GRADE: 18, REMARK: 40, PHOTO: 10}


def sheets_xlsx(plan: Plan) -> bytes:
    """Return the workbook that comes with a plan, and comes back filled; one that was made before is taken as it was kept."""
    rounds = {id: f"{one.number} {one.title}" for one in reversed(plan.rounds) for id in one.checks}
    rows = [_row(check, expected, rounds[check.id]) for check, expected in _readings(plan)]

    def made() -> bytes:
        from plangen.print.sheets_workbook import workbook_of

        return workbook_of(plan.boat.name, plan.short_digest, rows)

    content = kept_workbook([plan.boat.name, plan.short_digest, COLUMNS, ALSO, rows], made)
    keep_unfilled(content)
    return content


def _readings(plan: Plan) -> Iterator[tuple[PlannedCheck, Expectation]]:
    """Yield the readings that have a code, in the order of the rounds."""
    checks = {check.id: check for check in plan.checks}
    for one in plan.rounds:
        for id in one.checks:
            if id in checks:
                yield from ((checks[id], expected) for expected in checks[id].expect if expected.code)


def _row(check: PlannedCheck, expected: Expectation, where: str) -> tuple[str, ...]:
    item = "" if check.item == "boat" else f" ({check.item})"
    asked = f"{check.do or check.title}{item}: {words_of(check.expect, check.expect.index(expected))}"
    if expected.series:
        points = ", ".join(f"{one.point:.{decimals_of(one.point)}f}" for one in expected.series)
        asked += f" at {points} {expected.series_unit}".rstrip()
    if expected.parts:
        asked += f" ({', '.join(expected.parts)})"
    return (expected.code, where, asked, expected.shown, "", "", "")
