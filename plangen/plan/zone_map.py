"""Where each zone lies on the map of the boat, and what is marked in it."""

from __future__ import annotations

from plangen.packs.facts import Facts, Missing, Subject
from plangen.packs.library import Library
from plangen.packs.model import ZoneMapRules
from plangen.plan.map_model import MapKey, MapZone, ZoneMap
from plangen.spec.model.vessel import Zone

#: Where a zone is drawn that neither its name nor its kind places.
_MIDDLE = 50


def zone_map_of(facts: Facts, library: Library) -> ZoneMap | None:
    """Return the map of the boat's zones; nothing where the catalogue doesn't say how her hull type is drawn."""
    rules, vessel = library.zone_map, facts.spec.vessel
    if rules is None or vessel.hull not in rules.outlines:
        return None
    marked = _marks(facts, rules)
    zones = []
    for zone in facts.spec.zones:
        lane, along = place_of(zone, rules)
        own = {id: counts[zone.name] for id, counts in marked.items() if zone.name in counts}
        zones.append(MapZone(name=zone.name, code=zone.code or "", lane=lane, along=along, marks=own))
    beam = facts.at("vessel.beam")
    keys = tuple(
        MapKey(id=mark.id, title=mark.title, symbol=mark.symbol, count=sum(marked[mark.id].values()))
        for mark in rules.marks
        if marked[mark.id]
    )
    return ZoneMap(
        outline=rules.outlines[vessel.hull],
        length=round(float(vessel.length_hull.to("meter").magnitude), 3),
        beam=None if isinstance(beam, Missing) else round(float(beam.to("meter").magnitude), 3),
        zones=tuple(zones),
        keys=keys,
    )


def place_of(zone: Zone, rules: ZoneMapRules) -> tuple[str, int]:
    """Return a zone's lane and its place along the boat, by the words of its name and then by its kind.

    The first word that says either counts.
    """
    name = f" {zone.name.casefold()} "
    found = [word for word in rules.words if f" {word.word} " in name]
    lane = next((word.lane for word in found if word.lane is not None), "centre")
    along = next((word.along for word in found if word.along is not None), None)
    if along is None:
        along = rules.kinds.get(zone.kind or "", _MIDDLE)
    return lane, along


def _marks(facts: Facts, rules: ZoneMapRules) -> dict[str, dict[str, int]]:
    """Return for each mark how many things the spec names in each zone."""
    counts: dict[str, dict[str, int]] = {}
    for mark in rules.marks:
        own = counts.setdefault(mark.id, {})
        listed = facts.at(mark.of)
        for item in listed if isinstance(listed, list) else ():
            zone = getattr(item.section, "zone", None) if isinstance(item, Subject) else None
            if zone is not None:
                own[zone] = own.get(zone, 0) + 1
    return counts
