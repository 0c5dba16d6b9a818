"""Spares, manuals and documents that should be aboard."""

from __future__ import annotations

from plangen.packs.evaluate import Scope, holds, number_in, render
from plangen.packs.facts import Facts, Missing, Subject
from plangen.packs.functions import MissingInput
from plangen.packs.items import singular_at
from plangen.packs.library import Library
from plangen.packs.model import StoreItem
from plangen.packs.syntax import ExpressionError
from plangen.packs.values import value_of
from plangen.plan.expectations import cited
from plangen.plan.ids import item_id
from plangen.plan.model import StoreLine

_KINDS = ("document", "manual", "key", "spare", "tool")


def stores_of(facts: Facts, library: Library) -> tuple[StoreLine, ...]:
    """Return every store line for the boat, documents first."""
    lines: list[StoreLine] = []
    for pack in library.stores:
        for item in pack.model.items:
            lines.extend(_lines(item, facts, library))
    return tuple(sorted(lines, key=lambda line: _KINDS.index(line.kind)))


def _lines(item: StoreItem, facts: Facts, library: Library) -> list[StoreLine]:
    subjects: list[Subject | None] = [None]
    if item.for_each is not None:
        value = facts.at(item.for_each)
        subjects = [] if isinstance(value, Missing) else list(value) if isinstance(value, list) else [value]
    lines = []
    for subject in subjects:
        name = item.as_ or (singular_at(item.for_each) if item.for_each else "")
        scope = Scope(facts, {name: subject} if subject else {})
        if not holds(item.when, scope):
            continue
        lines.append(
            StoreLine(
                id=f"{item.id}@{item_id(subject)}",
                title=render(item.title, scope),
                kind=item.kind,
                quantity=_quantity(item, scope),
                why=render(item.why, scope),
                source=cited(item.source, library.sources),
            )
        )
    return lines


def _quantity(item: StoreItem, scope: Scope) -> float:
    try:
        return number_in(value_of(item.quantity, scope), "dimensionless")
    except (MissingInput, ExpressionError):
        return 1.0
