"""Potentials of protected metal in sea water, anodes and galvanic isolators."""

from __future__ import annotations

from plangen.formulas.declare import NUMBER, TEXT, OutOfRange, formula, require_positive
from plangen.formulas.vocabulary import choose

#: Least and most negative potential of a hull, mV against silver/silver chloride in sea water.
HULL_POTENTIALS = {
    "glass-fibre": (-750.0, -1000.0),
    "glass-fibre with aluminium drive": (-900.0, -1050.0),
    "aluminium": (-900.0, -1100.0),
    "steel": (-800.0, -1050.0),
    "wood": (-550.0, -600.0),
}
#: Least negative potential at which a metal is protected, mV against silver/silver chloride.
PROTECTED_POTENTIALS = {"aluminium": -900.0, "steel": -800.0, "stainless": -750.0, "bronze": -550.0}
#: Charge that a kilogram of anode gives, Ah.
ANODE_CAPACITIES = {"zinc": 780.0, "aluminium": 1669.0}
#: Share of an anode that is used before it must be replaced.
ANODE_UTILISATION = 0.85
#: Reading of one diode by a meter's diode test, V.
DIODE_READING = 0.45


@formula(hull=TEXT, returns="millivolt")
def hull_potential_least_negative(hull: str) -> float:
    """Return the least negative hull potential in mV that still protects; above it the hull lacks anode.

    Arguments:
        hull: "glass-fibre", "glass-fibre with aluminium drive", "aluminium", "steel" or "wood".

    Against silver/silver chloride in sea water. Raises `OutOfRange` for another hull.

    Source: Anode Outlet, Symptoms of over cathodic protecting; that they are those of ABYC E-2 is from memory. Another
    surveyor's page gives -550 to -1100 mV for glass-fibre as a whole.

    >>> hull_potential_least_negative("steel")
    -800.0
    """
    return choose("hull", hull, HULL_POTENTIALS)[0]


@formula(hull=TEXT, returns="millivolt")
def hull_potential_most_negative(hull: str) -> float:
    """Return the most negative hull potential in mV that does no harm; below it paint and wood suffer.

    Arguments, errors and source: as `hull_potential_least_negative`.

    >>> hull_potential_most_negative("aluminium")
    -1100.0
    """
    return choose("hull", hull, HULL_POTENTIALS)[1]


@formula(metal=TEXT, returns="millivolt")
def protected_potential(metal: str) -> float:
    """Return the least negative potential in mV at which an underwater fitting is protected.

    Arguments:
        metal: "aluminium", "steel", "stainless" or "bronze".

    Against silver/silver chloride in sea water. Raises `OutOfRange` for another metal.

    Source: as `hull_potential_least_negative`; about 200 mV below the metal's own potential.

    >>> protected_potential("bronze")
    -550.0
    """
    return choose("metal", metal, PROTECTED_POTENTIALS)


@formula(current="milliampere", time="day", alloy=TEXT, returns="kilogram")
def anode_mass(current: float, time: float, alloy: str = "zinc") -> float:
    """Return the mass in kg of anode that a steady current uses up in a time.

    Arguments:
        current: protective current, mA.
        time: time between haul-outs, days.
        alloy: "zinc" or "aluminium" (with indium and zinc).

    Raises `OutOfRange` outside.

    Source: capacities: zinc at least 780 Ah/kg, Borna Godaz, Zinc anode; aluminium at least 757 Ah/lb, US Navy
    report AD0729252 (1971). Both are floors, so an anode may last longer.
    85 % of an anode is used (common practice).

    >>> round(anode_mass(100.0, 276.0), 1)
    1.0
    """
    require_positive(current=current, time=time)
    capacity = choose("alloy", alloy, ANODE_CAPACITIES)
    return current / 1000 * time * 24 / (capacity * ANODE_UTILISATION)


@formula(mass="kilogram", current="milliampere", alloy=TEXT, returns="day")
def anode_life(mass: float, current: float, alloy: str = "zinc") -> float:
    """Return the days that an anode lasts at a steady current.

    Arguments:
        mass: mass of the anode, kg.
        current: protective current, mA.
        alloy: "zinc" or "aluminium".

    Raises `OutOfRange` outside.

    Source: as `anode_mass`.

    >>> round(anode_life(1.0, 100.0))
    276
    """
    require_positive(mass=mass)
    return mass / anode_mass(current, 1.0, alloy)


@formula(working_diodes=NUMBER, returns="volt")
def galvanic_isolator_reading(working_diodes: float = 2.0) -> float:
    """Return what a meter's diode test shows across a disconnected galvanic isolator, in V.

    The reading climbs to it slowly if there is a capacitor. More than 1 V and climbing means an open isolator:
    the boat has no shore earth.

    Arguments:
        working_diodes: diodes in series that work: 2 in a sound isolator, 1 or 0 with diodes shorted.

    Raises `OutOfRange` for another number.

    Source: two isolator sellers' test pages: 0.9 V sound, 0.45 V one diode shorted, 0 V both. Other makers
    give 1 V, or a threshold of 1.4 V.

    >>> galvanic_isolator_reading()
    0.9
    """
    if working_diodes not in (0, 1, 2):
        raise OutOfRange(f"working diodes is {working_diodes:g}; known: 0, 1, 2")
    return working_diodes * DIODE_READING
