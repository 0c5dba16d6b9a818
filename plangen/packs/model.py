"""The models of every kind of pack: rules, law, stores and the catalogue."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field

from plangen.packs.base import (
    CautionField,
    ConditionField,
    Identifier,
    IdList,
    PackModel,
    Source,
    SourceField,
    SourceReference,
    TextField,
    TextList,
    ValueField,
    as_list,
)
from plangen.packs.grades import Grade
from plangen.packs.law import AboardRule, ApprovalMark, GearGroup, GearItem, Water

Basis = Literal["contract", "maker", "law", "standard", "computed", "common-practice", "assumed"]


class Instrument(PackModel):
    """Something that the plan needs brought: an instrument, a tool, something used up, or something worn.

    `serves` names those in whose place it does as well, by range and accuracy. `each` is how many of it, called
    `counted`, a check uses up, `each_person` how many everybody needs.
    """

    title: TextField
    kind: Literal["instrument", "tool", "consumable", "protection"] = "instrument"
    measures: TextField = ""
    unit: str = ""
    range: TextField = ""
    accuracy: ValueField | None = None
    accuracy_percent: Annotated[float, Field(ge=0, le=100)] | None = None
    serves: IdList = ()
    each: Annotated[float, Field(gt=0, le=1000)] | None = None
    each_person: Annotated[int, Field(ge=1, le=10)] | None = None
    counted: TextField = ""
    source: SourceField = SourceReference(id="common-practice")


def _part_from_text(value: object) -> object:
    return {"part": value} if isinstance(value, str) else value


class Part(PackModel):
    """One of the parts that a tick stands for, so that the bad one can be named."""

    part: TextField
    when: ConditionField | None = None


PartsField = Annotated[
    tuple[Annotated[Part, BeforeValidator(_part_from_text)], ...], BeforeValidator(as_list)
]


class ReadingRule(PackModel):
    """One reading that a check takes, and what counts as good.

    `id` never changes, `reading` is words for people; `formerly` holds earlier words or ids. A reading that is
    a `condition` of the trial is never a fault: the readings that name it under `valid_if` count only while it
    lies within its limits. Of the readings with the same `one_of` one suffices; several with the same `way` do so only
    together. Of a series with `any_point` one point suffices.
    """

    id: Identifier
    reading: TextField
    formerly: TextList = ()
    parts: PartsField = ()
    condition: bool = False
    valid_if: IdList = ()
    one_of: Identifier | None = None
    way: Identifier | None = None
    any_point: bool = False
    unit: str = ""
    when: ConditionField | None = None
    at_least: ValueField | None = None
    at_most: ValueField | None = None
    between: Annotated[tuple[ValueField, ValueField], Field()] | None = None
    about: ValueField | None = None
    tolerance: ValueField | None = None
    is_: TextField | None = Field(default=None, alias="is")
    series: ValueField | None = None
    series_unit: str = ""
    record: (
        Literal["plate", "serial-number", "date", "service-date", "expiry-date", "text", "count"] | None
    ) = None
    contract_value: ValueField | None = None
    maker: ValueField | None = None
    basis: Basis | None = None
    source: SourceField | None = None
    decimals: Annotated[int, Field(ge=0, le=6)] | None = None
    instrument: Identifier | None = None
    note: TextField | None = None


class UsedBoatRule(PackModel):
    """What a check adds on a boat that isn't new."""

    when: ConditionField = "true"
    add: TextField


def _reading_from_name(value: object) -> object:
    return {"reading": value} if isinstance(value, str) else value


class ReadingOf(PackModel):
    """A reading of the same rule, or of the checks that another rule gives."""

    reading: Identifier
    rule: Identifier | None = None


ReadingsField = Annotated[
    tuple[Annotated[ReadingOf, BeforeValidator(_reading_from_name)], ...], BeforeValidator(as_list)
]


class DeriveRule(PackModel):
    """A figure that is worked out of readings, with the reading that it gives or limits of its own."""

    figure: Identifier
    title: TextField | None = None
    readings: dict[str, ReadingsField]
    inputs: dict[str, ValueField] = {}
    at: ValueField | None = None
    gives: Identifier | None = None
    at_least: ValueField | None = None
    at_most: ValueField | None = None
    source: SourceField | None = None


def _step_from_text(value: object) -> object:
    return {"do": value} if isinstance(value, str) else value


class Step(PackModel):
    """One step of a procedure."""

    do: TextField
    when: ConditionField | None = None


StepsField = Annotated[
    tuple[Annotated[Step, BeforeValidator(_step_from_text)], ...], BeforeValidator(as_list)
]


def minutes_from_value(value: object) -> object:
    return value if isinstance(value, (Minutes, dict)) else {"each": value}


class Minutes(PackModel):
    """How long a check takes: setting up once for all items of a round, each item, and waiting that runs by itself."""

    once: ValueField = "0"
    each: ValueField = "0"
    wait: ValueField = "0"


class CheckRule(PackModel):
    """One rule of a pack: it gives one check for the boat, or one for each item of a list.

    It comes after the rules of `after`, which are done wherever it is done, and after those of `follows` where both are.
    """

    @property
    def earlier(self) -> tuple[str, ...]:
        """Return the rules that it comes after."""
        return (*self.after, *self.follows)

    id: Identifier
    formerly: IdList = ()
    title: TextField
    do: Annotated[TextField, Field(max_length=300)] | None = None
    protects: TextField | None = None
    priority: ValueField = "2"
    round: Identifier | None = None
    asks_for: IdList = ()
    for_each: str | None = None
    as_: Annotated[str, Field(pattern=r"^[a-z_]+$")] | None = Field(default=None, alias="as")
    item: TextField | None = None
    zone: ValueField | None = None
    when: ConditionField | None = None
    setting: Identifier
    needs: TextList = ()
    leaves: TextList = ()
    after: IdList = ()
    follows: IdList = ()
    wets: ValueField | None = None
    after_wet: ValueField | None = None
    procedure: StepsField = ()
    expect: tuple[ReadingRule, ...] = ()
    derive: tuple[DeriveRule, ...] = ()
    instruments: IdList = ()
    minutes: Annotated[Minutes, BeforeValidator(minutes_from_value)] = Minutes(each="5")
    people: Annotated[int, Field(ge=1, le=12)] = 1
    grade: Grade = "by-date"
    cautions: IdList = ()
    watch_out: TextField | None = None
    used_boat: tuple[UsedBoatRule, ...] = ()
    source: SourceField = SourceReference(id="common-practice")


class RulePack(PackModel):
    """A pack of checks for one system aboard."""

    pack: Identifier
    title: TextField
    edition: TextField
    order: Annotated[int, Field(ge=0, le=999)] = 500
    sources: dict[Identifier, Source] = {}
    instruments: dict[Identifier, Instrument] = {}
    cautions: dict[Identifier, CautionField] = {}
    checks: tuple[CheckRule, ...]


class StoreItem(PackModel):
    """A spare, tool, manual or document that should be aboard at handover."""

    id: Identifier
    title: TextField
    kind: Literal["spare", "tool", "manual", "document", "key"]
    for_each: str | None = None
    as_: Annotated[str, Field(pattern=r"^[a-z_]+$")] | None = Field(default=None, alias="as")
    when: ConditionField | None = None
    quantity: ValueField = "1"
    why: TextField = ""
    source: SourceField = SourceReference(id="common-practice")


class StoresPack(PackModel):
    """A list of spares, manuals and documents."""

    pack: Identifier
    title: TextField
    edition: TextField
    sources: dict[Identifier, Source] = {}
    items: tuple[StoreItem, ...]


class Setting(PackModel):
    """Where the boat must be for a check: `at` names the setting in which she lies for it, if not its own.

    What can be done `anywhere` needs no move; `away` counts as time of the sea trial. `crew` is how many of the other
    side are aboard for it and lend a hand, so that so many fewer people of the trial are needed.
    """

    title: TextField
    order: int
    code: Annotated[str, Field(pattern=r"^[A-Z]{1,2}$")]
    at: Identifier | None = None
    anywhere: bool = False
    away: bool = False
    crew: Annotated[int, Field(ge=0, le=9)] = 0
    light: Literal["any", "day", "dark"] = "any"
    asks_for: IdList = ()


class Move(PackModel):
    """How she gets from one setting to another; `makes` are the plant states that come about with it."""

    from_: Identifier = Field(alias="from")
    to: Identifier
    minutes: Annotated[float, Field(ge=0, le=600)]
    people: Annotated[int, Field(ge=0, le=12)] = 1
    do: TextField
    makes: TextList = ()
    caution: Identifier | None = None


class StateChange(PackModel):
    """How something aboard is brought into a state: work, and waiting that runs by itself."""

    to: Identifier
    from_: IdList = Field(default=(), alias="from")
    minutes: Annotated[float, Field(ge=0, le=600)]
    wait: Annotated[float, Field(ge=0, le=1440)] = 0
    people: Annotated[int, Field(ge=0, le=12)] = 1
    do: TextField
    caution: Identifier | None = None


class PlantState(PackModel):
    """Something aboard that checks need in a certain state, the states that it can have, and how it changes.

    `served_by` says which other states do as well; `all_of` names the plant state whose items are meant
    together; `at_start` is asked for before the trial begins, and left out where whatever is needed first is.
    """

    states: IdList
    per: str | None = None
    all_of: Identifier | None = None
    at_start: Identifier | None = None
    served_by: dict[Identifier, IdList] = {}
    changes: tuple[StateChange, ...] = ()


class RoundKind(PackModel):
    """A kind of round: the checks that one visit to a place takes together.

    A kind that `gathers` comes after others without needing that they were done.
    """

    title: TextField
    place: Literal["boat", "zone"]
    order: int
    once: ValueField = "0"
    longest: ValueField = "65 min"
    gathers: bool = False


class RoundFallback(PackModel):
    """The kind of round of a check whose rule names none: the first entry that fits."""

    setting: Identifier | None = None
    zone_kind: str | None = None
    round: Identifier


class Exclusion(PackModel):
    """Checks with one of these cautions are done by themselves: in their zone, or aboard altogether."""

    cautions: IdList
    beside: IdList = ()
    where: Literal["zone", "boat"]
    why: TextField


class Weight(PackModel):
    """A factor of risk and the reason for it."""

    times: Annotated[float, Field(gt=0, le=100)]
    why: TextField


class Likelihood(Weight):
    """A factor by which a fault is likelier or rarer, where all that is named fits the check.

    `when` is a condition on the spec, with the item bound where `for_each` names its list.
    """

    systems: IdList = ()
    settings: IdList = ()
    rounds: IdList = ()
    zone_kinds: TextList = ()
    for_each: str | None = None
    when: ConditionField | None = None


class RiskRules(PackModel):
    """How much risk a check takes away: consequence by grade and priority, times likelihood."""

    grades: dict[Grade, Weight]
    priorities: dict[int, Weight]
    likelihood: tuple[Likelihood, ...] = ()


class UsualDay(PackModel):
    """What is taken for the day's work where the spec doesn't say.

    `in_hand` is the share of it that only what decides may use.
    """

    start: Annotated[str, Field(pattern=r"^[0-2][0-9]:[0-5][0-9]$")]
    hours: Annotated[float, Field(gt=0, le=18)]
    people: Annotated[int, Field(ge=1, le=12)]
    meal: Annotated[float, Field(ge=0, le=120)] = 30
    meal_after: Annotated[float, Field(gt=0, le=12)] = 5
    bilges_again: Annotated[float, Field(ge=0, le=60)] = 5
    in_hand: Annotated[float, Field(ge=0, le=0.5)] = 0.0
    why: TextField


class PlaceWord(PackModel):
    """Where a zone lies whose name holds a word."""

    word: TextField
    lane: Literal["port", "centre", "starboard", "port-side", "starboard-side", "both-sides"] | None = None
    along: Annotated[int, Field(ge=0, le=100)] | None = None


class MapMark(PackModel):
    """What is marked on the zone map: the list of the spec that it stands for, and its symbol."""

    id: Identifier
    title: TextField
    of: str
    symbol: Literal["disc", "ring", "triangle", "square", "square-open", "diamond", "cross"]


class ZoneMapRules(PackModel):
    """How the zone map is drawn: outlines by hull type, places by words and kinds, and marks."""

    outlines: dict[str, Literal["one-hull", "two-hulls"]]
    words: tuple[PlaceWord, ...] = ()
    kinds: dict[str, Annotated[int, Field(ge=0, le=100)]] = {}
    marks: tuple[MapMark, ...] = ()


class Scope(PackModel):
    """Something that has to be agreed before a check that asks for it can be done."""

    title: TextField
    agreed: bool
    why: TextField


class DefaultRule(PackModel):
    """What is assumed where the spec leaves a key out."""

    key: str
    value: ValueField
    when: ConditionField | None = None
    why: TextField
    source: SourceField = SourceReference(id="common-practice")


class InferredRule(PackModel):
    """What such a boat must have where the spec says nothing of a section: one item, or one for each of another list."""

    key: str
    for_each: str | None = None
    as_: Annotated[str, Field(pattern=r"^[a-z_]+$")] | None = Field(default=None, alias="as")
    when: ConditionField | None = None
    gives: dict[str, bool | int | TextField] = {}
    why: TextField
    source: SourceField = SourceReference(id="common-practice")


class SectionAsking(PackModel):
    """How the builder or seller is asked whether she has something of which the spec says nothing."""

    key: str
    title: TextField
    asks: TextField
    example: TextField | None = None
    when: ConditionField | None = None


class Asking(PackModel):
    """How a key that is left open is asked of the builder or seller."""

    key: str
    asks: TextField


class SpokenWords(PackModel):
    """Words that people write for keys, values and places of the spec that are called otherwise."""

    keys: dict[str, tuple[str, ...]] = {}
    near_keys: dict[str, tuple[str, ...]] = {}
    values: dict[str, dict[str, tuple[str, ...]]] = {}
    places: dict[str, tuple[str, ...]] = {}


class ZoneSet(PackModel):
    """The usual zones of one hull type."""

    name: TextField
    kind: str | None = None
    code: str | None = None
    sockets: int = 0
    usb: int = 0
    lights: int = 0
    hatches: int = 0
    opening_ports: int = 0
    doors: int = 0
    berths: int = 0

    def as_spec(self) -> dict[str, Any]:
        """Return the zone as the spec would write it."""
        return self.model_dump(exclude_none=True)


class Catalogue(PackModel):
    """What the packs refer to. Each file of the catalogue fills some of the keys."""

    edition: TextField = ""
    sources: dict[Identifier, Source] = {}
    instruments: dict[Identifier, Instrument] = {}
    cautions: dict[Identifier, CautionField] = {}
    gear: dict[Identifier, GearItem] = {}
    gear_groups: dict[Identifier, GearGroup] = {}
    marks: dict[Identifier, ApprovalMark] = {}
    aboard: tuple[AboardRule, ...] = ()
    waters: dict[Identifier, Water] = {}
    settings: dict[Identifier, Setting] = {}
    plant_states: dict[Identifier, PlantState] = {}
    moves: tuple[Move, ...] = ()
    rounds: dict[Identifier, RoundKind] = {}
    round_fallbacks: tuple[RoundFallback, ...] = ()
    exclusions: tuple[Exclusion, ...] = ()
    risk: RiskRules | None = None
    usual_day: UsualDay | None = None
    scopes: dict[Identifier, Scope] = {}
    zone_map: ZoneMapRules | None = None
    defaults: tuple[DefaultRule, ...] = ()
    inferred: tuple[InferredRule, ...] = ()
    sections: tuple[SectionAsking, ...] = ()
    questions: tuple[Asking, ...] = ()
    owner_knows: tuple[str, ...] = ()
    zones: dict[str, tuple[ZoneSet, ...]] = {}
    starters: dict[str, dict[str, Any]] = {}
    other_words: SpokenWords | None = None
