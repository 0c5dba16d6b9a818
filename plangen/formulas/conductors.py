"""Copper conductors: size by gauge and area, voltage drop, allowable current."""

from __future__ import annotations

import math

from plangen.formulas.declare import TEXT, OutOfRange, formula, require_positive, require_within
from plangen.formulas.vocabulary import choose, choose_listed

#: Ohms of a copper conductor one foot long and one circular mil in area, as ABYC E-11 uses it.
OHMS_PER_MIL_FOOT = 10.75
#: One circular mil in square millimetres.
SQUARE_MILLIMETRES_PER_CIRCULAR_MIL = math.pi / 4 * 0.0254**2
#: The same constant in ohm mm²/m; it is the resistivity of annealed copper at about 30 °C.
RESISTIVITY_30 = OHMS_PER_MIL_FOOT * SQUARE_MILLIMETRES_PER_CIRCULAR_MIL / 0.3048
#: Temperature at which the resistance of copper would reach zero if it fell in a straight line, °C.
COPPER_ZERO = -234.5

#: American wire gauges from thin to thick, by number; 0, -1, -2 and -3 are 0, 00, 000 and 0000.
GAUGES = {
    "18": 18, "16": 16, "14": 14, "12": 12, "10": 10, "8": 8, "6": 6, "4": 4, "3": 3, "2": 2, "1": 1,
    "0": 0, "00": -1, "000": -2, "0000": -3,
}  # fmt: skip
#: Other ways to write the four thickest.
GAUGE_SPELLINGS = {"1/0": "0", "2/0": "00", "3/0": "000", "4/0": "0000"}

#: 33 CFR 183.425 Table 5: amperes by gauge, in columns of insulation temperature, °C.
INSULATION_TEMPERATURES = (60.0, 75.0, 80.0, 90.0, 105.0, 125.0, 200.0)
ALLOWABLE_CURRENTS = {
    "18": (10, 10, 15, 20, 20, 25, 25),
    "16": (15, 15, 20, 25, 25, 30, 35),
    "14": (20, 20, 25, 30, 35, 40, 45),
    "12": (25, 25, 35, 40, 45, 50, 55),
    "10": (40, 40, 50, 55, 60, 70, 70),
    "8": (55, 65, 70, 70, 80, 90, 100),
    "6": (80, 95, 100, 100, 120, 125, 135),
    "4": (105, 125, 130, 135, 160, 170, 180),
    "3": (120, 145, 150, 155, 180, 195, 210),
    "2": (140, 170, 175, 180, 210, 225, 240),
    "1": (165, 195, 210, 210, 245, 265, 280),
    "0": (195, 230, 245, 245, 285, 305, 325),
    "00": (225, 265, 285, 285, 330, 355, 370),
    "000": (260, 310, 330, 330, 385, 410, 430),
    "0000": (300, 360, 385, 385, 445, 475, 510),
}
#: Note 1 of the same table: factor in an engine space at 50 °C, by insulation temperature.
ENGINE_SPACE_FACTORS = {60.0: 0.58, 75.0: 0.75, 80.0: 0.78, 90.0: 0.82, 105.0: 0.85, 125.0: 0.89}
#: Standard ratings of fuses and breakers, A.
STANDARD_RATINGS = (
    1, 3, 6, 10, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450, 500, 600,
    700, 800, 1000,
)  # fmt: skip
SPACES = {"engine space": True, "elsewhere": False}

#: Nominal areas that IEC 60228 lists, mm², with the greatest resistance of flexible plain copper (class 5)
#: at 20 °C, ohm/km.
FLEXIBLE_RESISTANCES = {
    0.75: 26.0, 1.0: 19.5, 1.5: 13.3, 2.5: 7.98, 4.0: 4.95, 6.0: 3.30, 10.0: 1.91, 16.0: 1.21, 25.0: 0.780,
    35.0: 0.554, 50.0: 0.386, 70.0: 0.272, 95.0: 0.206, 120.0: 0.161, 150.0: 0.129,
}  # fmt: skip


def resistance_ratio(temperature: float, reference: float) -> float:
    """Return the resistance of copper at a temperature over that at a reference, both in °C.

    Source: annealed copper, 0.393 % of its resistance at 20 °C per °C, so 254.5/(234.5 + T) to that
    reference; the table of IEC 60228 agrees to 0.3 %.

    >>> round(resistance_ratio(60.0, 20.0), 2)
    1.16
    """
    return (temperature - COPPER_ZERO) / (reference - COPPER_ZERO)


@formula(gauge=TEXT, returns="millimetre**2")
def gauge_area(gauge: str) -> float:
    """Return the area of an American wire gauge in mm².

    Arguments:
        gauge: "18" to "1", then "0" to "0000", or "1/0" to "4/0".

    Raises `OutOfRange` for any other gauge.

    Source: the gauge's definition, 0.127 mm x 92^((36 - n)/39) in diameter (ASTM B258, from memory).

    12 AWG is 6530 circular mils, 3.31 mm²:

    >>> round(gauge_area("12"), 2)
    3.31
    """
    number = choose("gauge", GAUGE_SPELLINGS.get(gauge, gauge), GAUGES)
    diameter = 0.127 * 92.0 ** ((36 - number) / 39)
    return float(math.pi / 4 * diameter**2)


@formula(area="millimetre**2", insulation_temperature="degC", space=TEXT, returns="ampere")
def allowable_current(area: float, insulation_temperature: float = 105.0, space: str = "elsewhere") -> float:
    """Return the greatest continuous current in A that a copper conductor below 50 V may carry.

    A metric conductor is given the row of the next thinner gauge, so it is never given too much.

    Arguments:
        area: conductor area, mm², from 0.82 (18 AWG) to 120; thicker than 0000 counts as 0000.
        insulation_temperature: rating of the insulation, 60, 75, 80, 90, 105, 125 or 200 °C.
        space: "engine space" (taken at 50 °C) or "elsewhere" (30 °C).

    Raises `OutOfRange` for thinner conductors, other temperatures, and for 200 °C insulation in an engine
    space, whose factor wasn't read.

    Source: 33 CFR 183.425 Table 5. The engine-space factors are its note 1: 0.85 at 105 °C was read, the
    others are from memory and agree with the heat balance sqrt((T - 50)/(T - 30)) to 0.01.

    10 AWG with 105 °C insulation carries 60 A, and 51 A in an engine space:

    >>> allowable_current(5.26)
    60.0
    >>> allowable_current(5.26, 105.0, "engine space")
    51.0
    """
    require_within("area", area, 0.82, 120.0)
    rating = choose_listed("insulation temperature", insulation_temperature, INSULATION_TEMPERATURES)
    in_engine_space = choose("space", space, SPACES)
    gauge = [name for name in GAUGES if gauge_area(name) <= area * 1.005][-1]
    current = float(ALLOWABLE_CURRENTS[gauge][INSULATION_TEMPERATURES.index(rating)])
    if not in_engine_space:
        return current
    if rating not in ENGINE_SPACE_FACTORS:
        raise OutOfRange("no engine-space factor is known for 200 °C insulation")
    return current * ENGINE_SPACE_FACTORS[rating]


@formula(allowable_current="ampere", returns="ampere")
def standard_rating_above(allowable_current: float) -> float:
    """Return the smallest standard rating in A of a fuse or breaker that isn't below a conductor's current.

    Arguments:
        allowable_current: allowable current of the conductor, A, 1 to 1000.

    Raises `OutOfRange` outside.

    Source: standard ratings of NFPA 70 (NEC) 240.6(A), from memory; ABYC E-11 as a retailer sums it up lets the
    next standard rating above the conductor's stand in for its own, up to 150 %.

    385 A lies between the standard ratings 350 and 400 A:

    >>> standard_rating_above(385.0)
    400.0
    """
    require_within("allowable_current", allowable_current, 1.0, 1000.0)
    return next(float(rating) for rating in STANDARD_RATINGS if rating >= allowable_current)


@formula(area="millimetre**2", length="metre", temperature="degC", returns="ohm")
def conductor_resistance(area: float, length: float, temperature: float = 20.0) -> float:
    """Return the greatest resistance in ohm of a flexible copper conductor of a standard metric area.

    Arguments:
        area: nominal area, mm², one of the areas of IEC 60228 from 0.75 to 150.
        length: length of the conductor, m.
        temperature: temperature of the conductor, 0 to 105 °C.

    Raises `OutOfRange` for an area that isn't standard, a length not above zero, and other temperatures.

    Source: IEC 60228 table for class 5 plain copper, as two cable engineers' pages restate it; temperature as
    `resistance_ratio`.

    A kilometre of 2.5 mm² may have 7.98 ohm:

    >>> round(conductor_resistance(2.5, 1000.0), 2)
    7.98
    """
    nominal = choose_listed("area", area, FLEXIBLE_RESISTANCES)
    require_positive(length=length)
    require_within("temperature", temperature, 0.0, 105.0)
    return FLEXIBLE_RESISTANCES[nominal] / 1000 * length * resistance_ratio(temperature, 20.0)
