"""Moist air: saturation pressure of water vapour and the dew point."""

from __future__ import annotations

import math

from plangen.formulas.declare import formula, require_within


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
