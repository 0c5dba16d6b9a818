"""The catalogue: what the packs refer to, what is assumed of a boat, and what is asked about her."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Field

from plangen.packs.base import (
    CautionField,
    ConditionField,
    Identifier,
    PackModel,
    Source,
    SourceField,
    SourceReference,
    TextField,
    ValueField,
)
from plangen.packs.law import AboardRule, ApprovalMark, GearGroup, GearItem, Water
from plangen.packs.model.instruments import Instrument
from plangen.packs.model.order_of_work import (
    Exclusion,
    Move,
    PlantState,
    RiskRules,
    RoundFallback,
    RoundKind,
    Scope,
    Setting,
    UsualDay,
)


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
