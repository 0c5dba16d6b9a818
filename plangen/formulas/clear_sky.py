"""Sunlight on a level surface at sea level under a clear sky."""

from __future__ import annotations

import math
from collections.abc import Callable
from datetime import date

from plangen.formulas.declare import DATE, NUMBER, formula, require_within

#: Mean extra-terrestrial irradiance, W/m².
SOLAR_CONSTANT = 1366.1
#: Day whose noon the sun's position is counted from.
J2000 = date(2000, 1, 1)
#: Steps of the integration over a day.
STEPS = 720


def declination(day: date) -> float:
    """Return the sun's declination in degrees at noon of a day, to 0.02 degree from 1950 to 2050.

    Source: low-precision formulas of the Astronomical Almanac, from memory.

    >>> round(declination(date(2026, 6, 21)), 1)
    23.4
    """
    days = (day - J2000).days
    anomaly = _anomaly(days)
    mean = math.radians(280.460 + 0.9856474 * days)
    longitude = mean + math.radians(1.915 * math.sin(anomaly) + 0.020 * math.sin(2 * anomaly))
    obliquity = math.radians(23.439 - 4e-7 * days)
    return math.degrees(math.asin(math.sin(obliquity) * math.sin(longitude)))


def extraterrestrial_irradiance(day: date) -> float:
    """Return the irradiance in W/m² outside the atmosphere, square to the sun, at noon of a day.

    Source: solar constant over the square of the sun's distance, by the same formulas as `declination`.

    >>> round(extraterrestrial_irradiance(date(2026, 7, 4)), -1)
    1320.0
    """
    anomaly = _anomaly((day - J2000).days)
    distance = 1.00014 - 0.01671 * math.cos(anomaly) - 0.00014 * math.cos(2 * anomaly)
    return SOLAR_CONSTANT / distance**2


@formula(day=DATE, latitude="degree", returns="degree")
def noon_sun_height(day: date, latitude: float) -> float:
    """Return the height of the sun at local noon in degrees.

    Arguments:
        day: date.
        latitude: degrees, north above zero, -90 to 90.

    Below zero the sun doesn't rise. Raises `OutOfRange` outside.

    Source: 90 degrees less the difference of latitude and declination; declination as `declination`.

    >>> round(noon_sun_height(date(2026, 6, 21), 39.5))
    74
    """
    require_within("latitude", latitude, -90.0, 90.0)
    return 90.0 - abs(latitude - declination(day))


@formula(sun_height="degree", day=DATE, turbidity=NUMBER, returns="watt/metre**2")
def hazy_sky_irradiance(sun_height: float, day: date, turbidity: float = 3.0) -> float:
    """Return the irradiance in W/m² of a level surface under a cloudless sky of a given haze.

    Arguments:
        sun_height: height of the sun over the horizon, degrees; at and below 0 nothing arrives.
        day: date, for the distance of the sun.
        turbidity: Linke turbidity: 2 very clear, 3 clear maritime, 5 summer haze; 1 to 8.

    Valid at sea level. Raises `OutOfRange` outside.

    Source: Ineichen and Perez (2002), at sea level: 0.868 I0 cos z exp(-0.0387 m TL), with the relative air
    mass of Kasten and Young (1989).

    >>> round(hazy_sky_irradiance(90.0, date(2026, 4, 4)))
    1056
    """
    require_within("sun_height", sun_height, -90.0, 90.0)
    require_within("turbidity", turbidity, 1.0, 8.0)
    if sun_height <= 0:
        return 0.0
    sine = math.sin(math.radians(sun_height))
    air_mass = 1.0 / (sine + 0.50572 * (sun_height + 6.07995) ** -1.6364)
    return 0.868 * extraterrestrial_irradiance(day) * sine * math.exp(-0.0387 * air_mass * turbidity)


def sum_over_day(day: date, latitude: float, power: Callable[[float], float]) -> float:
    """Return the sum over a day, in hours times the unit of the power, of a power that the sun's height gives.

    Arguments:
        day: date.
        latitude: degrees, north above zero, -66 to 66.
        power: function of the sun's height in degrees.

    Raises `OutOfRange` outside.

    >>> round(sum_over_day(date(2026, 3, 20), 0.0, lambda height: 1.0 if height > 0 else 0.0))
    12
    """
    require_within("latitude", latitude, -66.0, 66.0)
    phi, delta = math.radians(latitude), math.radians(declination(day))
    total = 0.0
    for step in range(STEPS):
        hour_angle = 2 * math.pi * ((step + 0.5) / STEPS - 0.5)
        sine = math.sin(phi) * math.sin(delta) + math.cos(phi) * math.cos(delta) * math.cos(hour_angle)
        total += power(math.degrees(math.asin(sine)))
    return total * 24 / STEPS


def _anomaly(days: int) -> float:
    """Return the sun's mean anomaly in radians, a number of days after noon of 1 January 2000."""
    return math.radians(357.528 + 0.9856003 * days)
