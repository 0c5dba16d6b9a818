"""Anchor gear: loads, chain, windlass, scope, and the circles that a boat at anchor swings in."""

from __future__ import annotations

from plangen.formulas.declare import NUMBER, OutOfRange, formula, require_positive, require_within

_TABLE_LENGTHS = (20.0, 25.0, 30.0, 35.0, 40.0, 50.0, 60.0, 70.0)
_WORKING_LOADS = (360.0, 490.0, 700.0, 900.0, 1200.0, 1600.0, 2000.0, 2700.0)
#: Each row of the table as a multiple of the row for 30 knots, by the greatest wind speed that it covers.
_WIND_FACTORS = ((15.0, 0.25), (30.0, 1.0), (42.0, 2.0), (60.0, 4.0))
#: A length or wind that a change of unit put this little above a row still belongs to it.
_ROUNDING = 1e-6
_STEEL_DENSITY = 7850.0


@formula(length_overall="foot", wind_speed="knot", returns="pound_force")
def ground_tackle_load(length_overall: float, wind_speed: float = 30.0) -> float:
    """Return the horizontal load in pounds of force that the ground tackle is to carry.

    Arguments:
        length_overall: length overall, ft.
        wind_speed: wind speed, kn; 15 for a short stop, 30 for the working anchor, 42 for the storm anchor.

    The table's next larger length and wind are taken. Add up to a half for multihulls and high topsides.
    Valid to 70 ft and 60 kn. Raises `OutOfRange` above and for values not above zero.

    Source: American Boat and Yacht Council, H-40, horizontal loads, as printed by Waterway Guide, Loads on ground
    tackle, and Star Marine Depot (secondary).

    >>> ground_tackle_load(46.25)
    1600.0
    """
    require_positive(length_overall=length_overall, wind_speed=wind_speed)
    require_within("length_overall", length_overall, 0.0, _TABLE_LENGTHS[-1] + _ROUNDING)
    require_within("wind_speed", wind_speed, 0.0, _WIND_FACTORS[-1][0] + _ROUNDING)
    length, wind = length_overall - _ROUNDING, wind_speed - _ROUNDING
    load = next(load for limit, load in zip(_TABLE_LENGTHS, _WORKING_LOADS, strict=True) if length <= limit)
    return float(load * next(factor for limit, factor in _WIND_FACTORS if wind <= limit))


@formula(diameter="millimetre", length="metre", returns="kilogram")
def chain_mass(diameter: float, length: float) -> float:
    """Return the mass in kilograms of short-link chain.

    Arguments:
        diameter: diameter of the link's wire, mm.
        length: length of the chain, m.

    Within 5 % of suppliers' tables. Valid for 6 to 16 mm. Raises `OutOfRange` outside and for lengths not
    above zero.

    Source: 0.022 x diameter^2 for each metre, fitted to McSherry Chains' and Union Lifting's tables of DIN 766 chain.

    >>> round(chain_mass(10.0, 60.0))
    132
    """
    require_positive(length=length)
    require_within("diameter", diameter, 6.0, 16.0)
    return float(0.022 * diameter**2 * length)


@formula(mass="kilogram", water_density="kilogram/metre**3", returns="kilogram")
def steel_mass_in_water(mass: float, water_density: float = 1025.0) -> float:
    """Return what steel gear seems to weigh in water, kilograms.

    Arguments:
        mass: mass in air, kg.
        water_density: density of the water, kg/m3.

    Valid for densities from 990 to 1,040. Raises `OutOfRange` outside and for masses not above zero.

    Source: buoyancy of steel of 7,850 kg/m3.

    >>> round(steel_mass_in_water(132.0))
    115
    """
    require_positive(mass=mass)
    require_within("water_density", water_density, 990.0, 1040.0)
    return float(mass * (1.0 - water_density / _STEEL_DENSITY))


@formula(anchor_mass="kilogram", rode_mass="kilogram", factor=NUMBER, returns="kilogram_force")
def windlass_pull(anchor_mass: float, rode_mass: float, factor: float = 3.0) -> float:
    """Return the greatest pull in kilograms of force that a windlass needs.

    Arguments:
        anchor_mass: mass of the anchor, kg.
        rode_mass: mass of all chain and rope, kg.
        factor: multiple of the whole weight; 3, or 4 for hard use.

    Valid for factors from 1 to 5. Raises `OutOfRange` outside and for masses not above zero.

    Source: Maxwell Marine, RC12 manual, safety page, three times the combined weight, page read.

    Garlway's example, an anchor of 50 and chain of 200, needs 750:

    >>> windlass_pull(50.0, 200.0)
    750.0
    """
    require_positive(anchor_mass=anchor_mass, rode_mass=rode_mass)
    require_within("factor", factor, 1.0, 5.0)
    return float(factor * (anchor_mass + rode_mass))


@formula(pull="newton", line_speed="metre/second", voltage="volt", current="ampere", returns="percent")
def windlass_efficiency(pull: float, line_speed: float, voltage: float, current: float) -> float:
    """Return the part in percent of its electrical power that a windlass turns into hoisting.

    Arguments:
        pull: weight hoisted, N.
        line_speed: speed of the chain, m/s.
        voltage: voltage at the motor under load, V.
        current: current under load, A.

    30 to 75 % is usual; more than 100 means a wrong reading or rating and raises `OutOfRange`, as values not
    above zero do.

    Source: mechanical over electrical power; the usual band is common practice.

    >>> round(windlass_efficiency(706.0, 0.30, 12.0, 25.0))
    71
    """
    require_positive(pull=pull, line_speed=line_speed, voltage=voltage, current=current)
    efficiency = float(100.0 * pull * line_speed / (voltage * current))
    if efficiency > 100.0:
        raise OutOfRange(
            f"the windlass would give {efficiency:.0f} % of the power that it takes; check the readings"
        )
    return efficiency


@formula(depth="metre", bow_height="metre", scope=NUMBER, returns="metre")
def rode_for_scope(depth: float, bow_height: float, scope: float = 5.0) -> float:
    """Return the length of rode in metres to veer for a scope.

    Arguments:
        depth: depth at high water, m.
        bow_height: height of the bow roller above the water, m.
        scope: rode over the height of the roller above the bottom.

    Valid for scopes from 2 to 12 and roller heights from 0 to 5 m. Raises `OutOfRange` outside and for depths
    not above zero.

    Source: definition of scope.

    A case in the Trawler Forum, 10 ft of depth and 5 ft to the bow at 5 : 1, veers 75 ft (22.86 m):

    >>> round(rode_for_scope(3.048, 1.524), 2)
    22.86
    """
    require_positive(depth=depth)
    require_within("bow_height", bow_height, 0.0, 5.0)
    require_within("scope", scope, 2.0, 12.0)
    return float(scope * (depth + bow_height))


def _horizontal_reach(rode: float, depth: float, bow_height: float) -> float:
    """Return the distance over the bottom from the anchor to the bow with the rode straight, in metres."""
    require_positive(rode=rode)
    require_within("depth", depth, 0.0, 200.0)
    require_within("bow_height", bow_height, 0.0, 5.0)
    if rode < depth + bow_height:
        raise OutOfRange(
            f"rode is {rode:g} m, shorter than the {depth + bow_height:g} m from the roller to the bottom"
        )
    return float((rode**2 - (depth + bow_height) ** 2) ** 0.5)


@formula(rode="metre", depth="metre", bow_height="metre", length_overall="metre", returns="metre")
def swing_radius(rode: float, depth: float, bow_height: float, length_overall: float) -> float:
    """Return the radius in metres of the circle that a boat at anchor needs.

    Arguments:
        rode: rode veered, m.
        depth: depth at low water, m.
        bow_height: height of the bow roller above the water, m.
        length_overall: length from the bow roller to the stern, m.

    Raises `OutOfRange` for a rode shorter than the depth, and lengths not above zero.

    Source: Sailing USA, Swinging radius; Marine Gyaan, Anchor swinging circle; pages read.

    The second page's example leaves the depth out, 165 m of cable and 100 m of ship:

    >>> swing_radius(165.0, 0.0, 0.0, 100.0)
    265.0
    """
    require_positive(length_overall=length_overall)
    return _horizontal_reach(rode, depth, bow_height) + length_overall


@formula(
    rode="metre",
    depth="metre",
    bow_height="metre",
    antenna_distance="metre",
    position_error="metre",
    margin="metre",
    returns="metre",
)
def anchor_watch_radius(
    rode: float,
    depth: float,
    bow_height: float,
    antenna_distance: float,
    position_error: float = 5.0,
    margin: float = 0.0,
) -> float:
    """Return the radius in metres at which to set the anchor alarm around the place where the anchor lies.

    Arguments:
        rode: rode veered, m.
        depth: depth at low water, m.
        bow_height: height of the bow roller above the water, m.
        antenna_distance: distance from the bow roller to the positioning antenna, m; the length overall if
            unknown.
        position_error: 95 % error of the position, m; 5 for a good receiver, 10 to 15 for a telephone.
        margin: addition against false alarms, m.

    The centre is where the anchor was let go, marked at the bow. Raises `OutOfRange` for a rode shorter than
    the depth and for negative values.

    Source: SailGrib, How do I set the swing radius; Anchor Knight, Anchor watch radius; pages read.

    SailGrib's example leaves the depth out, 30 m of chain, a boat of 10 m and 10 m of error:

    >>> anchor_watch_radius(30.0, 0.0, 0.0, 10.0, 10.0)
    50.0
    """
    for name, value in (
        ("antenna_distance", antenna_distance),
        ("position_error", position_error),
        ("margin", margin),
    ):
        require_within(name, value, 0.0, 100.0)
    return _horizontal_reach(rode, depth, bow_height) + antenna_distance + position_error + margin
