"""Salinity, conductivity, density and osmotic pressure of sea water."""

from __future__ import annotations

import math

from plangen.formulas.declare import NUMBER, formula, require_positive, require_within

#: Conductivity of standard sea water (practical salinity 35) at 15 °C (IPTS-68), mS/cm.
STANDARD_CONDUCTIVITY = 42.9140
#: Absolute salinity (g/kg) per unit of practical salinity in sea water of reference composition.
REFERENCE_SALINITY_FACTOR = 35.16504 / 35.0
#: IPTS-68 degrees per ITS-90 degree.
IPTS_68 = 1.00024

_A = (0.0080, -0.1692, 25.3851, 14.0941, -7.0261, 2.7081)
_B = (0.0005, -0.0056, -0.0066, -0.0375, 0.0636, -0.0144)
_C = (0.6766097, 2.00564e-2, 1.104259e-4, -6.9698e-7, 1.0031e-9)
_K = 0.0162


def _polynomial(coefficients: tuple[float, ...], x: float) -> float:
    value = 0.0
    for coefficient in reversed(coefficients):
        value = value * x + coefficient
    return value


def _pss78(ratio: float, t68: float) -> float:
    """Return the practical salinity for the conductivity ratio to standard sea water at this temperature."""
    root = math.sqrt(ratio)
    shift = (t68 - 15.0) / (1.0 + _K * (t68 - 15.0))
    return _polynomial(_A, root) + shift * _polynomial(_B, root)


def _hill(ratio: float, t68: float) -> float:
    """Return the low-salinity extension of Hill and others (1986), before it is fitted to PSS-78 at 2."""
    x = 400.0 * ratio
    y = 100.0 * ratio
    shift = (t68 - 15.0) / (1.0 + _K * (t68 - 15.0))
    first = _A[0] / (1.0 + 1.5 * x + x * x)
    second = shift * _B[0] / (1.0 + math.sqrt(y) + y + y * math.sqrt(y))
    return _pss78(ratio, t68) - first - second


def _bisect_ratio(salinity: float, t68: float) -> float:
    low, high = 0.0, 2.0
    for _ in range(60):
        middle = (low + high) / 2.0
        if _salinity_of_ratio(middle, t68) < salinity:
            low = middle
        else:
            high = middle
    return (low + high) / 2.0


def _ratio_at_salinity_2(t68: float) -> float:
    low, high = 0.0, 1.0
    for _ in range(60):
        middle = (low + high) / 2.0
        if _pss78(middle, t68) < 2.0:
            low = middle
        else:
            high = middle
    return (low + high) / 2.0


def _salinity_of_ratio(ratio: float, t68: float) -> float:
    salinity = _pss78(ratio, t68)
    if salinity >= 2.0:
        return salinity
    return 2.0 / _hill(_ratio_at_salinity_2(t68), t68) * _hill(ratio, t68)


@formula(conductivity="millisiemens/centimetre", temperature="degC", pressure="decibar", returns=NUMBER)
def practical_salinity(conductivity: float, temperature: float, pressure: float = 0.0) -> float:
    """Return the practical salinity of sea water from its conductivity.

    Arguments:
        conductivity: measured, not compensated for temperature, mS/cm.
        temperature: of the sample, °C (ITS-90), -2 to 35.
        pressure: of the sea above atmospheric, dbar, up to 10000: 0 for a sample on deck.

    Valid from 0 to 42; below 2 the extension of Hill and others (1986) is used, fitted to the scale at 2.
    Raises `OutOfRange` outside.

    Source: UNESCO Technical Papers in Marine Science 44 (1983), practical salinity scale PSS-78; Hill, Dauphinee
    and Woods, IEEE Journal of Oceanic Engineering 11 (1986) 109. Check value of PSS-78: 42.914 mS/cm at 15 °C
    IPTS-68 is 35:

    >>> round(practical_salinity(42.914, 14.9964), 3)
    35.0
    """
    require_positive(conductivity=conductivity)
    require_within("temperature", temperature, -2.0, 35.0)
    require_within("pressure", pressure, 0.0, 10000.0)
    t68 = temperature * IPTS_68
    ratio = conductivity / STANDARD_CONDUCTIVITY
    compression = 1.0 + pressure * (2.070e-5 + pressure * (-6.370e-10 + pressure * 3.989e-15)) / (
        1.0 + t68 * (3.426e-2 + t68 * 4.464e-4) + ratio * (4.215e-1 - 3.107e-3 * t68)
    )
    salinity = _salinity_of_ratio(ratio / (compression * _polynomial(_C, t68)), t68)
    require_within("practical_salinity", salinity, 0.0, 42.0)
    return salinity


@formula(salinity="gram/kilogram", temperature="degC", returns="millisiemens/centimetre")
def sea_water_conductivity(salinity: float, temperature: float) -> float:
    """Return the conductivity in mS/cm of sea water at the surface.

    Arguments:
        salinity: absolute salinity, g/kg, 0.1 to 42.
        temperature: °C (ITS-90), -2 to 35.

    Raises `OutOfRange` outside.

    Source: PSS-78 (UNESCO Technical Papers in Marine Science 44, 1983) solved for the conductivity, sea water of
    reference composition.

    >>> round(sea_water_conductivity(35.16504, 25.0), 2)
    53.07
    """
    require_within("salinity", salinity, 0.1, 42.0)
    require_within("temperature", temperature, -2.0, 35.0)
    t68 = temperature * IPTS_68
    ratio = _bisect_ratio(salinity / REFERENCE_SALINITY_FACTOR, t68)
    return ratio * _polynomial(_C, t68) * STANDARD_CONDUCTIVITY


@formula(conductivity="millisiemens/centimetre", temperature="degC", returns="gram/kilogram")
def sea_water_salinity(conductivity: float, temperature: float) -> float:
    """Return the absolute salinity in g/kg of a surface sample from its conductivity.

    Arguments:
        conductivity: measured, not compensated for temperature, mS/cm.
        temperature: of the sample, °C, -2 to 35.

    Raises `OutOfRange` where `practical_salinity` does.

    Source: PSS-78 and the reference composition: 35.16504 g/kg at practical salinity 35 (TEOS-10).

    >>> round(sea_water_salinity(53.07, 25.0), 1)
    35.2
    """
    return REFERENCE_SALINITY_FACTOR * practical_salinity(conductivity, temperature)


@formula(salinity="gram/kilogram", temperature="degC", returns="kilogram/metre**3")
def sea_water_density(salinity: float, temperature: float) -> float:
    """Return the density of sea water at the surface in kg/m3.

    Arguments:
        salinity: absolute salinity, g/kg, 0 to 42.
        temperature: °C, -2 to 40.

    Raises `OutOfRange` outside.

    Source: UNESCO Technical Papers in Marine Science 44 (1983), international equation of state of sea water
    at one atmosphere (EOS-80).

    Fresh water at 0 °C has 999.8426 in that paper's equation:

    >>> round(sea_water_density(0.0, 0.0), 4)
    999.8426
    """
    require_within("salinity", salinity, 0.0, 42.0)
    require_within("temperature", temperature, -2.0, 40.0)
    s = salinity / REFERENCE_SALINITY_FACTOR
    t = temperature * IPTS_68
    fresh = _polynomial((999.842594, 6.793952e-2, -9.095290e-3, 1.001685e-4, -1.120083e-6, 6.536332e-9), t)
    first = _polynomial((0.824493, -4.0899e-3, 7.6438e-5, -8.2467e-7, 5.3875e-9), t)
    second = _polynomial((-5.72466e-3, 1.0227e-4, -1.6546e-6), t)
    return fresh + first * s + second * s * math.sqrt(s) + 4.8314e-4 * s * s


@formula(salinity="gram/kilogram", temperature="degC", returns="milligram/litre")
def sea_water_dissolved_solids(salinity: float, temperature: float) -> float:
    """Return the dissolved solids of sea water in mg/L, as a watermaker's feed is described.

    Arguments:
        salinity: absolute salinity, g/kg, 0 to 42.
        temperature: °C, -2 to 40.

    Raises `OutOfRange` outside.

    Source: salinity times the density of EOS-80. Ocean water has about 36,000 mg/L, not "a few thousand":

    >>> round(sea_water_dissolved_solids(35.0, 25.0), -2)
    35800.0
    """
    return salinity * sea_water_density(salinity, temperature)


@formula(salinity="gram/kilogram", temperature="degC", returns="bar")
def osmotic_pressure(salinity: float, temperature: float) -> float:
    """Return the osmotic pressure of sea water in bar.

    Arguments:
        salinity: absolute salinity, g/kg, 1 to 60 (a watermaker's brine included).
        temperature: °C, 0 to 35.

    A polynomial fitted to the chemical potential of water of TEOS-10, within 0.2 % of it in this range.
    Raises `OutOfRange` outside.

    Source: TEOS-10 (IAPWS-08). The ideal law with sodium chloride would be 18 % too high.

    >>> round(osmotic_pressure(35.0, 25.0), 1)
    25.8
    """
    require_within("salinity", salinity, 1.0, 60.0)
    require_within("temperature", temperature, 0.0, 35.0)
    s, t = salinity, temperature
    root = math.sqrt(s)
    at_0 = 0.724 - 0.0474 * root + 0.01153 * s - 0.001185 * s * root + 5.557e-5 * s * s
    slope = 2.526e-3 - 6.684e-5 * root + 2.395e-5 * s
    return s * (at_0 + slope * t + (-5.737e-6 - 1.636e-7 * s) * t * t)
