"""Speed under power of every kind of hull, and how far published boats scatter about it."""

from __future__ import annotations

from plangen.formulas.declare import NUMBER, TEXT, OutOfRange, formula, require_positive, require_within
from plangen.formulas.displacement_speed import displacement_speed
from plangen.formulas.interpolation import interpolate
from plangen.formulas.planing_speed import planing_speed
from plangen.formulas.propeller import propeller_law_power
from plangen.formulas.vocabulary import choose

#: Share of the brake power that reaches the propeller.
_SHAFT_SHARE = 0.94
#: Speed/length ratio over the cube root of shaft horsepower for each 1,000 lb, by speed/length ratio.
_RATIO_FACTORS = (
    (0.84, 1.61), (1.01, 1.53), (1.18, 1.43), (1.26, 1.33), (1.34, 1.21), (1.43, 1.11), (1.51, 1.03),
)  # fmt: skip
#: The same table as speed/length ratio by that cube root, from rest.
_RATIO_BY_POWER = ((0.0, 0.0), *((ratio / factor, ratio) for ratio, factor in _RATIO_FACTORS))
#: Crouch's constants for knots, fitted to published trials.
_CROUCH = {"motor-semi-displacement": 160.0, "motor-planing": 190.0, "motor-catamaran": 150.0}
#: Kilowatts for each tonne above which a power catamaran is taken to plane.
_PLANING_CATAMARAN = 35.0
#: Boat speed goes with this power of engine speed where a hull is lifted by her speed; fitted to published trials.
_LIFTED_EXPONENT = 1.3
_LIFTED = ("motor-planing", "motor-semi-displacement")
_SLENDER = ("sailing-catamaran", "sailing-trimaran", "motor-catamaran")
#: Per cent on either side inside which published boats lie, by kind of hull (tests/published/test_speed_under_power.py).
_SCATTER = {
    "sailing-monohull": 25.0,
    "sailing-catamaran": 20.0,
    "sailing-trimaran": 25.0,
    "motor-displacement": 20.0,
    "motor-semi-displacement": 20.0,
    "motor-planing": 20.0,
    "motor-catamaran": 20.0,
}
#: Published boats of each kind, and how many of them lie inside the scatter; counted by the test of the same name.
_PUBLISHED = {
    "sailing-monohull": (6, 5),
    "sailing-catamaran": (1, 1),
    "sailing-trimaran": (0, 0),
    "motor-displacement": (2, 2),
    "motor-semi-displacement": (4, 3),
    "motor-planing": (5, 5),
    "motor-catamaran": (2, 2),
}


def _ratio_from_power(pounds: float, shaft_horsepower: float) -> float:
    """Return the speed/length ratio of a heavy hull; beyond the table's end its last factor holds."""
    root = (1000.0 * shaft_horsepower / pounds) ** (1.0 / 3.0)
    last, ratio = _RATIO_BY_POWER[-1]
    return ratio * root / last if root > last else interpolate("power", root, _RATIO_BY_POWER)


@formula(
    hull=TEXT,
    displacement="pound",
    engine_power="horsepower",
    length_waterline="foot",
    engine_speed_share="percent",
    speed_at_rated="knot",
    returns="knot",
)
def speed_under_power(
    hull: str,
    displacement: float,
    engine_power: float,
    length_waterline: float,
    engine_speed_share: float = 100.0,
    speed_at_rated: float = 0.0,
) -> float:
    """Return the speed in knots that a hull of this kind usually makes at a share of the rated engine speed.

    Arguments:
        hull: kind of hull, in the words of the spec.
        displacement: displacement on the day of the run, lb.
        engine_power: rated power of all engines together at the crankshaft, hp.
        length_waterline: waterline length, ft.
        engine_speed_share: engine speed in per cent of the rated engine speed.
        speed_at_rated: a promised speed at rated engine speed, kn, to which the curve is scaled; 0 without one.

    Sailing monohulls and displacement motor boats: solved from the resistance of the Delft systematic yacht
    hulls, with a propulsive efficiency of 0.5 and a quarter of friction added (both assumed). Multihulls: the
    displacement formula, and Crouch's with 150 for power catamarans above 35 kW for each tonne. Semi-displacement
    and planing: Crouch's with 160 and 190, falling with engine speed to the power of 1.3; these three were fitted
    to published trials. Valid for shares from 20 to 110 %, and for hulls that are lifted by their speed from 60 %.
    Raises `OutOfRange` outside.

    Source: Yacht Hydrodynamics data set (22 hulls of the Delft series), UCI Machine Learning Repository;
    speed = constant x square root of (hp / lb), Crouch; published trials, tests/published/speed_under_power.yaml.

    A published trial: 18.1 t, 2 x 404.5 kW, 29.5 kn at full throttle:

    >>> round(speed_under_power("motor-planing", 39990.0, 1085.0, 40.0), 1)
    30.3
    """
    require_positive(displacement=displacement, engine_power=engine_power, length_waterline=length_waterline)
    require_within("engine_speed_share", engine_speed_share, 20.0, 110.0)
    share = engine_speed_share / 100.0
    choose("hull", hull, _SCATTER)
    if speed_at_rated > 0:
        part, whole = (
            speed_under_power(hull, displacement, engine_power, length_waterline, percent)
            for percent in (engine_speed_share, 100.0)
        )
        return float(speed_at_rated * part / whole)
    shaft = _SHAFT_SHARE * engine_power
    tonnes, kilowatts = displacement * 0.000453592, engine_power * 0.7457
    planes = hull in _LIFTED or (hull == "motor-catamaran" and kilowatts / tonnes > _PLANING_CATAMARAN)
    if planes:
        if share < 0.6:
            raise OutOfRange("below 60 % of the rated engine speed she has not lifted yet")
        lift = share**_LIFTED_EXPONENT
        return float(planing_speed(shaft, displacement, _CROUCH[hull]) * lift)
    taken = propeller_law_power(shaft, share, 1.0)
    if hull in _SLENDER:
        return displacement_speed(displacement, taken, length_waterline)
    return float(_ratio_from_power(displacement, taken) * length_waterline**0.5)


@formula(hull=TEXT, returns="percent")
def speed_scatter(hull: str) -> float:
    """Return how far, in per cent, published boats of a kind of hull lie from `speed_under_power`.

    Arguments:
        hull: kind of hull, in the words of the spec.

    At least four of five published points lie inside. Raises `OutOfRange` for another word.

    Source: published trials, tests/published/speed_under_power.yaml, and the same comparison over a larger set.

    >>> speed_scatter("motor-planing")
    20.0
    """
    return choose("hull", hull, _SCATTER)


@formula(hull=TEXT, returns=NUMBER)
def published_boats(hull: str) -> float:
    """Return how many boats and towing-tank hulls of a kind the published trials held against `speed_under_power` have.

    Arguments:
        hull: kind of hull, in the words of the spec.

    Raises `OutOfRange` for another word.

    Source: tests/published/speed_under_power.yaml, counted in its test.

    >>> published_boats("motor-planing")
    5.0
    """
    return float(choose("hull", hull, _PUBLISHED)[0])


@formula(hull=TEXT, returns=NUMBER)
def published_boats_inside(hull: str) -> float:
    """Return how many of the `published_boats` lie inside `speed_scatter`.

    Arguments:
        hull: kind of hull, in the words of the spec.

    Raises `OutOfRange` for another word.

    Source: tests/published/speed_under_power.yaml, counted in its test.

    >>> published_boats_inside("motor-planing")
    5.0
    """
    return float(choose("hull", hull, _PUBLISHED)[1])
