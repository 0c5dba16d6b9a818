"""Saturation pressure of liquefied petroleum gases."""

from __future__ import annotations

import math
from dataclasses import dataclass

from plangen.formulas.declare import TEXT, OutOfRange, formula, require_within

ATMOSPHERE = 1.01325
COLDEST, WARMEST = -40.0, 65.0


@dataclass(frozen=True)
class _Curve:
    """p = pressure * exp(Tr/T * sum(n * (1 - T/Tr)**t)), with T in kelvin and the pressure in bar."""

    temperature: float
    pressure: float
    terms: tuple[tuple[float, float], ...]

    def absolute(self, celsius: float) -> float:
        kelvin = celsius + 273.15
        theta = 1.0 - kelvin / self.temperature
        total = sum(n * theta**t for n, t in self.terms)
        return self.pressure * math.exp(self.temperature / kelvin * total)


_PROPANE = _Curve(
    369.89,
    42.512,
    (
        (-23.998635747391152, 1.05),
        (18.313017605233238, 1.084),
        (-0.42240851966839504, 2.259),
        (-2.7378298813798962, 4.287),
        (0.257888414168987, 7.66),
        (-1.3113462226130785, 18.584),
    ),
)
_BUTANE = _Curve(
    425.125,
    37.96,
    (
        (0.06986482880463143, 0.743),
        (-6.689091326409199, 0.984),
        (4.774874567188075, 1.886),
        (-5.7054710941638655, 2.16),
        (1.8437119133933968, 3.286),
        (-3.735372218319482, 4.231),
    ),
)

_CURVES = {"propane": _PROPANE, "butane": _BUTANE}


@formula(substance=TEXT, temperature="degC", returns="bar")
def saturation_pressure(substance: str, temperature: float) -> float:
    """Return the gauge pressure in bar of a liquefied gas at rest at a temperature.

    Arguments:
        substance: propane or butane.
        temperature: °C, -40 to 65.

    Sea level. Within 0.05 %. Raises `OutOfRange` outside or for another word.

    Source: saturation curves fitted to the reference equations of state as published with the open library
    CoolProp 8.0.0 (fluid files, ancillary equations).

    Propane at 30 °C is 10.79 bar absolute by the same library's full equation of state:

    >>> round(saturation_pressure("propane", 30.0) + 1.01325, 2)
    10.79
    """
    if substance not in _CURVES:
        raise OutOfRange(f"substance is {substance!r}; known substances are: {', '.join(_CURVES)}")
    require_within("temperature", temperature, COLDEST, WARMEST)
    return _CURVES[substance].absolute(temperature) - ATMOSPHERE
