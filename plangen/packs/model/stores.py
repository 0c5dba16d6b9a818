"""Spares, manuals and documents that should be aboard."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from plangen.packs.base import (
    ConditionField,
    Identifier,
    PackModel,
    Source,
    SourceField,
    SourceReference,
    TextField,
    ValueField,
)


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
