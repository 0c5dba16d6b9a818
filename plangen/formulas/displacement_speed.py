"""Speed of hulls that are carried by displacement."""

from __future__ import annotations

from plangen.formulas.declare import NUMBER, formula, require_positive, require_within


@formula(length_waterline="foot", speed_length_ratio=NUMBER, returns="knot")
def hull_speed(length_waterline: float, speed_length_ratio: float = 1.34) -> float:
    """Return the speed in knots at which a displacement hull's own wave is as long as her waterline.

    Arguments:
        length_waterline: waterline length, ft.
        speed_length_ratio: knots per square root of a foot; 1.34 for a displacement hull of usual fineness.

    Valid for speed/length ratios from 0.5 to 3. Raises `OutOfRange` outside and for lengths not above zero.

    Source: deep-water wave theory, wave length = 2 pi v^2 / g, which gives 1.34 in knots and feet.

    A wave of 1.34 times the square root of 36 ft travels at 8.04 kn:

    >>> round(hull_speed(36.0), 2)
    8.04
    """
    require_positive(length_waterline=length_waterline)
    require_within("speed_length_ratio", speed_length_ratio, 0.5, 3.0)
    return float(speed_length_ratio * length_waterline**0.5)
