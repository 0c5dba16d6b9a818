"""What a plan tells of the house file: whose paper it is, and what it changed in the checks of this boat."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Literal

from plangen.packs.evaluate import Scope, holds, render, show
from plangen.packs.facts import Facts
from plangen.packs.house.overlay import LaidOver
from plangen.packs.house.read import LoadedHouse
from plangen.packs.library import Library
from plangen.packs.model import CheckRule
from plangen.plan.expand import subjects
from plangen.plan.house import Client, House, HouseChange, Letterhead, Logo, Recommendation
from plangen.plan.house_words import words_of
from plangen.spec.quantity import UnitSystem

#: The titles of the laws that are held against the boat, by their ids.
Laws = Mapping[str, str]


def house_of(facts: Facts, library: Library, laws: Laws, units: UnitSystem) -> House | None:
    """Return what the plan tells of the house file, if one was laid over the packs."""
    if library.overlay is None:
        return None
    house, model = library.overlay.house, library.overlay.house.model
    changes = (_told(change, facts, library, laws, units) for change in library.overlay.changes)
    return House(
        letterhead=_letterhead(house),
        client=Client.model_validate(model.client.model_dump()) if model.client else None,
        paper=model.paper,
        terms=model.terms,
        limitations=model.limitations,
        remarks=model.remarks,
        recommendations=tuple(
            Recommendation.model_validate(one.model_dump()) for one in model.recommendations
        ),
        changes=tuple(change for change in changes if change is not None),
    )


def _letterhead(house: LoadedHouse) -> Letterhead | None:
    written = house.model.letterhead
    if written is None:
        return None
    logo = house.logo
    return Letterhead(
        name=written.name,
        address=written.address,
        licence=written.licence,
        insurance=written.insurance,
        logo=Logo(type=logo.type, width=logo.width, height=logo.height, data=logo.data) if logo else None,
    )


def _told(
    change: LaidOver, facts: Facts, library: Library, laws: Laws, units: UnitSystem
) -> HouseChange | None:
    """Return a change as the plan tells it; nothing where it doesn't touch this boat."""
    if change.requirement is not None:
        law = laws.get(change.law or "")
        if law is None:
            return None
        title, words = f"{library.gear[change.requirement.item].title} ({law})", "dropped"
    else:
        scopes = [_applies(rule, facts, units) for rule in (change.after, change.before) if rule is not None]
        touched = next((found for found in scopes if found), None)
        if touched is None:
            return None
        rule = next(rule for rule in (change.after, change.before) if rule is not None)
        title, words = _title(rule, touched[0]), words_of(change, touched, library)
    return HouseChange(
        rule=change.rule,
        title=title,
        change=change.change,
        reading=change.reading,
        words=words,
        reason=change.reason,
        by=change.by,
        was=_was(change, library),
    )


def _applies(rule: CheckRule, facts: Facts, units: UnitSystem) -> list[Scope]:
    """Return what the rule's expressions may name, for each check that it gives the boat."""
    return [scope for _, scope in subjects(rule, facts, units) if holds(rule.when, scope)]


def _title(rule: CheckRule, scope: Scope) -> str:
    """Return the rule's title on this boat, without the name of the one item."""
    text = render(rule.title, scope)
    for value in scope.bound.values():
        text = text.removesuffix(f": {show(value)}")
    return text


def _was(change: LaidOver, library: Library) -> Literal["stop", "law"] | None:
    """Return what a check was that the house file takes away or makes lighter."""
    if change.requirement is not None:
        return "law" if change.requirement.strength == "required" else None
    if change.before is None or change.change == "added":
        return None
    if change.before.grade == "stop" and (change.after is None or change.after.grade != "stop"):
        return "stop"
    if change.change == "dropped" and any(_is_law(id, library) for id in _cited(change.before)):
        return "law"
    return None


def _cited(rule: CheckRule) -> Iterator[str]:
    yield rule.source.id
    yield from (reading.source.id for reading in rule.expect if reading.source is not None)


def _is_law(source: str, library: Library) -> bool:
    return library.sources[source].kind == "law"
