"""Drafting a plan: a pure function of the spec and the packs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from plangen.packs.evaluate import show
from plangen.packs.facts import Facts
from plangen.packs.library import Library
from plangen.plan.daylight import daylight_text
from plangen.plan.defaults import facts_of
from plangen.plan.digest import with_digest
from plangen.plan.drafted import DraftedCheck
from plangen.plan.expand import expand
from plangen.plan.gear.inventory import inventory_of
from plangen.plan.gear.laws import check_codes
from plangen.plan.house import House
from plangen.plan.kit import kit_of
from plangen.plan.left_open import left_open, not_planned
from plangen.plan.model import (
    Boat,
    Cited,
    DraftedFrom,
    PackLine,
    Plan,
    PlannedCheck,
    SourceLine,
)
from plangen.plan.order import in_order
from plangen.plan.questions import assumed_of, questions_of
from plangen.plan.register import register_of
from plangen.plan.stages import stages_of, with_stages
from plangen.plan.stores import stores_of
from plangen.plan.summary import settings_of, summary_of
from plangen.plan.zone_map import zone_map_of
from plangen.spec.load import LoadedSpec
from plangen.spec.model.vessel import Trial
from plangen.spec.quantity import STATED, UnitSystem, quantity_text


@dataclass(frozen=True)
class Draft:
    """A plan with what each check was made from, for `why`."""

    plan: Plan
    checks: tuple[DraftedCheck, ...]
    facts: Facts


def draft_plan(
    loaded: LoadedSpec, library: Library, units: UnitSystem = "metric", digested: bool = True
) -> Draft:
    """Draft the plan for a boat; without its digest where it is still to be fitted to days and people.

    Raises `InputProblems` where the spec names a code or a gear item that the packs don't hold.
    """
    check_codes(loaded, library)
    facts = facts_of(loaded, library)
    drafted = expand(facts, library, units)
    checks = with_stages(in_order(drafted, library), loaded, library)
    gear = inventory_of(facts, loaded.spec, library)
    open_ones = left_open(facts, library, units)
    questions = questions_of(drafted, gear.reads, facts, library, units, open_ones)
    stores = stores_of(facts, library)
    plan = Plan(
        boat=boat_of(loaded, facts),
        purpose=loaded.spec.trial.purpose,
        digest="",
        units=units,
        packs=_packs(library, [law.jurisdiction for law in gear.law]),
        summary=(),
        settings=(),
        stages=stages_of(loaded),
        checks=(),
        kit=(),
        law=gear.law,
        unheld=gear.unheld,
        gear=gear.lines,
        shopping=gear.shopping,
        stores=stores,
        as_built=register_of(facts.spec, drafted, library),
        not_in_plan=not_planned(open_ones, library),
        questions=questions,
        assumed=assumed_of(facts, questions, units),
        sources=(),
        house=_house(facts, library, {law.jurisdiction: law.title for law in gear.law}, units),
        zone_map=zone_map_of(facts, library),
        zone_codes={zone.name: zone.code for zone in loaded.spec.zones if zone.code},
    )
    whole = with_checks(plan, checks, library)
    return Draft(with_digest(whole) if digested else whole, tuple(drafted), facts)


def _house(facts: Facts, library: Library, laws: Mapping[str, str], units: UnitSystem) -> House | None:
    if library.overlay is None:
        return None
    from plangen.plan.house_of import house_of

    return house_of(facts, library, laws, units)


def with_checks(plan: Plan, checks: Sequence[PlannedCheck], library: Library) -> Plan:
    """Return the plan with these checks, and with what they need and come to."""
    cautions = {name: library.cautions[name] for check in checks for name in check.cautions}
    settings = {name: setting.title for name, setting in library.settings.items()}
    return plan.model_copy(
        update={
            "checks": tuple(checks),
            "summary": summary_of(checks, {pack.model.pack: pack.model.title for pack in library.rules}),
            "settings": settings_of(checks, settings),
            "cautions": {name: caution.text for name, caution in cautions.items()},
            "cautions_in_short": {name: one.short or one.text for name, one in cautions.items()},
            "kit": kit_of(checks, library),
            "sources": _sources(checks, [line.source for line in plan.stores], library),
        }
    )


def boat_of(loaded: LoadedSpec, facts: Facts) -> Boat:
    """Return whose plan it is."""
    spec = loaded.spec
    vessel = spec.vessel
    persons = facts.at("vessel.persons")
    return Boat(
        name=vessel.name,
        formerly=vessel.formerly,
        layers=loaded.layers,
        hull_number=vessel.hull_number,
        drafted_from=tuple(
            DraftedFrom(
                spec=one.spec,
                issue=one.number,
                date=str(one.date) if one.date else None,
                content=one.content,
            )
            for one in loaded.issues
        ),
        builder=vessel.builder,
        model=vessel.model,
        hull_id=vessel.hull_id,
        hull=vessel.hull,
        condition=vessel.condition,
        length_hull=quantity_text(vessel.length_hull, "both", STATED),
        built=show(vessel.built) if vessel.built is not None else None,
        flag=spec.use.registry,
        trial_date=str(spec.trial.date) if spec.trial.date else None,
        daylight=_daylight(spec.trial),
        place=spec.trial.place.name,
        buyer=spec.contract.buyer,
        seller=spec.contract.seller,
        contract=spec.contract.reference,
        holdback=spec.contract.holdback,
        persons=persons if isinstance(persons, int) else None,
    )


def _daylight(trial: Trial) -> str | None:
    place = trial.place
    if trial.date is None or place.latitude is None or place.longitude is None:
        return None
    latitude, longitude = (float(angle.to("degree").magnitude) for angle in (place.latitude, place.longitude))
    return daylight_text(trial.date, latitude, longitude, trial.time_zone)


def _packs(library: Library, jurisdictions: Sequence[str]) -> tuple[PackLine, ...]:
    rules = [PackLine(pack=p.model.pack, title=p.model.title, edition=p.model.edition) for p in library.rules]
    law = [
        PackLine(pack=p.model.jurisdiction, title=p.model.title, edition=p.model.edition)
        for p in library.law
        if p.model.jurisdiction in jurisdictions
    ]
    stores = [
        PackLine(pack=p.model.pack, title=p.model.title, edition=p.model.edition) for p in library.stores
    ]
    return (*rules, *law, *stores)


def _sources(
    checks: Sequence[PlannedCheck], more: Sequence[Cited], library: Library
) -> tuple[SourceLine, ...]:
    cited = [check.source.id for check in checks] + [e.source.id for check in checks for e in check.expect]
    figures = [figure.source.id for check in checks for figure in check.derive if figure.source]
    used = dict.fromkeys([*cited, *figures, *(source.id for source in more)])
    return tuple(
        SourceLine(id=id, title=entry.title, edition=entry.edition, url=entry.url, known_by=entry.known_by)
        for id in sorted(used)
        for entry in [library.sources[id]]
    )
