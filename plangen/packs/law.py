"""The models of law packs, and of the gear, marks and waters that the catalogue knows."""

from __future__ import annotations

import datetime
from typing import Annotated, Literal

from pydantic import Field

from plangen.packs.base import (
    ConditionField,
    Identifier,
    IdList,
    KnownBy,
    PackModel,
    SourceField,
    SourceReference,
    TextField,
    TextList,
    ValueField,
)


class LegalInstrument(PackModel):
    """An act, order, code or standard that a jurisdiction's requirements come from."""

    title: TextField
    edition: TextField = ""
    current_to: TextField
    url: TextField | None = None
    known_by: KnownBy = "read"


class Band(PackModel):
    """A range of distances, lengths or the like, with its ends as the law writes them."""

    at_least: ValueField | None = None
    above: ValueField | None = None
    at_most: ValueField | None = None
    below: ValueField | None = None


class Requirement(PackModel):
    """One thing that a jurisdiction or code demands.

    `marks` are those of the catalogue of which the thing bears one; `own_place` says that each unit has a place
    of its own, so that no unit counts for two such requirements of the same law. `service_every` counts from the
    last service, `life` from the date of make.
    """

    id: Identifier
    item: Identifier
    quantity: ValueField = "1"
    when: ConditionField | None = None
    from_: datetime.date | None = Field(default=None, alias="from")
    until: datetime.date | None = None
    strength: Literal["required", "recommended"] = "required"
    instead: TextField | None = None
    or_else: tuple[dict[Identifier, ValueField], ...] = ()
    approval: TextField | None = None
    marks: IdList = ()
    own_place: bool = False
    contents: TextField | None = None
    upkeep: TextField | None = None
    service_every: ValueField | None = None
    life: ValueField | None = None
    expires: bool = False
    verify: TextField | None = None
    clause: TextField
    known_by: KnownBy = "read"
    note: TextField | None = None


class ApprovalMark(PackModel):
    """A mark of approval, and the words that stand for it on a label."""

    title: TextField
    written: TextList


class GearGroup(PackModel):
    """A group of gear, and the list that it is printed on."""

    title: TextField
    list: Literal["shopping", "papers"] = "shopping"


class GearItem(PackModel):
    """One kind of safety gear, document or marking.

    `counts` says what is counted: single things, the persons that they take, or litres. What isn't `counted` is a
    duty or a mark that is ticked. `seen_by` names readings, as rule/reading, that show that it is there.
    """

    title: TextField
    group: Identifier
    satisfied_by: IdList = ()
    counted: bool = True
    counts: Literal["units", "places", "litres"] = "units"
    dated: bool = False
    service_every: ValueField | None = None
    life: ValueField | None = None
    source: SourceField = SourceReference(id="common-practice")
    seen_by: TextList = ()


class AboardRule(PackModel):
    """Which gear item a part of the spec stands for: one item, or by the words on its label."""

    item: Identifier | None = None
    label: ValueField | None = None
    by_label: dict[str, Identifier] = {}
    for_each: str | None = None
    as_: Annotated[str, Field(pattern=r"^[a-z_]+$")] | None = Field(default=None, alias="as")
    when: ConditionField | None = None
    quantity: ValueField = "1"
    expires: ValueField | None = None
    made: ValueField | None = None


class Water(PackModel):
    """A country, sea or passage as sailors name it: whose law it touches, and how far from shelter it leads.

    `unheld` names the countries without a pack, each with whom to ask.
    """

    title: TextField
    also: TextList = ()
    jurisdictions: IdList = ()
    unheld: dict[Identifier, TextField] = {}
    distance_from_shelter: ValueField | None = None
    water_class: Literal["smooth", "partially-smooth", "open"] | None = None
    mediterranean: bool = False
    abroad: bool = False
    note: TextField | None = None
    source: SourceField = SourceReference(id="common-practice")


class LawPack(PackModel):
    """The gear that one jurisdiction or code demands.

    Outside its `scope` the pack asks nothing, and the plan prints `outside`. `visitor` says which of its rules bind
    a boat of another flag. A pack that `eases` sets the whole list of its own flag, in place of what the
    international rules leave to the flag.
    """

    jurisdiction: Identifier
    title: TextField
    edition: TextField
    kind: Literal["statute", "code", "international", "builder", "customary"] = "statute"
    applies: ConditionField | None = None
    scope: ConditionField | None = None
    outside: TextField | None = None
    visitor: TextField | None = None
    eases: bool = False
    coverage: TextField
    ask: TextField
    instruments: dict[Identifier, LegalInstrument]
    zones: dict[Identifier, Band] = {}
    zone_of: ValueField = "use.distance_from_shelter"
    categories: IdList = ()
    gear: dict[Identifier, GearItem] = {}
    requires: tuple[Requirement, ...] = ()

    @property
    def known_shares(self) -> tuple[float, float, float]:
        """Return how many of the demands in a hundred were read, are second-hand, and are from memory."""
        known = [one.known_by for one in self.requires]
        groups = (("read", "computed"), ("secondary",), ("memory", "common-practice"))
        shares = [100.0 * sum(word in group for word in known) / max(1, len(known)) for group in groups]
        return shares[0], shares[1], shares[2]
