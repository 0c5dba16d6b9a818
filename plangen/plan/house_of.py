"""What a plan tells of the house file: whose paper it is, and what it changed in the checks of this boat."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Literal

from plangen.packs.evaluate import Scope, holds, render, show
from plangen.packs.facts import Facts
from plangen.packs.library import Library
from plangen.packs.model import CheckRule
from plangen.plan.expand import subjects
from plangen.plan.house import Client, House, HouseChange, Letterhead, Logo, Recommendation
from plangen.plan.house_words import words_of
from plangen.spec.quantity import UnitSystem

if TYPE_CHECKING:
    from plangen.packs.house.overlay import LaidOver
    from plangen.packs.house.read import LoadedHouse

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
        gone, kind = 0, change.change
    else:
        before, after = (_applies(rule, facts, units) for rule in (change.before, change.after))
        touched = after or before
        if not touched:
            return None
        rule = next(rule for rule in (change.after, change.before) if rule is not None)
        title, words = _title(rule, touched[0]), words_of(change, touched, library)
        gone = len(before) - len(after) if _kept(change) else 0
        kind = "dropped" if gone and not after else change.change
        if gone > 0:
            words += f"; {gone} of its {len(before)} checks gone"
    return HouseChange(
        rule=change.rule,
        title=title,
        change=kind,
        reading=change.reading,
        words=words,
        reason=change.reason,
        by=change.by,
        was=_was(change, library, gone > 0),
    )


def _kept(change: LaidOver) -> bool:
    """Tell whether a shipped rule is still there after the change."""
    return change.before is not None and change.after is not None


def _applies(rule: CheckRule | None, facts: Facts, units: UnitSystem) -> list[Scope]:
    """Return what the rule's expressions may name, for each check that it gives the boat."""
    if rule is None:
        return []
    return [scope for _, scope in subjects(rule, facts, units) if holds(rule.when, scope)]


def _title(rule: CheckRule, scope: Scope) -> str:
    """Return the rule's title on this boat, without the name of the one item."""
    text = render(rule.title, scope)
    for value in scope.bound.values():
        text = text.removesuffix(f": {show(value)}")
    return text


def _was(change: LaidOver, library: Library, gone: bool) -> Literal["stop", "law"] | None:
    """Return what a check was that the house file takes away or makes lighter."""
    if change.requirement is not None:
        return "law" if change.requirement.strength == "required" else None
    if change.before is None or change.change == "added":
        return None
    gone = gone or change.after is None
    if change.before.grade == "stop" and (gone or (change.after and change.after.grade != "stop")):
        return "stop"
    lost = gone or (change.change == "dropped" and change.reading is not None)
    return (
        "law" if lost and any(_is_law(id, library) for id in _cited(change.before, change.reading)) else None
    )


def _cited(rule: CheckRule, reading: str | None) -> Iterator[str]:
    """Yield the sources that a rule, or one of its readings, cites."""
    if reading is None:
        yield rule.source.id
    for one in rule.expect:
        if reading in (None, one.id):
            yield (one.source or rule.source).id


def _is_law(source: str, library: Library) -> bool:
    return library.sources[source].kind == "law"
