"""Holding the order of work against the rest of the catalogue: settings, moves, states, rounds, exclusions and risk."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial

from plangen.packs.items import bound_names, key_type
from plangen.packs.library import Library
from plangen.packs.lint_report import Path, Report, check_state
from plangen.packs.model import Catalogue, Likelihood, PlantState
from plangen.packs.types import type_at


def check_order_of_work(report: Report, model: Catalogue, library: Library) -> None:
    """Say which names the order of work uses that nothing defines, and which states nothing brings about."""
    for name, setting in model.settings.items():
        path: Path = ("settings", name)
        _known_or_none(report, (*path, "at"), setting.at, library.settings, "setting")
        for step, scope in enumerate(setting.asks_for):
            report.known((*path, "asks_for", step), scope, library.scopes, "scope")
    for index, move in enumerate(model.moves):
        path = ("moves", index)
        report.known((*path, "from"), move.from_, library.settings, "setting")
        report.known((*path, "to"), move.to, library.settings, "setting")
        _known_or_none(report, (*path, "caution"), move.caution, library.cautions, "caution")
        for step, text in enumerate(move.makes):
            check_state(report, (*path, "makes", step), text, library)
    for name, entry in model.plant_states.items():
        _check_plant_state(report, ("plant_states", name), entry, library)
    for name, kind in model.rounds.items():
        report.of_unit(("rounds", name, "once"), kind.once, {}, "min")
        report.of_unit(("rounds", name, "longest"), kind.longest, {}, "min")
    zone_kinds = key_type("zones[].kind")[0].choices
    for index, fallback in enumerate(model.round_fallbacks):
        path = ("round_fallbacks", index)
        _known_or_none(report, (*path, "setting"), fallback.setting, library.settings, "setting")
        _known_or_none(report, (*path, "zone_kind"), fallback.zone_kind, zone_kinds, "kind of zone")
        report.known((*path, "round"), fallback.round, library.rounds, "kind of round")
    for index, exclusion in enumerate(model.exclusions):
        for key in ("cautions", "beside"):
            for step, caution in enumerate(getattr(exclusion, key)):
                report.known(("exclusions", index, key, step), caution, library.cautions, "caution")
    for index, factor in enumerate(model.risk.likelihood if model.risk else ()):
        _check_likelihood(report, ("risk", "likelihood", index), factor, library)
    if model.zone_map is not None:
        for hull in model.zone_map.outlines:
            report.known(("zone_map", "outlines", hull), hull, type_at("vessel.hull").choices, "hull")
        for zone_kind in model.zone_map.kinds:
            report.known(("zone_map", "kinds", zone_kind), zone_kind, zone_kinds, "kind of zone")
        for index, mark in enumerate(model.zone_map.marks):
            report.attempt(("zone_map", "marks", index, "of"), partial(type_at, mark.of))


def _known_or_none(report: Report, path: Path, name: str | None, names: Iterable[str], what: str) -> None:
    if name is not None:
        report.known(path, name, names, what)


def _check_plant_state(report: Report, path: Path, entry: PlantState, library: Library) -> None:
    if entry.per is not None:
        report.attempt((*path, "per"), partial(type_at, entry.per))
    _known_or_none(report, (*path, "at_start"), entry.at_start, entry.states, "state of this entry")
    for state, others in entry.served_by.items():
        report.known((*path, "served_by", state), state, entry.states, "state of this entry")
        for step, other in enumerate(others):
            report.known((*path, "served_by", state, step), other, entry.states, "state of this entry")
    for index, change in enumerate(entry.changes):
        place = (*path, "changes", index)
        report.known((*place, "to"), change.to, entry.states, "state of this entry")
        for step, before in enumerate(change.from_):
            report.known((*place, "from", step), before, entry.states, "state of this entry")
        _known_or_none(report, (*place, "caution"), change.caution, library.cautions, "caution")
    if entry.all_of is None:
        _check_ways(report, path, entry)
        return
    report.known((*path, "all_of"), entry.all_of, library.plant_states, "plant state")
    if entry.all_of in library.plant_states:
        for step, state in enumerate(entry.states):
            states = library.plant_states[entry.all_of].states
            report.known((*path, "states", step), state, states, f"state of {entry.all_of}")


def _check_ways(report: Report, path: Path, entry: PlantState) -> None:
    """Every state is brought about from every other one, or from one that serves as well there is nothing to do."""
    for step, state in enumerate(entry.states):
        ways = [change for change in entry.changes if change.to == state]
        serving = {state, *entry.served_by.get(state, ())}
        closed = [
            other
            for other in entry.states
            if other not in serving and not any(not way.from_ or other in way.from_ for way in ways)
        ]
        if closed:
            report.say(
                (*path, "states", step),
                f"no change to {state} from {', '.join(closed)}",
                "an entry under changes: that leads to it",
            )


def _check_likelihood(report: Report, path: Path, factor: Likelihood, library: Library) -> None:
    systems = [pack.model.pack for pack in library.rules]
    zone_kinds = key_type("zones[].kind")[0].choices
    for key, names, what in (
        ("systems", systems, "system"),
        ("settings", library.settings, "setting"),
        ("rounds", library.rounds, "kind of round"),
        ("zone_kinds", zone_kinds, "kind of zone"),
    ):
        for step, name in enumerate(getattr(factor, key)):
            report.known((*path, key, step), name, names, what)
    bound = report.attempt((*path, "for_each"), partial(bound_names, factor.for_each, None))
    if bound is not None:
        report.condition((*path, "when"), factor.when, bound[0])
