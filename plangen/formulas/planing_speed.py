"""Speed of hulls that plane, by Crouch's method."""

from __future__ import annotations

from plangen.formulas.declare import NUMBER, formula, require_positive, require_within


@formula(shaft_power="horsepower", displacement="pound", hull_constant=NUMBER, returns="knot")
def planing_speed(shaft_power: float, displacement: float, hull_constant: float = 190.0) -> float:
    """Return the greatest speed in knots of a planing hull (Crouch).

    Arguments:
        shaft_power: power that reaches the propellers, hp.
        displacement: weight with the fuel, water and people of the run, lb.
        hull_constant: constant for knots: 150 average runabout, 190 light fast cruiser, 210 race type, 220
            stepped hydroplane, 230 racing catamaran. Constants for statute miles are 1.15 times larger.

    Valid for constants from 130 to 235. Raises `OutOfRange` outside and for values not above zero.

    Source: speed = constant x square root of (hp / lb), Crouch speed calculator, continuouswave.com, read; its
    table for miles per hour (172, 218, 240, 253, 265) divided by 1.1508.

    >>> round(planing_speed(600.0, 10000.0, 150.0), 1)
    36.7
    """
    require_positive(shaft_power=shaft_power, displacement=displacement)
    require_within("hull_constant", hull_constant, 130.0, 235.0)
    return float(hull_constant * (shaft_power / displacement) ** 0.5)
