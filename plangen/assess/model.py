"""The assessment, as it is written to assessment.yaml and printed."""

from __future__ import annotations

from typing import Any, Literal

from plangen.findings.model import SurveyRecord
from plangen.plan.base import PlanModel
from plangen.plan.gear.lines import GearLine
from plangen.plan.house import Urgency
from plangen.plan.model import Boat, Cited

Verdict = Literal[
    "pass",
    "fail",
    "leaning-pass",
    "leaning-fail",
    "limited",
    "not-done",
    "does-not-apply",
    "recorded",
    "unclear",
    "met",
    "not-met",
    "not-recorded",
]
StageState = Literal["released", "complete", "open", "closed"]
SnagState = Literal["open", "mended", "accepted", "disputed"]

#: From the best to the worst: a check is as good as its worst reading. Conditions (met, not met, not recorded) don't count.
WORST_LAST: tuple[Verdict, ...] = (
    "does-not-apply",
    "recorded",
    "pass",
    "leaning-pass",
    "limited",
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
    """The verdict on one reading; `asked` is no where the plan doesn't ask for it any more.

    `from_attempt` is the attempt in which it was read, where a later one left it blank.

    `low`, `aim` and `high` are what was expected of a number; `taken_with` is the instrument of the register, assumed where nobody said so and the register has one of the kind.
    `instrument_fault` says that its calibration had run out, or that the register doesn't know what was written.
    """

    id: str
    reading: str
    expected: str
    found: str = ""
    value: float | None = None
    low: float | None = None
    aim: float | None = None
    high: float | None = None
    unit: str = ""
    verdict: Verdict
    reason: str = ""
    instrument: str | None = None
    uncertainty: float | None = None
    deciding_accuracy: str | None = None
    series_unit: str = ""
    points: tuple[PointVerdict, ...] = ()
    bad_parts: tuple[str, ...] = ()
    from_attempt: int | None = None
    asked: bool = True
    taken_with: str | None = None
    taken_with_assumed: bool = False
    instrument_fault: str | None = None
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
    """The verdict on one check, the last attempt deciding, with its history.

    `in_plan` is no where the plan doesn't have the check any more; `unasked` is what was typed for readings that
    the plan doesn't know.
    """

    id: str
    title: str
    item: str
    system: str
    setting: str
    stage: str | None = None
    grade: str
    verdict: Verdict
    attempts: tuple[AttemptVerdict, ...] = ()
    second_look: bool = False
    disagreement: str | None = None
    in_plan: bool = True
    unasked: tuple[str, ...] = ()


class DerivedFigure(PlanModel):
    """A figure worked out of several readings, with its verdict where the plan expects one.

    `reading` is the id of the reading of the first of its checks that the figure stands for; `points` are its values
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
    """One line of the snag list; `readings` are the ids of those that failed."""

    number: int
    check: str
    readings: tuple[str, ...] = ()
    in_plan: bool = True
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
    photos: tuple[str, ...] = ()
    history: tuple[str, ...] = ()
    instruments_that_decide: str | None = None
    cause: str | None = None
    cause_text: str | None = None
    proved_on: str | None = None


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
    limited: int = 0
    does_not_apply: int


class Handover(PlanModel):
    """Whether handover is advisable: no, can't be said, or yes; in one line, with the counts that it rests on.

    `deciding` counts the checks of grade stop or before handover, and of these `not_done`, `limited` by conditions and
    `unclear` those that leave it open.
    """

    answer: Literal["no", "cannot-be-said", "yes"]
    line: str
    forbidding: tuple[str, ...] = ()
    deciding: int = 0
    not_done: int = 0
    limited: int = 0
    unclear: int = 0

    @property
    def advisable(self) -> bool:
        """Tell whether nothing stands in the way."""
        return self.answer == "yes"


class InstrumentUsed(PlanModel):
    """An instrument of the register that took readings: how many, how many of them only by assumption or out of calibration."""

    id: str
    kind: str
    title: str
    maker: str | None = None
    model: str | None = None
    serial: str | None = None
    accuracy: str = ""
    calibrated: str | None = None
    calibration_due: str | None = None
    certificate: str | None = None
    readings: int
    assumed: int = 0
    out_of_calibration: int = 0


class StageStatus(PlanModel):
    """Where a stage stands, and why.

    `to_do`, `failed` and `undecided` are ids of its checks; `failed` are those whose snag isn't settled. `early` are
    those for which something was recorded while the stage was closed.
    """

    id: str
    title: str
    hold: str | None = None
    witness: str | None = None
    state: StageState
    why: str
    checks: int
    to_do: tuple[str, ...] = ()
    failed: tuple[str, ...] = ()
    undecided: tuple[str, ...] = ()
    released: str | None = None
    by: str | None = None
    invited: str | None = None
    came: str | None = None
    witnessed: str = ""
    early: tuple[str, ...] = ()
    note: str | None = None

    @property
    def done(self) -> int:
        """Return how many of its checks are done."""
        return self.checks - len(self.to_do)


class Money(PlanModel):
    """What the snags come to beside the contract's holdback; sums by currency, `to_price` the numbers of snags without a sum.

    `together` is what is held back and what the price is reduced by.
    """

    holdback: str | None = None
    disputed: dict[str, str] = {}
    together: dict[str, str] = {}
    left_of_holdback: str | None = None
    beyond_holdback: str | None = None
    to_price: tuple[int, ...] = ()


class Recommendation(PlanModel):
    """What a survey recommends: how urgent, of which item, and of which snag or undecided check; `house` are the surveyor's own.

    `do` says what for: to be put right, to be looked at further, or the house's own words.
    """

    number: int
    urgency: Urgency
    do: Literal["put-right", "look-further", "house"]
    item: str = ""
    check: str | None = None
    snag: int | None = None
    words: str = ""


class Recorded(PlanModel):
    """A serial number, date or text that was recorded."""

    check: str
    id: str
    item: str
    reading: str
    found: str


class Assessment(PlanModel):
    """Everything that findings and plan come to.

    `made_of` stands for the files that it was made of, so that one that is out of date is known as such.
    """

    boat: str
    plan: str
    made_of: str = ""
    vessel: Boat | None = None
    handover: Handover
    summary: tuple[SystemCount, ...]
    stages: tuple[StageStatus, ...] = ()
    checks: tuple[CheckVerdict, ...]
    gone: tuple[CheckVerdict, ...] = ()
    also_found: tuple[CheckVerdict, ...] = ()
    derived: tuple[DerivedFigure, ...] = ()
    snags: tuple[Snag, ...] = ()
    sums_held_back: dict[str, str] = {}
    price_reductions: dict[str, str] = {}
    money: Money = Money()
    recorded: tuple[Recorded, ...] = ()
    gear: tuple[GearLine, ...] = ()
    instruments: tuple[InstrumentUsed, ...] = ()
    not_done: tuple[str, ...] = ()
    settled_apart: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
    recommendations: tuple[Recommendation, ...] = ()
    survey: SurveyRecord | None = None

    def plain(self) -> dict[str, Any]:
        """Return the assessment as plain values, empty ones left out."""
        return self.model_dump(mode="python", exclude_defaults=True)
