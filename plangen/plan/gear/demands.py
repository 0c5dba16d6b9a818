"""What each jurisdiction or code demands of this boat."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence

from plangen.packs.evaluate import Scope, evaluate, holds, number_in, render
from plangen.packs.facts import Facts, Missing, Read
from plangen.packs.functions import MissingInput
from plangen.packs.law import LawPack, Requirement
from plangen.packs.syntax import ExpressionError
from plangen.packs.values import value_of
from plangen.plan.gear.laws import Applicable, zone_of
from plangen.plan.gear.lines import Demand, LawApplied
from plangen.spec.explain import key_text

#: Requirements with what they come to for this boat.
Found = list[tuple[Requirement, Demand]]


def in_force(requirement: Requirement, day: datetime.date | None) -> bool:
    """Tell whether a requirement is in force on a day; without a day, the latest text counts."""
    if day is None:
        return requirement.until is None
    return (requirement.from_ is None or requirement.from_ <= day) and (
        requirement.until is None or day < requirement.until
    )


def demands_of(one: Applicable, facts: Facts, scope: Scope) -> Found:
    """Return what one pack demands of the boat on its day."""
    if one.state != "applies":
        return []
    law = one.law
    found: Found = []
    for requirement in law.requires:
        if in_force(requirement, one.day) and holds(requirement.when, scope):
            quantity, note = _quantity(requirement, scope)
            if quantity > 0 or note is not None:
                found.append((requirement, _demand(law, requirement, quantity, note, scope)))
    return found


def demands(laws: Sequence[Applicable], facts: Facts) -> tuple[Found, dict[str, tuple[Read, ...]]]:
    """Return the demands of all the packs together, and what each pack looked at.

    The international rules come last: what they ask depends on the radio that other laws demand.
    """
    found: Found = []
    reads: dict[str, tuple[Read, ...]] = {}
    own_list = flag_sets_list(laws)
    for one in sorted(laws, key=lambda law: law.law.kind == "international"):
        facts.start_notes()
        demanded = [r.item for r, demand in found if demand.strength == "required"]
        found.extend(demands_of(one, facts, scope_of(one, facts, own_list, demanded)))
        reads[one.law.jurisdiction] = facts.notes()
    return found, reads


def flag_sets_list(laws: Sequence[Applicable]) -> bool:
    """Tell whether the law of her flag sets the whole list of what she carries."""
    return any(one.is_flag and one.law.eases and one.state == "applies" for one in laws)


def scope_of(one: Applicable, facts: Facts, own_list: bool, demanded: Sequence[str]) -> Scope:
    """Return what the conditions of a pack may name."""
    zone = zone_of(one.law, facts)
    bound = {
        "zone": zone if zone is not None else Missing(("use", "distance_from_shelter")),
        "category": one.category if one.category is not None else Missing(("use", "codes")),
        "flag": one.is_flag,
        "own_list": own_list,
        "demanded": list(demanded),
    }
    return Scope(facts, bound)


def _number(text: str, scope: Scope) -> float:
    return number_in(value_of(text, scope), "dimensionless")


def _quantity(requirement: Requirement, scope: Scope) -> tuple[float, str | None]:
    try:
        return _number(requirement.quantity, scope), None
    except (MissingInput, ExpressionError) as error:
        return 1.0, f"quantity can't be worked out ({error}): at least one"


def _demand(
    law: LawPack, requirement: Requirement, quantity: float, note: str | None, scope: Scope
) -> Demand:
    def text(written: str | None) -> str | None:
        return render(written, scope) if written else None

    def alternative(instead: Mapping[str, str]) -> dict[str, float] | None:
        try:
            return {item: _number(quantity, scope) for item, quantity in instead.items()}
        except (MissingInput, ExpressionError):
            return None

    sets = [alternative(instead) for instead in requirement.or_else]
    notes = [part for part in (text(requirement.note), note) if part]
    instrument, _, place = requirement.clause.partition(" ")
    title = law.instruments[instrument].title if instrument in law.instruments else instrument
    duty = law.kind == "builder" and requirement.strength == "required"
    return Demand(
        jurisdiction=law.jurisdiction,
        requirement=requirement.id,
        quantity=quantity,
        strength="builder" if duty else requirement.strength,
        clause=f"{title}, {place}" if place else title,
        approval=text(requirement.approval),
        marks=requirement.marks,
        own_place=requirement.own_place,
        contents=text(requirement.contents),
        upkeep=text(requirement.upkeep),
        service_days=_days(requirement.service_every, scope),
        life_days=_days(requirement.life, scope),
        instead=text(requirement.instead),
        alternatives=tuple(instead for instead in sets if instead is not None),
        verify=text(requirement.verify),
        note="; ".join(notes) or None,
        known_by=requirement.known_by,
    )


def _days(text: str | None, scope: Scope) -> float | None:
    return None if text is None else number_in(value_of(text, scope), "day")


def undecided_of(one: Applicable, scope: Scope) -> tuple[str, ...]:
    """Return which demands can't be told to apply or not, each with the key that the spec leaves out."""
    found: list[str] = []
    for requirement in one.law.requires if one.state == "applies" else ():
        if requirement.when is None or not in_force(requirement, one.day):
            continue
        try:
            evaluate(requirement.when, scope)
        except MissingInput as error:
            found.append(f"{requirement.id}: the spec doesn't say {key_text(error.missing.path)}")
    return tuple(found)


def changes_of(one: Applicable, facts: Facts, scope: Scope, titles: Mapping[str, str]) -> tuple[str, ...]:
    """Return what comes in or goes out between the day at which the law was taken and delivery, or after an edition."""
    trial, day = facts.spec.trial, one.day
    last = trial.delivery or (None if trial.date is None else trial.date)
    found: list[tuple[datetime.date, str]] = []
    for requirement in one.law.requires if one.state == "applies" and day is not None else ():
        for date, words in ((requirement.from_, "comes in"), (requirement.until, "goes out")):
            later = date is not None and day is not None and date > day and (last is None or date <= last)
            if date is not None and later and holds(requirement.when, scope):
                quantity = _quantity(requirement, scope)[0]
                if quantity > 0:
                    found.append((date, f"{date}: {titles[requirement.item]}, {quantity:g}, {words}"))
    return tuple(text for _, text in sorted(found))


def law_applied(
    one: Applicable, facts: Facts, scope: Scope, titles: Mapping[str, str], asks: bool
) -> LawApplied:
    """Return what the plan prints about a pack that was evaluated; `asks` tells whether it demands anything."""
    law = one.law
    says = law.outside if one.state == "outside" else None
    if says is None and not one.is_flag and law.kind in ("statute", "customary"):
        says = law.visitor or (None if asks else "A visitor carries the gear of her own flag.")
    return LawApplied(
        jurisdiction=law.jurisdiction,
        title=law.title,
        edition=law.edition,
        kind=law.kind,
        state="visitor" if one.state == "applies" and says and not asks else one.state,
        zone=(one.category or zone_of(law, facts)) if one.state == "applies" else None,
        day=str(one.day) if one.day else None,
        coverage=law.coverage,
        ask=law.ask,
        says=says,
        changes=changes_of(one, facts, scope, titles),
        instruments={
            id: f"{entry.title} (current to {entry.current_to})" for id, entry in law.instruments.items()
        },
        undecided=undecided_of(one, scope),
    )
