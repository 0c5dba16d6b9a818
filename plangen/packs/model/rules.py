"""Check rules: what is done, what is read, and what counts as good."""

from __future__ import annotations

from typing import Annotated, Literal

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
from plangen.packs.model.instruments import Instrument

Basis = Literal["contract", "maker", "law", "standard", "computed", "common-practice", "assumed"]


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
