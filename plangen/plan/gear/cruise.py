"""Where she sails, in sailors' words: named waters and passages become jurisdictions and distances."""

from __future__ import annotations

from plangen.packs.facts import Assumed, Facts
from plangen.packs.law import Water
from plangen.packs.library import Library
from plangen.packs.waters import water_named
from plangen.spec.quantity import Quantity, parse_quantity


def cruised(name: str, library: Library) -> Water | None:
    """Return the water or passage of a name, under whichever of its names it goes."""
    return water_named(name, library.waters)


def assume_from_cruise(facts: Facts, library: Library) -> None:
    """Fill in what her cruise says and the spec doesn't: the greatest distance, the waters, ports abroad."""
    use = facts.spec.use
    named = [(name, water) for name in use.cruise if (water := cruised(name, library))]
    if not named:
        return
    distances: list[tuple[Quantity, str, Water]] = [
        (parse_quantity(water.distance_from_shelter), name, water)
        for name, water in named
        if water.distance_from_shelter is not None
    ]
    if distances:
        distance, name, water = max(distances, key=lambda one: (one[0], one[1]))
        _assume(facts, "distance_from_shelter", distance, name, water)
    classes = ("smooth", "partially-smooth", "open")
    classed = [(classes.index(water.water_class), name, water) for name, water in named if water.water_class]
    if classed:
        rank, name, water = max(classed, key=lambda one: (one[0], one[1]))
        _assume(facts, "water_class", classes[rank], name, water)
    _assume(facts, "mediterranean", all(water.mediterranean for _, water in named), *named[0])
    places = {place for _, water in named for place in (*water.jurisdictions, *water.unheld)}
    abroad = bool(places - {use.registry}) if use.registry else any(water.abroad for _, water in named)
    _assume(facts, "foreign_ports", abroad, *named[0])


def _assume(facts: Facts, key: str, value: object, name: str, water: Water) -> None:
    if getattr(facts.spec.use, key) is None:
        facts.assumed[("use", key)] = Assumed(value, f"her cruise: {name}", water.source.id)
