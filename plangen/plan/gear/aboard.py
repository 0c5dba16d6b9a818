"""Gear that the spec names elsewhere than under its safety gear, counted by the catalogue's items."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from plangen.packs.evaluate import Scope, holds, number_in
from plangen.packs.facts import Facts, Missing, Subject
from plangen.packs.functions import MissingInput
from plangen.packs.items import singular_at
from plangen.packs.law import AboardRule
from plangen.packs.library import Library
from plangen.packs.values import value_of
from plangen.spec.model import Spec
from plangen.spec.model.safety import GearAboard


@dataclass(frozen=True)
class _Kind:
    """What is told alike of several things, so that they are counted together."""

    item: str
    expires: datetime.date | None
    made: datetime.date | None


def gear_aboard(spec: Spec, library: Library) -> tuple[GearAboard, ...]:
    """Return the safety gear aboard: what the spec lists as such, and what its other sections tell.

    An item that the list of safety gear names is taken from there alone, so that nothing counts twice. What is
    only assumed or inferred isn't aboard.
    """
    stated = Facts(spec)
    listed = {gear.item for gear in spec.safety_gear}
    counts: dict[_Kind, int] = {}
    for rule in library.aboard:
        for kind, quantity in _found(rule, stated):
            counts[kind] = counts.get(kind, 0) + quantity
    told = [
        GearAboard(item=kind.item, quantity=count, expires=kind.expires, made=kind.made)
        for kind, count in counts.items()
        if kind.item not in listed and count
    ]
    return (*spec.safety_gear, *told)


def item_by_label(label: str, table: Mapping[str, str]) -> str | None:
    """Return the item for the words on a label, in whatever way they are written; the longest entry that fits counts.

    >>> item_by_label("8A / 68B C", {"68B": "small", "8A/68B": "large"})
    'large'
    >>> item_by_label("5-B:C", {"5B": "five"}), item_by_label("113B", {"13B": "thirteen"})
    ('five', None)
    """
    plain = _plain(label)
    for written, item in table.items():
        if plain == _plain(written):
            return item
    fitting = [
        (len(_plain(written)), item) for written, item in table.items() if _parts(written) <= _parts(label)
    ]
    return max(fitting)[1] if fitting else None


def _plain(text: str) -> str:
    return re.sub(r"[\s-]", "", text).upper()


def _parts(text: str) -> set[str]:
    """Return the ratings on a label, the electrical class C and the fat class F left out."""
    return {
        part
        for part in re.split(r"[/:,;+]", re.sub(r"([0-9]+[AB])C?F?", r"\1/", _plain(text)))
        if part not in ("", "C", "F")
    }


def _found(rule: AboardRule, facts: Facts) -> Iterator[tuple[_Kind, int]]:
    subjects: list[Subject | None] = [None]
    name = ""
    if rule.for_each is not None:
        value = facts.at(rule.for_each)
        subjects = [] if isinstance(value, Missing) else list(value) if isinstance(value, list) else [value]
        name = rule.as_ or singular_at(rule.for_each)
    for subject in subjects:
        scope = Scope(facts, {name: subject} if subject else {})
        if not holds(rule.when, scope):
            continue
        label = _value(rule.label, scope)
        item = item_by_label(str(label), rule.by_label) if label is not None else None
        item = item or rule.item
        if item is not None:
            yield (
                _Kind(item, _day(rule.expires, scope), _day(rule.made, scope)),
                _quantity(rule.quantity, scope),
            )


def _value(text: str | None, scope: Scope) -> Any:
    if text is None:
        return None
    try:
        value = value_of(text, scope)
    except MissingInput:
        return None
    return None if isinstance(value, Missing) else value


def _day(text: str | None, scope: Scope) -> datetime.date | None:
    value = _value(text, scope)
    return value if isinstance(value, datetime.date) else None


def _quantity(text: str, scope: Scope) -> int:
    value = _value(text, scope)
    return int(number_in(value, "dimensionless")) if value is not None else 0
