"""Speed and power of hulls that are carried by displacement."""

from __future__ import annotations

from plangen.formulas.declare import NUMBER, formula, require_positive, require_within

#: Pounds per shaft horsepower are divided out of this constant to give knots per square root of a foot.
_POWER_CONSTANT = 10.665
#: The relation of power to speed is given up to this speed/length ratio.
_HIGHEST_RATIO = 2.9


@formula(length_waterline="foot", speed_length_ratio=NUMBER, returns="knot")
def hull_speed(length_waterline: float, speed_length_ratio: float = 1.34) -> float:
    """Return the speed in knots at which a displacement hull's own wave is as long as her waterline.

    Arguments:
        length_waterline: waterline length, ft.
        speed_length_ratio: knots per square root of a foot; 1.34 for a displacement hull of usual fineness.

    A guide and not a wall: light, slender and semi-displacement hulls exceed it. Valid for speed/length
    ratios from 0.5 to 3. Raises `OutOfRange` outside and for lengths not above zero.

    Source: deep-water wave theory, wave length = 2 pi v^2 / g, which gives 1.34 in knots and feet.

    A published note on hull speed gives 30 kn for 500 ft:

    >>> round(hull_speed(500.0))
    30
    """
    require_positive(length_waterline=length_waterline)
    require_within("speed_length_ratio", speed_length_ratio, 0.5, 3.0)
    return float(speed_length_ratio * length_waterline**0.5)


@formula(displacement="pound", shaft_power="horsepower", length_waterline="foot", returns="knot")
def displacement_speed(displacement: float, shaft_power: float, length_waterline: float) -> float:
    """Return the speed in knots that a power at the propeller gives a displacement or semi-displacement hull.

    Arguments:
        displacement: loaded displacement, lb.
        shaft_power: power that reaches the propellers, hp (brake power less about 6 % of losses).
        length_waterline: waterline length, ft.

    The formula overstates the power that an easily driven, slender hull needs. Valid up to a speed/length
    ratio of 2.9. Raises `OutOfRange` above it and for values not above zero.

    Source: speed/length ratio = 10.665 / cube root of (lb / hp), Surfprop propeller sheet,
    electricboats.co.uk, page read.

    Its printed case, 42 hp at the propeller of a hull of 10,000 lb, has a ratio of 1.72:

    >>> round(displacement_speed(10000.0, 42.0, 100.0) / 100.0**0.5, 2)
    1.72
    """
    require_positive(displacement=displacement, shaft_power=shaft_power, length_waterline=length_waterline)
    ratio = _POWER_CONSTANT / (displacement / shaft_power) ** (1.0 / 3.0)
    require_within("speed_length_ratio_reached", ratio, 0.0, _HIGHEST_RATIO)
    return float(ratio * length_waterline**0.5)


@formula(speed="metre/second", length_waterline="metre", returns=NUMBER)
def froude_number(speed: float, length_waterline: float) -> float:
    """Return the Froude number of a hull from her speed and waterline length.

    Arguments:
        speed: greatest speed, m/s.
        length_waterline: waterline length, m.

    Uses the acceleration of 9.8 m/s^2 that the recreational craft rules fix; the true value changes the
    result by less than 0.1 %. Raises `OutOfRange` for values not above zero.

    Source: Recreational Craft Regulations 2017 (SI 2017/737) Schedule 1 Part C 1.3.

    >>> round(froude_number(4.115, 12.0), 2)
    0.38
    """
    require_positive(speed=speed, length_waterline=length_waterline)
    return float(speed / (9.8 * length_waterline) ** 0.5)
