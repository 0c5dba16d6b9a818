"""The assessment, as it is written to assessment.yaml and printed."""

from __future__ import annotations

from typing import Any, Literal

from plangen.plan.base import PlanModel
from plangen.plan.model import Cited, GearLine

Verdict = Literal[
    "pass", "fail", "leaning-pass", "leaning-fail", "not-done", "does-not-apply", "recorded", "unclear"
]
SnagState = Literal["open", "mended", "accepted", "disputed"]

#: From the best to the worst: a check is as good as its worst reading.
WORST_LAST: tuple[Verdict, ...] = (
    "does-not-apply",
    "recorded",
    "pass",
    "leaning-pass",
    "not-done",
    "unclear",
    "leaning-fail",
    "fail",
)


class PointVerdict(PlanModel):
    """The verdict on one point of a series."""

    point: float
    found: float | None = None
    low: float | None = None
    value: float | None = None
    high: float | None = None
    verdict: Verdict
    uncertainty: float | None = None


class ReadingVerdict(PlanModel):
    """The verdict on one reading."""

    reading: str
    expected: str
    found: str = ""
    value: float | None = None
    unit: str = ""
    verdict: Verdict
    reason: str = ""
    instrument: str | None = None
    uncertainty: float | None = None
    deciding_accuracy: str | None = None
    series_unit: str = ""
    points: tuple[PointVerdict, ...] = ()
    source: Cited


class AttemptVerdict(PlanModel):
    """What one attempt at a check came to."""

    attempt: int
    verdict: Verdict
    by: str | None = None
    when: str | None = None
    note: str | None = None
    photos: tuple[str, ...] = ()
    readings: tuple[ReadingVerdict, ...] = ()


class CheckVerdict(PlanModel):
    """The verdict on one check, the last attempt deciding, with its history."""

    id: str
    title: str
    item: str
    system: str
    setting: str
    grade: str
    verdict: Verdict
    attempts: tuple[AttemptVerdict, ...] = ()
    second_look: bool = False
    disagreement: str | None = None


class DerivedFigure(PlanModel):
    """A figure worked out of several readings, with its verdict where the plan expects one.

    `reading` is the reading of the first of its checks that the figure stands for; `points` are its values
    against their limits where it is a series.
    """

    id: str
    title: str
    item: str = ""
    value: float | None = None
    values: tuple[tuple[float, float], ...] = ()
    unit: str = ""
    expected: str = ""
    uncertainty: float | None = None
    verdict: Verdict | None = None
    points: tuple[PointVerdict, ...] = ()
    point_unit: str = ""
    how: str
    checks: tuple[str, ...]
    reading: str | None = None
    source: Cited | None = None


class Snag(PlanModel):
    """One line of the snag list."""

    number: int
    check: str
    title: str
    item: str
    expected: str
    found: str
    grade: str
    state: SnagState
    settlement: str | None = None
    who: str | None = None
    due: str | None = None
    sum: str | None = None
    note: str | None = None
    history: tuple[str, ...] = ()
    instruments_that_decide: str | None = None


class SystemCount(PlanModel):
    """How far one system has come."""

    system: str
    title: str
    checks: int
    done: int
    to_do: int
    passed: int
    failed: int
    too_close: int
    does_not_apply: int


class Handover(PlanModel):
    """Whether handover is advisable, in one line."""

    advisable: bool
    line: str
    forbidding: tuple[str, ...] = ()


class Recorded(PlanModel):
    """A serial number, date or text that was recorded."""

    check: str
    item: str
    reading: str
    found: str


class Assessment(PlanModel):
    """Everything that findings and plan come to."""

    boat: str
    plan: str
    handover: Handover
    summary: tuple[SystemCount, ...]
    checks: tuple[CheckVerdict, ...]
    derived: tuple[DerivedFigure, ...] = ()
    snags: tuple[Snag, ...] = ()
    sums_held_back: dict[str, str] = {}
    price_reductions: dict[str, str] = {}
    recorded: tuple[Recorded, ...] = ()
    gear: tuple[GearLine, ...] = ()
    not_done: tuple[str, ...] = ()
    apart: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()

    def plain(self) -> dict[str, Any]:
        """Return the assessment as plain values, empty ones left out."""
        return self.model_dump(mode="python", exclude_defaults=True)
