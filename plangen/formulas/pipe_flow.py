"""Pressure lost by air or water in a hose: tank vents and overflows."""

from __future__ import annotations

import math

from plangen.formulas.declare import OutOfRange, formula, require_positive, require_within

GRAVITY = 9.80665
#: Dry air and fresh water at 15 °C and 1 atm: kg/m3 and Pa s.
AIR_DENSITY, AIR_VISCOSITY = 1.225, 1.79e-5
WATER_DENSITY, WATER_VISCOSITY = 999.1, 1.138e-3
#: Roughness of smooth plastic or rubber hose, m.
HOSE_ROUGHNESS = 0.03e-3
#: A sharp entry (0.5) and the loss of all speed at the outlet (1.0).
ENTRY_AND_EXIT_LOSS = 1.5


def friction_factor(reynolds: float, relative_roughness: float) -> float:
    """Return the Darcy friction factor of a round pipe.

    Arguments:
        reynolds: Reynolds number, dimensionless.
        relative_roughness: roughness over bore, dimensionless, up to 0.05.

    Laminar below 2300; the turbulent formula above, which lies within 2 % of Colebrook's for Reynolds numbers
    over 4000. Raises `OutOfRange` for a Reynolds number not above zero.

    Source: Hagen-Poiseuille; Haaland, Journal of Fluids Engineering 105 (1983) 89 (formula from memory).

    >>> friction_factor(1600.0, 0.0)
    0.04
    """
    require_positive(reynolds=reynolds)
    require_within("relative_roughness", relative_roughness, 0.0, 0.05)
    if reynolds < 2300.0:
        return 64.0 / reynolds
    log = math.log10((relative_roughness / 3.7) ** 1.11 + 6.9 / reynolds)
    return 1.0 / (1.8 * log) ** 2


def _pressure_loss(flow: float, bore: float, length: float, density: float, viscosity: float) -> float:
    """Return the pressure in Pa lost in a hose; flow in m3/s, bore and length in m."""
    require_positive(flow=flow, bore=bore)
    if not length >= 0:
        raise OutOfRange(f"length is {length:g}; it must not be below zero")
    speed = flow / (math.pi / 4.0 * bore**2)
    factor = friction_factor(density * speed * bore / viscosity, min(HOSE_ROUGHNESS / bore, 0.05))
    return density / 2.0 * speed**2 * (ENTRY_AND_EXIT_LOSS + factor * length / bore)


@formula(flow="litre/minute", bore="millimetre", length="metre", returns="pascal")
def vent_air_pressure(flow: float, bore: float, length: float) -> float:
    """Return the pressure in Pa that builds up in a tank while its vent lets the displaced air out.

    Arguments:
        flow: filling rate, L/min: the same volume of air leaves.
        bore: inside diameter of the vent hose, mm.
        length: of the vent hose, m.

    Air at 15 °C in a smooth hose with a sharp entry; bends and a fine screen come on top. Valid below 30 m/s.
    Raises `OutOfRange` above that, and for values not above zero.

    Source: Darcy-Weisbach with entry and outlet loss.

    At dock-hose rates a clear vent of 19 mm costs almost nothing, some 0.15 kPa:

    >>> round(vent_air_pressure(100.0, 19.0, 3.0), -1)
    150.0
    """
    require_positive(flow=flow, bore=bore)
    speed = flow / 60000.0 / (math.pi / 4.0 * (bore / 1000.0) ** 2)
    require_within("air speed in the vent in m/s", speed, 0.0, 30.0)
    return _pressure_loss(flow / 60000.0, bore / 1000.0, length, AIR_DENSITY, AIR_VISCOSITY)


@formula(flow="litre/minute", bore="millimetre", length="metre", rise="metre", returns="kilopascal")
def vent_overflow_pressure(flow: float, bore: float, length: float, rise: float) -> float:
    """Return the pressure in kPa on the top of a full tank whose vent has become its overflow.

    Arguments:
        flow: filling rate, L/min.
        bore: inside diameter of the vent hose, mm.
        length: of the vent hose, m.
        rise: height of the vent's outlet above the top of the tank, m.

    Water at 15 °C in a smooth hose with a sharp entry; bends and a screen come on top. A tank is usually
    pressure-tested at about 20 kPa, so a higher figure means that a sealed hose can burst it.
    Raises `OutOfRange` for values not above zero, or a rise outside 0 to 10 m.

    Source: Darcy-Weisbach with entry and outlet loss, and the static head.

    >>> round(vent_overflow_pressure(60.0, 19.0, 1.5, 0.0))
    22
    """
    require_within("rise", rise, 0.0, 10.0)
    loss = _pressure_loss(flow / 60000.0, bore / 1000.0, length, WATER_DENSITY, WATER_VISCOSITY)
    return (loss + WATER_DENSITY * GRAVITY * rise) / 1000.0
