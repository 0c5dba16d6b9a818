"""The propeller: theoretical speed, apparent slip, and the power that it takes at part speed."""

from __future__ import annotations

from plangen.formulas.declare import NUMBER, formula, require_positive, require_within

_INCHES_PER_NAUTICAL_MILE = 1852.0 / 0.0254


@formula(engine_speed="revolutions_per_minute", gear_ratio=NUMBER, returns="revolutions_per_minute")
def shaft_speed(engine_speed: float, gear_ratio: float) -> float:
    """Return the speed in revolutions per minute of the propeller shaft.

    Arguments:
        engine_speed: engine speed, rev/min.
        gear_ratio: engine revolutions for one of the shaft, such as 2.6; 0.5 to 10.

    Raises `OutOfRange` for values not above zero and for ratios above 10.

    Source: definition of the gear ratio.

    A published slip example turns the shaft at 3,200 rev/min from 4,800 rev/min with 1.5 : 1:

    >>> shaft_speed(4800.0, 1.5)
    3200.0
    """
    require_positive(engine_speed=engine_speed, gear_ratio=gear_ratio)
    require_within("gear_ratio", gear_ratio, 0.5, 10.0)
    return float(engine_speed / gear_ratio)


@formula(pitch="inch", engine_speed="revolutions_per_minute", gear_ratio=NUMBER, returns="knot")
def theoretical_propeller_speed(pitch: float, engine_speed: float, gear_ratio: float) -> float:
    """Return the speed in knots at which the propeller would advance without slip.

    Arguments:
        pitch: propeller pitch, in.
        engine_speed: engine speed, rev/min.
        gear_ratio: engine revolutions for one of the shaft.

    Raises `OutOfRange` for values not above zero.

    Source: pitch x shaft revolutions; the trade's form, miles per hour = in x rev/min / 1,056, is the same.

    A published slip example, 20 in at 4,800 rev/min and 1.5 : 1, prints 61 mph (53 kn):

    >>> round(theoretical_propeller_speed(20.0, 4800.0, 1.5), 1)
    52.7
    """
    require_positive(pitch=pitch)
    return float(pitch * shaft_speed(engine_speed, gear_ratio) * 60.0 / _INCHES_PER_NAUTICAL_MILE)


@formula(boat_speed="knot", theoretical_speed="knot", returns="percent")
def apparent_slip(boat_speed: float, theoretical_speed: float) -> float:
    """Return the apparent slip of the propeller in percent.

    Arguments:
        boat_speed: speed through the water, kn: the mean of reciprocal runs, never one run over the ground.
        theoretical_speed: speed of advance without slip, kn.

    A negative result means a wrong pitch, ratio or revolution counter, or a cupped blade. Raises `OutOfRange`
    for values not above zero.

    Source: definition, 1 - boat speed / theoretical speed.

    A published example, 55 mph (47.8 kn) of 61 mph (53.0 kn), prints 10 %:

    >>> round(apparent_slip(47.8, 53.0))
    10
    """
    require_positive(boat_speed=boat_speed, theoretical_speed=theoretical_speed)
    return float(100.0 * (1.0 - boat_speed / theoretical_speed))


@formula(
    rated_power="kilowatt",
    engine_speed="revolutions_per_minute",
    rated_speed="revolutions_per_minute",
    exponent=NUMBER,
    returns="kilowatt",
)
def propeller_law_power(
    rated_power: float, engine_speed: float, rated_speed: float, exponent: float = 2.7
) -> float:
    """Return the power in kilowatts that a rightly sized propeller takes at an engine speed.

    Arguments:
        rated_power: power at the rated speed, kW.
        engine_speed: engine speed, rev/min.
        rated_speed: engine speed of the rating, rev/min.
        exponent: 3 for a heavy displacement hull, 2.7 for most pleasure boats, 2.2 at the least.

    Valid for engine speeds from 20 to 110 % of the rated speed and exponents from 2 to 3.2. Raises
    `OutOfRange` outside.

    Source: propeller load = constant x revolutions^exponent, a fuel flow meter maker's installation manual,
    page read (2.2 to about 3, most commonly 2.7).

    With an exponent of 3 half the power is taken at about 80 % of the speed, as the trade says:

    >>> round(propeller_law_power(40.0, 2400.0, 3000.0, 3.0), 1)
    20.5
    """
    require_positive(rated_power=rated_power, engine_speed=engine_speed, rated_speed=rated_speed)
    require_within("engine_speed_over_rated_speed", engine_speed / rated_speed, 0.2, 1.1)
    require_within("exponent", exponent, 2.0, 3.2)
    return float(rated_power * (engine_speed / rated_speed) ** exponent)
