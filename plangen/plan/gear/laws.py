"""Which laws and codes bind the boat, and how: her flag, the waters she visits, or nothing that is held."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterable
from dataclasses import dataclass

from plangen.packs.evaluate import Scope, evaluate, holds, ordered
from plangen.packs.facts import Facts, Missing
from plangen.packs.functions import MissingInput
from plangen.packs.law import Band, LawPack
from plangen.packs.library import Library
from plangen.packs.values import value_of
from plangen.plan.gear.cruise import cruised
from plangen.plan.gear.lines import Unheld
from plangen.spec.load import LoadedSpec
from plangen.spec.problems import InputProblems, Problem, name_list, nearest_name

#: What a flag is called that isn't held and isn't named.
OTHER_FLAG = "other"


@dataclass(frozen=True)
class Applicable:
    """A law pack that the spec names or that may bind every vessel, and how it binds the boat."""

    law: LawPack
    is_flag: bool
    category: str | None
    state: str
    day: datetime.date | None


def check_codes(loaded: LoadedSpec, library: Library) -> None:
    """Raise `InputProblems` for a code without a pack or without that category, and for gear that isn't known."""
    use = loaded.spec.use
    known = sorted({*library.known_jurisdictions, *(pack.model.jurisdiction for pack in library.law)})
    problems: list[Problem] = []
    for index, code in enumerate(use.codes):
        mark = loaded.mark_of(("use", "codes", index))
        law = library.law_of(code.code)
        if code.code not in known:
            found = f"no law pack for {code.code!r}"
            problems.append(
                Problem(mark, "use.codes.code", found, name_list(known, 60), nearest_name(code.code, known))
            )
        elif law is not None and law.categories and code.category not in law.categories:
            found = f"{code.category!r} is no category of {code.code}"
            nearest = nearest_name(str(code.category), law.categories)
            problems.append(
                Problem(mark, "use.codes.category", found, name_list(law.categories, 40), nearest)
            )
    for index, gear in enumerate(loaded.spec.safety_gear):
        if gear.item not in library.gear:
            problems.append(
                Problem(
                    loaded.mark_of(("safety_gear", index)),
                    f"safety_gear[{index + 1}].item",
                    f"unknown gear item {gear.item!r}",
                    f"one of {len(library.gear)} items of the gear catalogue",
                    nearest_name(gear.item, library.gear),
                )
            )
    if problems:
        raise InputProblems(problems)


def unheld(facts: Facts, library: Library) -> tuple[Unheld, ...]:
    """Return the places that the spec names and for which no text is held."""
    use = facts.spec.use
    held = {pack.model.jurisdiction for pack in library.law}
    known = sorted({*library.known_jurisdictions, *held})
    found: dict[str, Unheld] = {}
    if use.registry is not None and use.registry not in held:
        ask = "ask the authority of her flag what she has to carry"
        near = "" if use.registry == OTHER_FLAG else _nearest_place(use.registry, known, library)
        found[use.registry] = Unheld(place=_place(use.registry, library), ask=ask, nearest=near)
    for name in use.waters:
        if name not in held:
            ask = "ask the maritime authority there what it asks of visitors"
            near = "" if cruised(name, library) is None else f"cruise: {name}"
            near = near or _nearest_place(name, known, library)
            if not near and (sea := _nearest_place(name, library.waters, library)):
                near = f"cruise: {sea}"
            found.setdefault(name, Unheld(place=_place(name, library), ask=ask, nearest=near))
    for name in use.cruise:
        water = cruised(name, library)
        if water is None:
            ask = "name it under `waters`, or ask the maritime authority there"
            near = _nearest_place(name, [*library.waters, *library.known_jurisdictions], library)
            found.setdefault(name, Unheld(place=name, ask=ask, nearest=near))
            continue
        for country, words in water.unheld.items():
            if country not in held:
                found.setdefault(country, Unheld(place=_place(country, library), ask=words))
    return tuple(found.values())


def _nearest_place(name: str, known: Iterable[str], library: Library) -> str:
    known = list(known)
    meant = library.other_words.place_for(name)
    return meant if meant in known else nearest_name(name, known)


def _place(name: str, library: Library) -> str:
    if name == OTHER_FLAG:
        return "her flag"
    return library.waters[name].title if name in library.waters else name.replace("-", " ").title()


def applicable(facts: Facts, library: Library) -> list[Applicable]:
    """Return the packs that the spec names, her flag first, and those that may bind every vessel.

    A pack that asks nothing of this boat is among them with the reason, so that the plan can say so.
    """
    use = facts.spec.use
    from_cruise = [j for name in use.cruise if (w := cruised(name, library)) for j in w.jurisdictions]
    codes = {code.code: code.category for code in use.codes}
    named = [*([use.registry] if use.registry else []), *use.waters, *from_cruise, *codes]
    everywhere = [
        pack.model.jurisdiction for pack in library.law if pack.model.kind in ("international", "builder")
    ]
    found: list[Applicable] = []
    for name in dict.fromkeys([*named, *everywhere]):
        law = library.law_of(name)
        if law is None:
            continue
        is_flag = use.registry in (None, name)
        scope = Scope(facts, {"flag": is_flag})
        state = "applies" if holds(law.applies, scope) else "none" if name not in named else "visitor"
        if state == "applies" and not _inside(law, scope):
            state = "outside"
        if state != "none":
            found.append(Applicable(law, is_flag, codes.get(name), state, _day(facts, law)))
    return found


def _inside(law: LawPack, scope: Scope) -> bool:
    """Tell whether the boat is within the law's own limits; what the spec leaves out keeps her within."""
    if law.scope is None:
        return True
    try:
        return bool(evaluate(law.scope, scope))
    except MissingInput:
        return True


def _day(facts: Facts, law: LawPack) -> datetime.date | None:
    """Return the day at which the law is taken: of the trial, else of delivery, else of the pack's edition."""
    trial = facts.spec.trial
    return trial.date or trial.delivery or edition_day(law.edition)


def edition_day(edition: str) -> datetime.date | None:
    """Return the last day of the month of an edition.

    >>> str(edition_day("2026-11")), str(edition_day("2026-12"))
    ('2026-11-30', '2026-12-31')
    """
    found = re.match(r"(\d{4})-(\d{2})", edition)
    if found is None:
        return None
    year, month = int(found[1]), int(found[2])
    first_of_next = datetime.date(year + month // 12, month % 12 + 1, 1)
    return first_of_next - datetime.timedelta(days=1)


def zone_of(law: LawPack, facts: Facts) -> str | None:
    """Return the law's own zone for the boat's distance from shelter."""
    if not law.zones:
        return None
    scope = Scope(facts)
    distance = value_of(law.zone_of, scope)
    if isinstance(distance, Missing):
        return None
    return next((name for name, band in law.zones.items() if _within(distance, band, scope)), None)


def _within(value: object, band: Band, scope: Scope) -> bool:
    ends = (("gteq", band.at_least), ("gt", band.above), ("lteq", band.at_most), ("lt", band.below))
    return all(end is None or ordered(operator, value, value_of(end, scope)) for operator, end in ends)
