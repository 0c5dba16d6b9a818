"""Kinds of rounds, and which visit a check belongs to: a place is visited once for all that is done there."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from plangen.packs.library import Library
from plangen.packs.values import literal
from plangen.plan.model import PlannedCheck

Finder = Callable[[PlannedCheck], str]


@dataclass(frozen=True)
class Kind:
    """A kind of round with its times in minutes."""

    id: str
    title: str
    by_zone: bool
    order: int
    once: float
    longest: float
    gathers: bool


@dataclass(frozen=True)
class Kinds:
    """The kinds of rounds, with what finds those of a check: the work's own kind, and the visit in which it's done."""

    by_id: Mapping[str, Kind]
    of: Finder
    of_zone: Mapping[str, str]
    hands: Callable[[PlannedCheck], int]

    def work(self, check: PlannedCheck) -> Kind:
        """Return the kind of work that a check is."""
        return self.by_id[self.of(check)]

    def visit(self, check: PlannedCheck) -> tuple[Kind, str | None]:
        """Return the kind of the round in which a check is done, and the place where that round has one.

        What is done in a zone belongs to the visit of that zone, and where such zones are walked as a whole, to that walk.
        """
        kind = self.work(check)
        if not kind.by_zone or check.zone is None:
            return kind, None
        own = self.by_id[self.of_zone.get(check.zone, kind.id)]
        return (own, check.zone) if own.by_zone else (own, None)


def kinds_of(library: Library, zone_kinds: Mapping[str, str | None]) -> Kinds:
    """Return the kinds of rounds of the catalogue for a boat's zones."""
    by_id = {
        id: Kind(
            id,
            kind.title,
            kind.place == "zone",
            kind.order,
            _minutes(kind.once),
            _minutes(kind.longest),
            kind.gathers,
        )
        for id, kind in library.rounds.items()
    }

    def hands(check: PlannedCheck) -> int:
        return max(1, check.people - library.settings[check.setting].crew)

    return Kinds(by_id, kind_finder(library, zone_kinds), _kinds_of_zones(library, zone_kinds), hands)


def _minutes(text: str) -> float:
    quantity = literal(text)
    if quantity is None:
        return float(text)
    return float(quantity.to("minute").magnitude)


def kind_finder(library: Library, zone_kinds: Mapping[str, str | None]) -> Finder:
    """Return what finds a check's kind of round: its rule's own, or the first fallback that fits."""

    def find(check: PlannedCheck) -> str:
        if check.round is not None:
            return check.round
        zone_kind = zone_kinds.get(check.zone) if check.zone else None
        for fallback in library.round_fallbacks:
            if fallback.setting in (None, check.setting) and fallback.zone_kind in (None, zone_kind):
                return fallback.round
        return next(iter(library.rounds))

    return find


def _kinds_of_zones(library: Library, zone_kinds: Mapping[str, str | None]) -> dict[str, str]:
    """Return for each zone the kind of round in which it is visited."""
    by_zone_kind = {one.zone_kind: one.round for one in library.round_fallbacks if one.zone_kind}
    return {
        zone: by_zone_kind[zone_kind] for zone, zone_kind in zone_kinds.items() if zone_kind in by_zone_kind
    }
