"""The status and release sheet of each stage: one page, to be signed at its hold point."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from plangen.assess.model import Assessment, CheckVerdict, StageStatus
from plangen.packs.grades import GRADES
from plangen.plan.model import Plan
from plangen.print.html import Document, Paper, render

#: So many checks are named on a page; what is left to do comes first, and the rest is counted by system.
_LINES = 60
STATE_WORDS: Mapping[str, str] = {
    "released": "Released",
    "complete": "Complete",
    "open": "Open",
    "closed": "Closed",
}


@dataclass(frozen=True)
class StageLine:
    """One check of a stage, with where it stands in one word."""

    check: CheckVerdict
    word: str


@dataclass(frozen=True)
class SystemLine:
    """How far the checks of one system have come in a stage."""

    title: str
    checks: int
    to_do: int
    failed: int
    undecided: int


@dataclass(frozen=True)
class StageSheet:
    """A stage with what its page says."""

    status: StageStatus
    lines: tuple[StageLine, ...]
    unnamed: int
    systems: tuple[SystemLine, ...]
    early: tuple[CheckVerdict, ...]


def stages_document(plan: Plan, assessment: Assessment, paper: Paper = "A4") -> Document:
    """Return the sheets of all stages, a page for each."""
    sheets = [_sheet(stage, plan, assessment) for stage in assessment.stages]
    html = render(
        "stages.html.j2",
        plan=plan,
        assessment=assessment,
        sheets=sheets,
        paper=paper,
        state_words=STATE_WORDS,
    )
    return Document(html, "style.css", "stages.css")


def _sheet(stage: StageStatus, plan: Plan, assessment: Assessment) -> StageSheet:
    own = [check for check in assessment.checks if check.stage == stage.id]
    words = {
        **dict.fromkeys(stage.to_do, "to do"),
        **dict.fromkeys(stage.undecided, "undecided"),
        **dict.fromkeys(stage.failed, "fail"),
    }
    order = ("fail", "undecided", "to do", "done")
    lines = sorted(
        (StageLine(check, words.get(check.id, "done")) for check in own),
        key=lambda line: (order.index(line.word), GRADES.index(line.check.grade)),
    )
    titles = {line.system: line.title for line in plan.summary}
    return StageSheet(
        stage,
        tuple(lines[:_LINES]),
        len(lines[_LINES:]),
        tuple(
            _system(title, [check for check in own if check.system == system], words)
            for system, title in titles.items()
            if any(check.system == system for check in own)
        ),
        tuple(check for check in own if check.id in stage.early),
    )


def _system(title: str, checks: Sequence[CheckVerdict], words: Mapping[str, str]) -> SystemLine:
    said = [words.get(check.id, "done") for check in checks]
    return SystemLine(title, len(said), said.count("to do"), said.count("fail"), said.count("undecided"))
