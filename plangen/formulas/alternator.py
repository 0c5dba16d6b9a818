"""Speed and output of an engine-driven alternator."""

from __future__ import annotations

from plangen.formulas.declare import NUMBER, formula, require_positive, require_within
from plangen.formulas.interpolation import interpolate

#: Hot output over the cold rating, by alternator speed, rpm: 16, 41 and 48 A of a 50 A alternator.
HOT_SHARES = ((1300.0, 16 / 50), (2500.0, 41 / 50), (5000.0, 48 / 50))


@formula(engine_speed="rpm", pulley_ratio=NUMBER, returns="rpm")
def alternator_speed(engine_speed: float, pulley_ratio: float) -> float:
    """Return the speed in rpm of an alternator, from the engine's.

    Arguments:
        engine_speed: engine speed, rpm.
        pulley_ratio: diameter of the crankshaft pulley over that of the alternator's, 1 to 4.

    Raises `OutOfRange` outside.

    Source: ratio of the pulleys' diameters, without slip.

    >>> alternator_speed(800.0, 1.78)
    1424.0
    """
    require_positive(engine_speed=engine_speed)
    require_within("pulley_ratio", pulley_ratio, 1.0, 4.0)
    return engine_speed * pulley_ratio


@formula(engine_speed="rpm", pulley_ratio=NUMBER, rated_current="ampere", returns="ampere")
def alternator_hot_output(engine_speed: float, pulley_ratio: float, rated_current: float) -> float:
    """Return the output in A to expect of a hot alternator whose own curve isn't known.

    Arguments:
        engine_speed: engine speed, rpm.
        pulley_ratio: crankshaft pulley over alternator pulley, 1 to 4.
        rated_current: cold rating, A.

    Valid for alternator speeds from 1300 rpm; above 5000 rpm, to 12 000, the output at 5000 is given.
    Raises `OutOfRange` outside. The alternator's own hot curve is better.

    Source: shape of the hot curve that a marine diesel maker's service data give for a 50 A alternator:
    16 A at 1300, 41 A at 2500 and 48 A at 5000 alternator rpm.

    That alternator's pulley ratio is 1.78; at 2000 rpm of the engine it turns at 3560:

    >>> round(alternator_hot_output(2000.0, 1.78, 50.0), 1)
    44.0
    """
    require_positive(rated_current=rated_current)
    speed = alternator_speed(engine_speed, pulley_ratio)
    require_within("alternator_speed", speed, 1300.0, 12_000.0)
    return rated_current * interpolate("alternator speed", min(speed, 5000.0), HOT_SHARES)
