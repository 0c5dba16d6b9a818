"""The models of a house file: whose paper it is, own checks, and what is changed in the shipped ones."""

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
    TextField,
    ValueField,
    as_list,
)
from plangen.packs.grades import Grade
from plangen.packs.model import (
    Basis,
    Instrument,
    Minutes,
    PartsField,
    StepsField,
    UsedBoatRule,
    minutes_from_value,
)

#: Text that isn't empty and fits a line or two of the letterhead.
Line = Annotated[TextField, Field(min_length=1, max_length=300)]
Lines = Annotated[tuple[Line, ...], BeforeValidator(as_list), Field(max_length=12)]
#: Paragraphs, printed one by one.
Paragraphs = Annotated[
    tuple[Annotated[TextField, Field(min_length=1)], ...], BeforeValidator(as_list), Field(max_length=60)
]
Reason = Annotated[TextField, Field(min_length=3, max_length=500)]
MOST_CHANGES = 400


class LetterheadFields(PackModel):
    """Who stands at the head of the papers; the logo is a PNG or JPEG in the house file's own folder."""

    name: Line
    address: Lines = ()
    licence: Line | None = None
    insurance: Line | None = None
    logo: Line | None = None


def _client_from_name(value: object) -> object:
    return {"name": value} if isinstance(value, str) else value


class ClientFields(PackModel):
    """For whom the work is done."""

    name: Line
    address: Lines = ()
    reference: Line | None = None
    asked_for: Line | None = None


def _recommendation_from_text(value: object) -> object:
    return {"words": value} if isinstance(value, str) else value


class RecommendationFields(PackModel):
    """A recommendation of the house's own: always, or where a check of one of the rules fails."""

    words: Annotated[TextField, Field(min_length=1)]
    urgency: Literal["before-use", "before-cover", "next-haul-out", "monitor"] = "monitor"
    rules: IdList = ()


class Because(PackModel):
    """Why something is changed, and who says so, if not the one named at the head of the file."""

    reason: Reason
    by: Line | None = None


class Drop(Because):
    """What is left out: a rule, one reading of it, or one requirement of a law pack."""

    rule: Line | None = None
    reading: Line | None = None
    law: Line | None = None
    requirement: Line | None = None


class Replace(Because):
    """A rule of one's own in place of a shipped one; it keeps the shipped id, former ids and cautions."""

    rule: Line
    with_: dict[str, Any] = Field(alias="with")


def _minutes_or_none(value: object) -> object:
    return None if value is None else minutes_from_value(value)


class Change(Because):
    """Keys of a rule, or of one of its readings, that get another value; an empty value takes a key away."""

    rule: Line
    reading: Line | None = None
    title: TextField | None = None
    do: TextField | None = None
    protects: TextField | None = None
    procedure: StepsField | None = None
    watch_out: TextField | None = None
    used_boat: tuple[UsedBoatRule, ...] | None = None
    priority: ValueField | None = None
    grade: Grade | None = None
    minutes: Annotated[Minutes | None, BeforeValidator(_minutes_or_none)] = None
    people: Annotated[int, Field(ge=1, le=12)] | None = None
    asks_for: IdList | None = None
    instruments: IdList | None = None
    when: ConditionField | None = None
    words: TextField | None = None
    parts: PartsField | None = None
    at_least: ValueField | None = None
    at_most: ValueField | None = None
    between: tuple[ValueField, ValueField] | None = None
    about: ValueField | None = None
    tolerance: ValueField | None = None
    is_: TextField | None = Field(default=None, alias="is")
    maker: ValueField | None = None
    contract_value: ValueField | None = None
    basis: Basis | None = None
    decimals: Annotated[int, Field(ge=0, le=6)] | None = None
    instrument: Identifier | None = None
    note: TextField | None = None
    source: SourceField | None = None


#: Which keys of a change are of the rule, and which of one of its readings.
OF_THE_RULE = (
    *("title", "do", "protects", "procedure", "watch_out", "used_boat", "priority", "grade", "minutes"),
    *("people", "asks_for", "instruments", "when", "source"),
)
OF_A_READING = (
    *("words", "parts", "at_least", "at_most", "between", "about", "tolerance", "is", "maker"),
    *("contract_value", "basis", "decimals", "instrument", "note", "when", "source"),
)


class HouseFile(PackModel):
    """A house file. `trial` and `stages` are laid under the spec's own, `checks` are rules as in a pack, of a `system` each."""

    edition: TextField = ""
    by: Line | None = None
    letterhead: LetterheadFields | None = None
    client: Annotated[ClientFields | None, BeforeValidator(_client_from_name)] = None
    trial: dict[str, Any] = {}
    stages: tuple[dict[str, Any], ...] = ()
    units: Literal["metric", "us", "both"] | None = None
    paper: Literal["a4", "letter"] | None = None
    terms: Paragraphs = ()
    limitations: Paragraphs = ()
    remarks: Paragraphs = ()
    recommendations: Annotated[
        tuple[Annotated[RecommendationFields, BeforeValidator(_recommendation_from_text)], ...],
        BeforeValidator(as_list),
        Field(max_length=60),
    ] = ()
    sources: dict[Identifier, Source] = {}
    instruments: dict[Identifier, Instrument] = {}
    cautions: dict[Identifier, CautionField] = {}
    checks: Annotated[tuple[dict[str, Any], ...], Field(max_length=MOST_CHANGES)] = ()
    drop: Annotated[tuple[Drop, ...], Field(max_length=MOST_CHANGES)] = ()
    replace: Annotated[tuple[Replace, ...], Field(max_length=MOST_CHANGES)] = ()
    change: Annotated[tuple[Change, ...], Field(max_length=MOST_CHANGES)] = ()
