"""What has to be brought for a check."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from plangen.packs.base import IdList, PackModel, SourceField, SourceReference, TextField, ValueField


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
