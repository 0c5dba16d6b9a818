"""The retest on paper: each line with what was found last time beside it, and boxes for today."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import groupby

from plangen.assess.model import Assessment, AttemptVerdict, ReadingVerdict
from plangen.assess.retest import Again, Retest, found_beside, retest_of
from plangen.plan.model import Plan
from plangen.print.carried.clipboards import method_numbers
from plangen.print.carried.document import STYLE
from plangen.print.carried.lines import Cell, Line, line_of
from plangen.print.html import Document, Paper, foot_of, render
from plangen.print.report.wording import BAD, fact_of

_OPEN = ("open", "disputed")
_ASKED_AGAIN = ("leaning-pass", "leaning-fail", "unclear", "limited")


@dataclass(frozen=True)
class Row:
    """One reading: its cell, what was found last time, whether that was bad, and why it decides nothing."""

    cell: Cell
    last: str
    bad: bool
    why: str


@dataclass(frozen=True)
class CheckAgain:
    """One check: its line, its snag, why it is done again, what was good and stands, and the last remark on it."""

    line: Line
    snag: int | None
    why: str
    rows: tuple[Row, ...]
    stands: str
    remark: str
    taken: str
    photos: tuple[str, ...]


@dataclass(frozen=True)
class Group:
    """The checks of one setting, with what can hurt in them and what they need."""

    title: str
    minutes: float
    tools: str
    cautions: tuple[tuple[str, str], ...]
    checks: tuple[CheckAgain, ...]


def retest_document(plan: Plan, assessment: Assessment, paper: Paper = "A4") -> Document | None:
    """Return the sheets of what is to be done again; nothing where nothing is."""
    retest = retest_of(plan, assessment)
    also_found = found_beside(assessment)
    gone = [snag for snag in assessment.snags if not snag.in_plan and snag.state in _OPEN]
    if not retest.again and not also_found:
        return None
    html = render(
        "retest/retest.html.j2",
        plan=plan,
        paper=paper,
        retest=retest,
        here=sum(one.number is not None for one in retest.again) + len(also_found),
        groups=_groups(plan, retest),
        also_found=also_found,
        found_on={check.id: _taken(check.attempts[0]) for check in assessment.also_found},
        gone=gone,
        days=sorted({one.when for check in assessment.checks for one in check.attempts if one.when}),
        attempts=json.dumps({one.check.id: one.tried for one in retest.again}),
    )
    return Document(html, STYLE, "retest/retest.css", foot_of(plan))


def _groups(plan: Plan, retest: Retest) -> tuple[Group, ...]:
    titles = {line.setting: line.title for line in plan.settings}
    instruments = {item.id: item.title for item in plan.kit}
    methods = method_numbers(plan)
    codes = {one.check.id: one.check.code or one.check.title for one in retest.again}
    groups = []
    for setting, several in groupby(retest.again, key=lambda one: one.check.setting):
        own = list(several)
        cautions: dict[str, list[str]] = {}
        for one in own:
            for name in one.check.cautions:
                if name in plan.cautions_in_short:
                    cautions.setdefault(plan.cautions_in_short[name], []).append(codes[one.check.id])
        tools = dict.fromkeys(
            instruments[name] for one in own for name in one.check.instruments if name in instruments
        )
        groups.append(
            Group(
                title=titles.get(setting, setting),
                minutes=sum(one.check.minutes for one in own),
                tools=", ".join(tools),
                cautions=tuple((", ".join(where), text) for text, where in cautions.items()),
                checks=tuple(_check_again(one, plan, methods, codes) for one in own),
            )
        )  # fmt: skip
    return tuple(groups)


def _check_again(
    again: Again, plan: Plan, methods: Mapping[str, str], codes: Mapping[str, str]
) -> CheckAgain:
    check = again.check
    line = line_of(check, plan, methods, None)
    last = again.last.attempts[-1] if again.last.attempts else None
    readings = {reading.id: reading for reading in last.readings} if last else {}
    rows = [
        _row(cell, readings.get(cell.id), plan.units)
        for cell in (*line.cells, *line.series)
        if cell.id in again.readings
    ]
    spoken = next((one for one in reversed(again.last.attempts) if one.note or one.photos), last)
    return CheckAgain(
        line=line,
        snag=again.number,
        why=_why(again, codes),
        rows=tuple(rows),
        stands=_stands(again, readings.values()),
        remark=(spoken.note or "") if spoken else "",
        taken=_taken(spoken) if spoken else "",
        photos=spoken.photos if spoken else (),
    )


def _row(cell: Cell, last: ReadingVerdict | None, units: str) -> Row:
    if last is None or not last.found:
        return Row(cell, "not read", bad=False, why="")
    why = last.reason if last.verdict in _ASKED_AGAIN else ""
    return Row(cell, fact_of(last, units).found, last.verdict in BAD, why)


def _why(again: Again, codes: Mapping[str, str]) -> str:
    if again.why == "depends":
        because = ", ".join(codes[id] for id in again.because)
        return f"good last time; again because of {because}"
    if again.last.disagreement:
        return again.last.disagreement
    return "undecided last time" if again.why == "undecided" else ""


def _stands(again: Again, readings: Iterable[ReadingVerdict]) -> str:
    """Say which readings were good and stand unless the mend touched them."""
    good = [
        reading.reading
        for reading in readings
        if reading.id not in again.readings and reading.found and reading.verdict in ("pass", "recorded")
    ]
    return "; ".join(good)


def _taken(attempt: AttemptVerdict) -> str:
    return ", ".join(part for part in (attempt.by, attempt.when) if part)
