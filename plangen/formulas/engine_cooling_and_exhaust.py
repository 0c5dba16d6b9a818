"""Raw water through the engine, and the back pressure that its exhaust may have."""

from __future__ import annotations

from plangen.formulas.declare import TEXT, formula, require_positive, require_within
from plangen.formulas.vocabulary import choose

#: Least published flow in litres per minute for each 100 brake horsepower at the rated speed.
_RAW_WATER_FLOW = {"heat exchanger": 65.0, "direct": 36.0}
#: Guide limit in inches of mercury.
_BACK_PRESSURE_LIMIT = {"natural": 2.5, "turbocharged": 2.0}
#: Heat in kilojoules that one litre of sea water at 15 degrees Celsius takes up for each kelvin.
_SEA_WATER_HEAT = 1.026 * 3.993


@formula(
    power="horsepower",
    cooling=TEXT,
    engine_speed="revolutions_per_minute",
    rated_speed="revolutions_per_minute",
    returns="litre/minute",
)
def raw_water_flow(power: float, cooling: str, engine_speed: float, rated_speed: float) -> float:
    """Return the least raw-water flow in litres per minute to expect at an engine speed.

    Arguments:
        power: rated power of the engine, hp.
        cooling: "heat exchanger" or "direct".
        engine_speed: engine speed at which the flow is measured, rev/min.
        rated_speed: engine speed of the rating, rev/min.

    An impeller pump's flow follows its speed. Published are 65 to 70 L/min for each 100 hp with a heat
    exchanger and 36 to 39 direct; the lower figure is returned. Valid for engine speeds up to 110 % of the
    rated speed. Raises `OutOfRange` above, for another word and for values not above zero.

    Source: WMJ Marine, engine cooling pumps, page read; the unit of time isn't printed there, a
    minute is meant.

    >>> round(raw_water_flow(100.0, "heat exchanger", 3000.0, 3000.0))
    65
    """
    require_positive(power=power, engine_speed=engine_speed, rated_speed=rated_speed)
    require_within("engine_speed_over_rated_speed", engine_speed / rated_speed, 0.0, 1.1)
    return float(choose("cooling", cooling, _RAW_WATER_FLOW) * power / 100.0 * engine_speed / rated_speed)


@formula(aspiration=TEXT, returns="inHg")
def exhaust_back_pressure_limit(aspiration: str) -> float:
    """Return the guide limit of exhaust back pressure at full load, inches of mercury.

    Arguments:
        aspiration: "natural" or "turbocharged".

    Makers publish 1.5 to 4.4 inches of mercury: the maker's figure always comes first. Raises
    `OutOfRange` for another word.

    Source: Dave Gerr, Boat Mechanical Systems Handbook, ch. 7, page read.

    >>> exhaust_back_pressure_limit("turbocharged")
    2.0
    """
    return choose("aspiration", aspiration, _BACK_PRESSURE_LIMIT)
