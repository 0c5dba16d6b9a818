"""Specs of boats as large as one likes: the same rooms, engines, tanks and heads over and over."""

from __future__ import annotations

#: Checks that one more part of the boat brings, and those that any such boat has.
EACH, ANY = 76, 80

_PART = """
  - {{name: cabin {n}, kind: cabin, sockets: 2, usb: 2, lights: 6, hatches: 2, opening_ports: 2, doors: 1, berths: 2}}
  - {{name: head room {n}, kind: head, sockets: 1, lights: 3, hatches: 1, doors: 1}}
  - {{name: engine space {n}, kind: machinery, lights: 2, hatches: 1}}"""
_ENGINE = "\n  - {{name: engine {n}, zone: engine space {n}, fuel: diesel, power: 42 kW, drive: shaft, cooling: heat-exchanger, exhaust: wet}}"
_TANKS = """
  - {{name: fuel {n}, holds: fuel, capacity: 400 L, zone: engine space {n}, material: aluminium, gauge: sender}}
  - {{name: holding {n}, holds: black, capacity: 80 L, zone: head room {n}, material: polyethylene, gauge: sender}}"""
_HEAD = "\n  - {{name: head {n}, zone: head room {n}, flush: electric, flush_water: sea, tank: holding {n}}}"
_BILGE = "\n  - {{name: bilge {n}, zone: engine space {n}, pump_flow: 60 L/min, float_switch: true}}"


def large_boat(checks: int) -> str:
    """Return the spec of a boat that has about so many checks."""
    numbers = range(1, max(1, (checks - ANY) // EACH) + 1)

    def each(text: str) -> str:
        return "".join(text.format(n=number) for number in numbers)

    return (
        "vessel: {name: Leviathan, hull: motor-displacement, length_hull: 23 m, persons: 12}\n"
        "trial: {people: 3, days: 3}\n"
        f"zones:{each(_PART)}\nengines:{each(_ENGINE)}\ntanks:{each(_TANKS)}\nheads:{each(_HEAD)}\nbilges:{each(_BILGE)}\n"
    )
