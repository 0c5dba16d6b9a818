"""The safety gear of one boat: what binds her, what it demands, what is aboard, and what to buy."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from plangen.packs.facts import Facts, Read
from plangen.packs.library import Library
from plangen.plan.gear.aboard import gear_aboard
from plangen.plan.gear.demands import demands, flag_sets_list, law_applied, scope_of
from plangen.plan.gear.laws import applicable, unheld
from plangen.plan.gear.lines import GearLine, GearPurchase, LawApplied, Unheld
from plangen.plan.gear.merge import Gear, merge
from plangen.plan.gear.stock import Days
from plangen.spec.model import Spec

#: Whose law it is that nobody can tell without her flag.
FLAG_LAW = "her flag"


@dataclass(frozen=True)
class Inventory:
    """All that the plan says about safety gear, and what each law looked at."""

    law: tuple[LawApplied, ...]
    unheld: tuple[Unheld, ...]
    lines: tuple[GearLine, ...]
    shopping: tuple[GearPurchase, ...]
    reads: Mapping[str, tuple[Read, ...]]


def inventory_of(facts: Facts, stated: Spec, library: Library) -> Inventory:
    """Return the safety gear of a boat; `stated` is her spec before anything was inferred: only that is aboard."""
    trial = facts.spec.trial
    laws = applicable(facts, library)
    found, reads = demands(laws, facts)
    pairs = [(requirement.item, demand) for requirement, demand in found]
    merged = merge(pairs, gear_known(library), gear_aboard(stated, library), Days(trial.date, trial.delivery))
    titles = {item: entry.title for item, entry in library.gear.items()}
    own_list = flag_sets_list(laws)
    asking = {demand.jurisdiction for _, demand in found}
    applied = [
        law_applied(one, facts, scope_of(one, facts, own_list, ()), titles, one.law.jurisdiction in asking)
        for one in laws
    ]
    facts.start_notes()
    facts.at("use.registry")
    reads[FLAG_LAW] = facts.notes()
    return Inventory(tuple(applied), unheld(facts, library), merged.lines, merged.shopping, reads)


def gear_known(library: Library) -> Gear:
    """Return what the packs know of gear."""
    titles = {pack.model.jurisdiction: pack.model.title for pack in library.law}
    return Gear(library.gear, library.gear_groups, library.marks, titles)
