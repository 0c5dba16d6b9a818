"""Speed of hulls that plane, by Crouch's method."""

from __future__ import annotations

from plangen.formulas.declare import NUMBER, OutOfRange, formula, require_positive, require_within
from plangen.formulas.displacement_speed import speed_length_ratio

#: Below this speed/length ratio a hull is not fully planing.
_PLANING_RATIO = 2.5


@formula(
    shaft_power="horsepower",
    displacement="pound",
    length_waterline="foot",
    hull_constant=NUMBER,
    returns="knot",
)
def planing_speed(
    shaft_power: float, displacement: float, length_waterline: float, hull_constant: float = 150.0
) -> float:
    """Return the greatest speed in knots of a fully planing hull (Crouch).

    Arguments:
        shaft_power: power that reaches the propellers, hp.
        displacement: weight with the fuel, water and people of the run, lb.
        length_waterline: waterline length, ft; only to check that the hull planes at the result.
        hull_constant: constant for knots: 150 cruiser or average runabout, 190 light fast cruiser, 210 race
            type, 220 stepped hydroplane, 230 racing catamaran. Constants for statute miles are 1.15 times
            larger.

    Valid where the result is at least 2.5 times the square root of the waterline in feet; below it, and for a
    constant outside 130 to 235, raises `OutOfRange`.

    Source: speed = constant x square root of (hp / lb), a published speed calculator with the table of
    constants for miles per hour (172, 218, 240, 253, 265), page read; the constants for knots are these
    divided by 1.1508.

    >>> round(planing_speed(600.0, 10000.0, 30.0), 1)
    36.7
    """
    require_positive(shaft_power=shaft_power, displacement=displacement)
    require_within("hull_constant", hull_constant, 130.0, 235.0)
    speed = float(hull_constant * (shaft_power / displacement) ** 0.5)
    ratio = speed_length_ratio(speed, length_waterline)
    if ratio < _PLANING_RATIO:
        raise OutOfRange(
            f"the hull would not plane: {speed:.1f} kn is a speed/length ratio of {ratio:.2f}, "
            f"below {_PLANING_RATIO:g}"
        )
    return speed
