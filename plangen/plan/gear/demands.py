"""What each jurisdiction or code demands of this boat."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from plangen.packs.evaluate import Scope, as_quantity, evaluate, holds, ordered, render
from plangen.packs.facts import Facts, Missing, Read
from plangen.packs.functions import MissingInput
from plangen.packs.law import Band, LawPack, Requirement
from plangen.packs.library import Library
from plangen.packs.syntax import ExpressionError
from plangen.packs.values import value_of
from plangen.plan.gear.jurisdictions import named_jurisdictions
from plangen.plan.model import Demand, LawApplied
from plangen.spec.explain import key_text
from plangen.spec.load import LoadedSpec
from plangen.spec.problems import InputProblems, Problem, name_list, nearest_name


@dataclass(frozen=True)
class Applicable:
    """A law pack that binds the boat, and how."""

    law: LawPack
    is_flag: bool
    category: str | None


def check_jurisdictions(loaded: LoadedSpec, library: Library) -> None:
    """Raise `InputProblems` for each jurisdiction or code of the spec that there is no pack for."""
    use = loaded.spec.use
    known = sorted({*library.known_jurisdictions, *(pack.model.jurisdiction for pack in library.law)})
    places: list[tuple[tuple[str | int, ...], str]] = [
        (("use", "waters", i), name) for i, name in enumerate(use.waters)
    ]
    places += [(("use", "codes", i, "code"), code.code) for i, code in enumerate(use.codes)]
    if use.registry is not None:
        places.append((("use", "registry"), use.registry))
    problems = [
        Problem(loaded.mark_of(path), ".".join(str(s) for s in path if isinstance(s, str)), f"no law pack for {name!r}",
                name_list(known, 60), nearest_name(name, known))
        for path, name in places
        if name not in known
    ]  # fmt: skip
    for index, code in enumerate(use.codes):
        law = library.law_of(code.code)
        if law is not None and law.categories and code.category not in law.categories:
            mark = loaded.mark_of(("use", "codes", index))
            found = f"{code.category!r} is no category of {code.code}"
            problems.append(
                Problem(
                    mark,
                    "use.codes.category",
                    found,
                    name_list(law.categories, 40),
                    nearest_name(str(code.category), law.categories),
                )
            )
    if problems:
        raise InputProblems(problems)


def applicable(facts: Facts, library: Library) -> list[Applicable]:
    """Return the packs that bind the boat: those that her spec names and those that may bind every vessel."""
    spec = facts.spec
    names = named_jurisdictions(spec)
    everywhere = [
        pack.model.jurisdiction for pack in library.law if pack.model.kind in ("international", "builder")
    ]
    categories = {code.code: code.category for code in spec.use.codes}
    found: list[Applicable] = []
    for name in dict.fromkeys([*names, *everywhere]):
        law = library.law_of(name)
        if law is None:
            continue
        is_flag = spec.use.registry in (None, name)
        if holds(law.applies, Scope(facts, {"flag": is_flag})):
            found.append(Applicable(law, is_flag, categories.get(name)))
    return found


def zone_of(law: LawPack, facts: Facts) -> str | None:
    """Return the law's own zone for the boat's distance from shelter."""
    if not law.zones:
        return None
    scope = Scope(facts)
    distance = value_of(law.zone_of, scope)
    if isinstance(distance, Missing):
        return None
    return next((name for name, band in law.zones.items() if _within(distance, band, scope)), None)


def _within(value: Any, band: Band, scope: Scope) -> bool:
    ends = (("gteq", band.at_least), ("gt", band.above), ("lteq", band.at_most), ("lt", band.below))
    return all(end is None or ordered(operator, value, value_of(end, scope)) for operator, end in ends)


def in_force(requirement: Requirement, day: datetime.date | None) -> bool:
    """Tell whether a requirement is in force on a day; without a day, the latest text counts."""
    if day is None:
        return requirement.until is None
    return (requirement.from_ is None or requirement.from_ <= day) and (
        requirement.until is None or day < requirement.until
    )


def demands_of(one: Applicable, facts: Facts, day: datetime.date | None) -> list[tuple[Requirement, Demand]]:
    """Return what one pack demands of the boat."""
    law, scope = one.law, _scope_of(one, facts)
    found: list[tuple[Requirement, Demand]] = []
    for requirement in law.requires:
        if not in_force(requirement, day) or not holds(requirement.when, scope):
            continue
        quantity, note = _quantity(requirement, scope)
        if quantity <= 0 and note is None:
            continue
        found.append((requirement, _demand(law, requirement, quantity, note, scope)))
    return found


def undecided_of(one: Applicable, facts: Facts, day: datetime.date | None) -> tuple[str, ...]:
    """Return which demands can't be told to apply or not, each with the key that the spec leaves out."""
    scope = _scope_of(one, facts)
    found: list[str] = []
    for requirement in one.law.requires:
        if requirement.when is None or not in_force(requirement, day):
            continue
        try:
            evaluate(requirement.when, scope)
        except MissingInput as error:
            found.append(f"{requirement.id}: the spec doesn't say {key_text(error.missing.path)}")
    return tuple(found)


def _scope_of(one: Applicable, facts: Facts) -> Scope:
    zone = zone_of(one.law, facts)
    bound = {
        "zone": zone if zone is not None else Missing(("use", "distance_from_shelter")),
        "category": one.category if one.category is not None else Missing(("use", "codes")),
        "flag": one.is_flag,
    }
    return Scope(facts, bound)


def _number(text: str, scope: Scope) -> float:
    return float(as_quantity(value_of(text, scope), "dimensionless").magnitude)


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
    return Demand(
        jurisdiction=law.jurisdiction,
        requirement=requirement.id,
        quantity=quantity,
        strength=requirement.strength,
        clause=f"{title}, {place}" if place else title,
        approval=text(requirement.approval),
        upkeep=text(requirement.upkeep),
        service_days=_days(requirement.service_every, scope),
        instead=text(requirement.instead),
        alternatives=tuple(instead for instead in sets if instead is not None),
        verify=text(requirement.verify),
        note="; ".join(notes) or None,
        known_by=requirement.known_by,
    )


def _days(text: str | None, scope: Scope) -> float | None:
    return None if text is None else float(as_quantity(value_of(text, scope), "day").magnitude)


def law_applied(one: Applicable, facts: Facts) -> LawApplied:
    """Return what the plan prints about a pack that was evaluated."""
    law = one.law
    return LawApplied(
        jurisdiction=law.jurisdiction,
        title=law.title,
        edition=law.edition,
        kind=law.kind,
        zone=one.category or zone_of(law, facts),
        coverage=law.coverage,
        ask=law.ask,
        instruments={
            id: f"{entry.title} (current to {entry.current_to})" for id, entry in law.instruments.items()
        },
        undecided=undecided_of(one, facts, facts.spec.trial.date),
    )


def demands(
    laws: Sequence[Applicable], facts: Facts, day: datetime.date | None
) -> tuple[list[tuple[Requirement, Demand]], dict[str, tuple[Read, ...]]]:
    """Return the demands of all the packs together, and what each pack looked at."""
    found: list[tuple[Requirement, Demand]] = []
    reads: dict[str, tuple[Read, ...]] = {}
    for one in laws:
        facts.start_notes()
        found.extend(demands_of(one, facts, day))
        reads[one.law.jurisdiction] = facts.notes()
    return found, reads
