"""The plan, as it is written to plan.yaml and printed."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import Field

from plangen.plan.base import PlanModel
from plangen.plan.day import LeftOut, OutsideScope, Round, SeriesTurn, Session, Trial
from plangen.plan.gear.lines import GearLine, GearPurchase, LawApplied, Unheld
from plangen.plan.house import House
from plangen.plan.map_model import ZoneMap


class Cited(PlanModel):
    """Where a fact was taken from."""

    id: str
    clause: str = ""
    known_by: str = ""


class SeriesPoint(PlanModel):
    """What is expected at one point of a series."""

    point: float
    value: float | None = None
    low: float | None = None
    high: float | None = None
    shown: str = ""


class Expectation(PlanModel):
    """One reading of a check, and what counts as good.

    `code` is its short name on paper: number of the round, line in the round, and a letter where the line has
    several readings. It is the same for one digest of the plan and no identity beyond it. Of the readings of a check
    that have the same `one_of`, one that is done suffices, or all those of one `way`; of a series with `any_point` one
    point does.
    """

    id: str
    code: str = ""
    reading: str
    formerly: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()
    condition: bool = False
    valid_if: tuple[str, ...] = ()
    one_of: str | None = None
    way: str | None = None
    any_point: bool = False
    unit: str = ""
    value: float | None = None
    low: float | None = None
    high: float | None = None
    text: str | None = None
    record: str | None = None
    plate: dict[str, str] = {}
    series: tuple[SeriesPoint, ...] = ()
    series_unit: str = ""
    shown: str
    basis: str
    formula: str | None = None
    inputs: dict[str, str] = {}
    computed: float | None = None
    note: str | None = None
    instrument: str | None = None
    source: Cited

    @property
    def numeric(self) -> bool:
        """Tell whether a number decides."""
        return (
            self.low is not None
            or self.high is not None
            or any(p.low is not None or p.high is not None for p in self.series)
        )


class ReadingPlace(PlanModel):
    """A reading of a check of the plan, by the ids of both."""

    check: str
    reading: str


class PlateReading(PlanModel):
    """A reading in which a plate is read: the `whole` of it, or only the serial number."""

    check: str
    reading: str
    whole: bool = False


class RegisterItem(PlanModel):
    """A thing aboard with a plate: what the spec states of it, and the readings in which it is read, the fullest first."""

    item: str
    group: str
    zone: str | None = None
    stated: dict[str, str] = {}
    readings: tuple[PlateReading, ...] = ()


class PlannedFigure(PlanModel):
    """A figure to be worked out of readings, with the values of the spec that it needs in its formula's units."""

    figure: str
    title: str
    unit: str = ""
    readings: dict[str, tuple[ReadingPlace, ...]]
    inputs: dict[str, float | str] = {}
    inputs_shown: dict[str, str] = {}
    at: float | None = None
    gives: str | None = None
    low: float | None = None
    high: float | None = None
    shown: str = ""
    source: Cited | None = None


class PlannedCheck(PlanModel):
    """One thing to do aboard to one item of equipment; `code` is its round's number and its line there.

    `formerly` are ids under which earlier plans had the check, whose findings it takes over.
    """

    id: str
    code: str = ""
    formerly: tuple[str, ...] = ()
    rule: str
    system: str
    title: str
    do: str | None = None
    protects: str | None = None
    priority: int = 2
    round: str | None = None
    stage: str | None = None
    asks_for: tuple[str, ...] = ()
    item: str
    zone: str | None = None
    setting: str
    needs: tuple[str, ...] = ()
    leaves: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    wets: str | None = None
    looks_after_wet: tuple[str, ...] | None = None
    procedure: tuple[str, ...] = ()
    used_boat: tuple[str, ...] = ()
    expect: tuple[Expectation, ...] = ()
    derive: tuple[PlannedFigure, ...] = ()
    instruments: tuple[str, ...] = ()
    minutes: float
    minutes_once: float = 0.0
    minutes_wait: float = 0.0
    people: int
    grade: str
    cautions: tuple[str, ...] = ()
    watch_out: str | None = None
    source: Cited


class PlannedStage(PlanModel):
    """A stage of the work: a hold point where somebody releases it, a witness point where somebody is invited."""

    id: str
    title: str
    hold: str | None = None
    witness: str | None = None


class SettingSummary(PlanModel):
    """Checks that follow one another in one setting."""

    setting: str
    title: str
    checks: int
    minutes: float


class SystemSummary(PlanModel):
    """How many checks one system has."""

    system: str
    title: str
    checks: int
    measured: int
    minutes: float


class KitNeed(PlanModel):
    """How much of something one session needs; nothing where it isn't counted."""

    session: str
    quantity: int | None = None


class KitItem(PlanModel):
    """Something to bring, and how many of it where it's used up or worn.

    What is `served_by` another needn't be brought: the other is as good for all that needs it.
    """

    id: str
    title: str
    kind: str
    measures: str = ""
    range: str = ""
    accuracy: str = ""
    accuracy_fixed: float | None = None
    accuracy_percent: float | None = None
    unit: str = ""
    served_by: str | None = None
    quantity: int | None = None
    counted: str = ""
    sessions: tuple[KitNeed, ...] = ()
    checks: int


class StoreLine(PlanModel):
    """A spare, tool, manual or document that should be aboard."""

    id: str
    title: str
    kind: str
    quantity: float
    why: str = ""
    source: Cited


class NotPlanned(PlanModel):
    """A section of which the spec says nothing, so that nothing of it is in the plan."""

    section: str
    title: str
    why: str
    rules: tuple[str, ...]


class Question(PlanModel):
    """Something that the spec leaves open.

    One that asks whether she `has` something comes first; `adds` names the checks that the answer might add. `of` is
    the item that it is about, `example` what an answer looks like, `to` who is likely to know it.
    """

    key: str
    of: str | None = None
    to: Literal["builder", "owner"] = "builder"
    example: str | None = None
    has: bool = False
    adds: tuple[str, ...] = ()
    asks: str
    assumed: str | None = None
    checks: tuple[str, ...] = ()
    laws: tuple[str, ...] = ()
    expected_values: int = 0


class AssumedValue(PlanModel):
    """A value taken where the spec gives none."""

    key: str
    value: str
    why: str
    source: str


class SourceLine(PlanModel):
    """A text that the plan relies on."""

    id: str
    title: str
    edition: str = ""
    url: str | None = None
    known_by: str


class PackLine(PlanModel):
    """A pack that the plan was made from."""

    pack: str
    title: str
    edition: str


class DraftedFrom(PlanModel):
    """The issue of a model or an option that a hull is drafted from; `content` tells whether it still says the same."""

    spec: str
    issue: int
    date: str | None = None
    content: str

    @property
    def words(self) -> str:
        """Return what people call it."""
        return f"{self.spec} issue {self.issue}" + (f" of {self.date}" if self.date else "")


class Boat(PlanModel):
    """Whose plan it is; `layers` are the names of the specs below hers: model and option sets."""

    name: str
    formerly: tuple[str, ...] = ()
    layers: tuple[str, ...] = ()
    hull_number: int | None = None
    drafted_from: tuple[DraftedFrom, ...] = ()
    builder: str | None = None
    model: str | None = None
    hull_id: str | None = None
    hull: str
    condition: str
    length_hull: str
    built: str | None = None
    flag: str | None = None
    trial_date: str | None = None
    daylight: str | None = None
    place: str | None = None
    buyer: str | None = None
    seller: str | None = None
    contract: str | None = None
    holdback: str | None = None
    persons: int | None = None


class Plan(PlanModel):
    """A trial plan for one boat."""

    boat: Boat
    purpose: Literal["delivery", "survey", "commissioning"] = "delivery"
    digest: str
    units: str
    packs: tuple[PackLine, ...]
    summary: tuple[SystemSummary, ...]
    settings: tuple[SettingSummary, ...]
    trial: Trial = Trial()
    rounds: tuple[Round, ...] = ()
    sessions: tuple[Session, ...] = ()
    stages: tuple[PlannedStage, ...] = ()
    turn: SeriesTurn | None = None
    left_out: tuple[LeftOut, ...] = ()
    outside_scope: tuple[OutsideScope, ...] = ()
    checks: tuple[PlannedCheck, ...]
    cautions: dict[str, str] = Field(default={})
    cautions_in_short: dict[str, str] = Field(default={})
    kit: tuple[KitItem, ...]
    law: tuple[LawApplied, ...]
    unheld: tuple[Unheld, ...] = ()
    gear: tuple[GearLine, ...]
    shopping: tuple[GearPurchase, ...] = ()
    stores: tuple[StoreLine, ...]
    as_built: tuple[RegisterItem, ...] = ()
    not_in_plan: tuple[NotPlanned, ...] = ()
    questions: tuple[Question, ...]
    assumed: tuple[AssumedValue, ...]
    sources: tuple[SourceLine, ...]
    house: House | None = None
    zone_codes: dict[str, str] = Field(default={})
    zone_map: ZoneMap | None = None

    @property
    def short_digest(self) -> str:
        """Return the first eight characters of the digest, as printed on every page."""
        return self.digest[:8]

    def check(self, id: str) -> PlannedCheck | None:
        """Return the check with an id."""
        return next((check for check in self.checks if check.id == id), None)

    def plain(self) -> dict[str, Any]:
        """Return the plan as plain values, empty ones left out."""
        return self.model_dump(mode="python", exclude_defaults=True)
