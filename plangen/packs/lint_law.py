"""Holding law packs against the spec and the catalogue, without any boat."""

from __future__ import annotations

from plangen.packs.library import Library, Loaded
from plangen.packs.lint_report import Path, Report
from plangen.packs.model import (
    Band,
    LawPack,
)
from plangen.packs.types import (
    FLAG,
    TEXT_TYPE,
    Names,
    Type,
    same_kind,
)
from plangen.spec.problems import Problem

LAW_NAMES: Names = {"zone": TEXT_TYPE, "category": TEXT_TYPE, "flag": FLAG}


def check_law(pack: Loaded[LawPack], library: Library) -> list[Problem]:
    report, law = Report(pack), pack.model
    report.condition(("applies",), law.applies, {"flag": FLAG})
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
        report.known((*path, "item"), requirement.item, library.gear, "gear item")
        report.condition((*path, "when"), requirement.when, names)
        report.of_unit((*path, "quantity"), requirement.quantity, names, "")
        for place, instead in enumerate(requirement.or_else):
            for other_item, quantity in instead.items():
                report.known((*path, "or_else", place), other_item, library.gear, "gear item")
                report.of_unit((*path, "or_else", place, other_item), quantity, names, "")
        report.value((*path, "service_every"), requirement.service_every, names)
        for key in ("approval", "upkeep", "verify", "note", "instead"):
            report.text((*path, key), getattr(requirement, key), names)
        first = requirement.clause.split(" ")[0].rstrip(",;")
        report.known((*path, "clause"), first, law.instruments, "instrument of this law")
    for name, item in law.gear.items():
        for other in item.satisfied_by:
            report.known(("gear", name, "satisfied_by"), other, library.gear, "gear item")
    return report.problems


def _check_band(report: Report, path: Path, band: Band, zone_of: str) -> None:
    wanted = report.value(("zone_of",), zone_of, {})
    for key in ("at_least", "above", "at_most", "below"):
        text = getattr(band, key)
        found = report.value((*path, key), text, {})
        if found is not None and wanted is not None and not same_kind(found, wanted):
            report.say((*path, key), f"{found}", f"{wanted}, as `zone_of` is")
