"""Moist air at sea level: humidity ratio, enthalpy, dew point and wet bulb."""

from __future__ import annotations

import math

from plangen.formulas.declare import formula, require_within

ATMOSPHERE = 101325.0


def saturation_vapour_pressure(temperature: float) -> float:
    """Return the saturation pressure of water vapour over liquid water in Pa.

    Arguments:
        temperature: °C, 0 to 100.

    Raises `OutOfRange` outside.

    Source: Hyland and Wexler (1983) as printed in a humidity transmitter's user guide and in the ASHRAE
    Handbook of Fundamentals, Psychrometrics.

    >>> round(saturation_vapour_pressure(20.0))
    2339
    """
    require_within("temperature", temperature, 0.0, 100.0)
    t = temperature + 273.15
    log = (
        -5.8002206e3 / t
        + 1.3914993
        - 4.8640239e-2 * t
        + 4.1764768e-5 * t * t
        - 1.4452093e-8 * t**3
        + 6.5459673 * math.log(t)
    )
    return math.exp(log)


def humidity_ratio(temperature: float, relative_humidity: float) -> float:
    """Return the kilograms of water vapour per kilogram of dry air.

    Arguments:
        temperature: dry bulb, °C, 0 to 60.
        relative_humidity: percent, 0 to 100.

    Raises `OutOfRange` outside.

    Source: ASHRAE Handbook of Fundamentals, Psychrometrics: W = 0.621945 pw / (p - pw).

    >>> round(humidity_ratio(25.0, 50.0), 4)
    0.0099
    """
    require_within("temperature", temperature, 0.0, 60.0)
    require_within("relative_humidity", relative_humidity, 0.0, 100.0)
    vapour = relative_humidity / 100.0 * saturation_vapour_pressure(temperature)
    return 0.621945 * vapour / (ATMOSPHERE - vapour)


def moist_air_enthalpy(temperature: float, ratio: float) -> float:
    """Return the enthalpy of moist air in kJ per kilogram of dry air.

    Arguments:
        temperature: dry bulb, °C.
        ratio: humidity ratio, kg/kg.

    Source: ASHRAE Handbook of Fundamentals, Psychrometrics: h = 1.006 t + W (2501 + 1.86 t).

    >>> round(moist_air_enthalpy(25.0, 0.00988), 1)
    50.3
    """
    return 1.006 * temperature + ratio * (2501.0 + 1.86 * temperature)


def moist_air_volume(temperature: float, ratio: float) -> float:
    """Return the volume of moist air in m3 per kilogram of dry air.

    Arguments:
        temperature: dry bulb, °C.
        ratio: humidity ratio, kg/kg.

    Source: ASHRAE Handbook of Fundamentals, Psychrometrics: v = 287.042 T (1 + 1.607858 W) / p.

    >>> round(moist_air_volume(25.0, 0.00988), 3)
    0.858
    """
    return 287.042 * (temperature + 273.15) * (1.0 + 1.607858 * ratio) / ATMOSPHERE


@formula(temperature="degC", relative_humidity="percent", returns="degC")
def dew_point(temperature: float, relative_humidity: float) -> float:
    """Return the temperature in °C below which surfaces in a cabin sweat.

    Arguments:
        temperature: of the air, °C, 0 to 60.
        relative_humidity: percent; the dew point must not lie below 0 °C.

    Raises `OutOfRange` outside.

    Source: Hyland and Wexler (1983) saturation pressure, solved for the temperature.

    >>> round(dew_point(25.0, 50.0), 1)
    13.9
    """
    require_within("temperature", temperature, 0.0, 60.0)
    require_within("relative_humidity", relative_humidity, 0.0, 100.0)
    vapour = relative_humidity / 100.0 * saturation_vapour_pressure(temperature)
    require_within("vapour pressure in Pa", vapour, saturation_vapour_pressure(0.0), 20000.0)
    low, high = 0.0, temperature
    for _ in range(60):
        middle = (low + high) / 2.0
        if saturation_vapour_pressure(middle) < vapour:
            low = middle
        else:
            high = middle
    return (low + high) / 2.0


@formula(temperature="degC", relative_humidity="percent", returns="degC")
def wet_bulb_temperature(temperature: float, relative_humidity: float) -> float:
    """Return the thermodynamic wet-bulb temperature in °C at sea level.

    Arguments:
        temperature: dry bulb, °C, 5 to 60.
        relative_humidity: percent, 5 to 100; the wet bulb must not lie below 0 °C.

    Raises `OutOfRange` outside.

    Source: ASHRAE Handbook of Fundamentals, Psychrometrics, equation for the humidity ratio from the wet bulb
    above freezing.

    >>> round(wet_bulb_temperature(25.0, 50.0), 1)
    17.9
    """
    require_within("temperature", temperature, 5.0, 60.0)
    require_within("relative_humidity", relative_humidity, 5.0, 100.0)
    ratio = humidity_ratio(temperature, relative_humidity)

    def ratio_of(wet: float) -> float:
        saturated = humidity_ratio(wet, 100.0)
        return ((2501.0 - 2.326 * wet) * saturated - 1.006 * (temperature - wet)) / (
            2501.0 + 1.86 * temperature - 4.186 * wet
        )

    require_within("humidity ratio", ratio, ratio_of(0.0), 1.0)
    low, high = 0.0, temperature
    for _ in range(60):
        middle = (low + high) / 2.0
        if ratio_of(middle) < ratio:
            low = middle
        else:
            high = middle
    return (low + high) / 2.0
