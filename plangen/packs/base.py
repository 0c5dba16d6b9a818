"""What the models of all packs are made of: kinds of fields, sources, and how a fact is known."""

from __future__ import annotations

import datetime
from typing import Annotated, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field

KnownBy = Literal["read", "secondary", "memory", "common-practice", "computed"]
SourceKind = Literal["law", "standard", "class-rule", "handbook", "maker", "article", "anecdote"]
Identifier = Annotated[str, Field(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$", max_length=60)]


def _as_text(value: object) -> object:
    if isinstance(value, str):
        return value
    if isinstance(value, bool):
        return "yes" if value else "no"
    plain = isinstance(value, (int, float, datetime.date))
    return str(value) if plain else value


def _as_condition(value: object) -> object:
    return str(value).lower() if isinstance(value, bool) else _as_text(value)


def as_list(value: object) -> object:
    """Return a single value as a list of one."""
    return value if isinstance(value, (list, tuple)) or value is None else [value]


#: Text in which expressions may stand in double braces.
TextField = Annotated[str, Field(max_length=1500), BeforeValidator(_as_text)]
#: An expression whose value is a number or quantity; a bare quantity such as `0.5 V` counts as itself.
ValueField = Annotated[str, Field(max_length=2000), BeforeValidator(_as_text)]
#: An expression that is true or false.
ConditionField = Annotated[str, Field(max_length=2000), BeforeValidator(_as_condition)]
TextList = Annotated[tuple[TextField, ...], BeforeValidator(as_list)]
IdList = Annotated[tuple[Identifier, ...], BeforeValidator(as_list)]


class PackModel(BaseModel):
    """A part of a pack: unknown keys are faults."""

    model_config = ConfigDict(extra="forbid", frozen=True, populate_by_name=True, defer_build=True)


def _source_from_word(value: object) -> object:
    return {"id": value} if isinstance(value, str) else value


class SourceReference(PackModel):
    """Where a fact is taken from: a source of the catalogue and the place in it."""

    id: Identifier
    clause: TextField = ""
    known_by: KnownBy | None = None


SourceField = Annotated[SourceReference, BeforeValidator(_source_from_word)]


class Source(PackModel):
    """A text that facts are taken from: what kind of text, who wrote or publishes it, and where it is found."""

    kind: SourceKind | None = None
    by: TextField = ""
    title: TextField
    edition: TextField = ""
    url: TextField | None = None
    known_by: KnownBy = "read"

    @property
    def is_standard(self) -> bool:
        """Tell whether the text is a standard or the rules of a class; one whose kind isn't said is none."""
        return self.kind in ("standard", "class-rule")


def _caution_from_text(value: object) -> object:
    return {"text": value} if isinstance(value, str) else value


class Caution(PackModel):
    """What can hurt people: a line for the head of a round, and the whole for the briefing."""

    short: Annotated[TextField, Field(max_length=90)] | None = None
    text: TextField


CautionField = Annotated[Caution, BeforeValidator(_caution_from_text)]
