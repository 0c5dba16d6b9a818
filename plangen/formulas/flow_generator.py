"""Generators that a flow of air or water drives."""

from __future__ import annotations

import math

from plangen.formulas.declare import NUMBER, formula, require_positive, require_within

#: Density of air at sea level and 15 °C, and of sea water, kg/m³.
AIR_DENSITY = 1.225
SEA_WATER_DENSITY = 1025.0
#: Greatest share of a flow's power that any rotor can take (Betz).
BETZ_LIMIT = 16 / 27


@formula(rotor_diameter="metre", wind_speed="metre/second", power_share=NUMBER, returns="watt")
def wind_generator_power(rotor_diameter: float, wind_speed: float, power_share: float = 0.25) -> float:
    """Return the power in W of a wind generator in a steady wind.

    Arguments:
        rotor_diameter: diameter of the rotor, m.
        wind_speed: wind speed at the hub, m/s, 3 to 20.
        power_share: electrical power over the power of the wind through the rotor, 0.05 to 0.593.

    The maker's curve is better. Raises `OutOfRange` outside.

    Source: power of a flow, half the density times area times speed cubed, and Betz's limit; the share of 0.2
    to 0.3 for small machines aboard is from memory.

    Twice the wind gives eight times the power:

    >>> round(wind_generator_power(1.17, 10.0) / wind_generator_power(1.17, 5.0), 6)
    8.0
    """
    require_within("wind_speed", wind_speed, 3.0, 20.0)
    return _flow_power(AIR_DENSITY, rotor_diameter, wind_speed, power_share)


def _flow_power(density: float, diameter: float, speed: float, share: float) -> float:
    """Return a share of the power of a flow through a circle."""
    require_positive(diameter=diameter)
    require_within("power_share", share, 0.05, BETZ_LIMIT)
    return share * 0.5 * density * math.pi / 4 * diameter**2 * speed**3
