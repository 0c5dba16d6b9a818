"""Holding law packs, and the gear, marks and waters of the catalogue, against the models and one another."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial

from plangen.packs.items import bound_names
from plangen.packs.law import AboardRule, Band, GearItem, LawPack, Requirement, Water
from plangen.packs.library import Library
from plangen.packs.lint_report import Path, Report
from plangen.packs.types import DAY, FLAG, TEXT_TYPE, Names, Type, same_kind, type_at

#: What a condition of a law pack may name beside the spec: its zone and category, whether this is her flag, whether
#: her flag sets a list of its own, and the items that other laws demand.
LAW_NAMES: Names = {
    "zone": TEXT_TYPE,
    "category": TEXT_TYPE,
    "flag": FLAG,
    "own_list": FLAG,
    "demanded": Type("list", element=TEXT_TYPE),
}
TEXTS = ("approval", "upkeep", "verify", "note", "instead", "contents")


def check_law(report: Report, law: LawPack, library: Library) -> None:
    """Report every fault of one law pack."""
    report.condition(("applies",), law.applies, {"flag": FLAG})
    report.condition(("scope",), law.scope, {"flag": FLAG})
    if (law.scope is None) != (law.outside is None):
        report.say(
            ("scope",), "only one of `scope` and `outside`", "both: the condition, and what to do outside it"
        )
    report.value(("zone_of",), law.zone_of, {})
    for name, band in law.zones.items():
        _check_band(report, ("zones", name), band, law.zone_of)
    names = {
        **LAW_NAMES,
        "zone": Type("text", choices=tuple(law.zones)),
        "category": Type("text", choices=tuple(law.categories)),
    }
    seen: set[str] = set()
    for index, requirement in enumerate(law.requires):
        path: Path = ("requires", index)
        if requirement.id in seen:
            report.say(
                (*path, "id"),
                f"the id {requirement.id!r} stands twice",
                "an id of its own for each requirement",
            )
        seen.add(requirement.id)
        _check_requirement(report, path, requirement, law, library, names)
    check_gear(report, law.gear, library)


def _check_requirement(
    report: Report, path: Path, one: Requirement, law: LawPack, library: Library, names: Names
) -> None:
    report.known((*path, "item"), one.item, library.gear, "gear item")
    report.condition((*path, "when"), one.when, names)
    report.of_unit((*path, "quantity"), one.quantity, names, "")
    for place, instead in enumerate(one.or_else):
        for other_item, quantity in instead.items():
            report.known((*path, "or_else", place), other_item, library.gear, "gear item")
            report.of_unit((*path, "or_else", place, other_item), quantity, names, "")
    for key in ("service_every", "life"):
        report.of_unit((*path, key), getattr(one, key), names, "year")
    for key in TEXTS:
        report.text((*path, key), getattr(one, key), names)
    for step, mark in enumerate(one.marks):
        report.known((*path, "marks", step), mark, library.marks, "mark of approval")
    first = one.clause.split(" ")[0].rstrip(",;")
    report.known((*path, "clause"), first, law.instruments, "instrument of this law")
    if one.known_by == "read" and first in law.instruments and law.instruments[first].known_by != "read":
        known = law.instruments[first].known_by
        report.say((*path, "known_by"), f"read, in a text that is known by {known} only", known)


def _check_band(report: Report, path: Path, band: Band, zone_of: str) -> None:
    wanted = report.value(("zone_of",), zone_of, {})
    for key in ("at_least", "above", "at_most", "below"):
        text = getattr(band, key)
        found = report.value((*path, key), text, {})
        if found is not None and wanted is not None and not same_kind(found, wanted):
            report.say((*path, key), f"{found}", f"{wanted}, as `zone_of` is")


def check_gear(report: Report, gear: Mapping[str, GearItem], library: Library) -> None:
    """Report what gear items refer to and isn't there."""
    readings = {
        f"{rule.id}/{reading.id}"
        for pack in library.rules
        for rule in pack.model.checks
        for reading in rule.expect
    }
    for name, item in gear.items():
        report.known(("gear", name, "group"), item.group, library.gear_groups, "group of gear")
        for other in item.satisfied_by:
            report.known(("gear", name, "satisfied_by"), other, library.gear, "gear item")
        for step, reading in enumerate(item.seen_by):
            report.known(("gear", name, "seen_by", step), reading, readings, "reading (rule/reading)")
        for key in ("service_every", "life"):
            report.of_unit(("gear", name, key), getattr(item, key), {}, "year")


def check_aboard(report: Report, rules: Sequence[AboardRule], library: Library) -> None:
    """Report every fault of the table that says which parts of a spec are which gear."""
    for index, rule in enumerate(rules):
        path: Path = ("aboard", index)
        if (rule.label is None) != (not rule.by_label) or (rule.item is None and rule.label is None):
            report.say(
                path, "neither an item nor a label with its table", "`item`, or `label` with `by_label`"
            )
        for name in [*([rule.item] if rule.item else []), *rule.by_label.values()]:
            report.known(path, name, library.gear, "gear item")
        bound = report.attempt((*path, "for_each"), partial(bound_names, rule.for_each, rule.as_))
        if bound is None:
            continue
        report.condition((*path, "when"), rule.when, bound[0])
        report.of_unit((*path, "quantity"), rule.quantity, bound[0], "")
        report.value((*path, "label"), rule.label, bound[0])
        for key in ("expires", "made"):
            found = report.value((*path, key), getattr(rule, key), bound[0])
            if found is not None and not same_kind(found, DAY):
                report.say((*path, key), f"{found}", "a date")


def check_waters(report: Report, waters: Mapping[str, Water], library: Library) -> None:
    """Report what waters and passages refer to and isn't there."""
    for name, water in waters.items():
        path: Path = ("waters", name)
        for step, jurisdiction in enumerate(water.jurisdictions):
            report.known(
                (*path, "jurisdictions", step), jurisdiction, library.known_jurisdictions, "law pack"
            )
        found = report.value((*path, "distance_from_shelter"), water.distance_from_shelter, {})
        wanted = type_at("use.distance_from_shelter")
        if found is not None and not same_kind(found, wanted):
            report.say((*path, "distance_from_shelter"), f"{found}", f"{wanted}")
