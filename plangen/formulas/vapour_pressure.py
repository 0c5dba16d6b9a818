"""Saturation pressure of refrigerants and of liquefied petroleum gases."""

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


_R134A = _Curve(
    374.21,
    40.5928,
    (
        (0.4331478287291047, 0.845),
        (-9.090302559074352, 0.99),
        (2.1476074125217703, 1.14),
        (-1.557687007603464, 2.651),
        (-3.5020328972698604, 4.507),
        (14.958442337201044, 17.235),
    ),
)
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
_ISOBUTANE = _Curve(
    407.817,
    36.29,
    (
        (-48.02915589537987, 1.082),
        (43.34653680580028, 1.108),
        (-1.4421317283854331, 1.463),
        (-3.1322275225078413, 4.045),
        (5.203481182010376, 13.157),
        (-6.173022897817098, 14.042),
    ),
)
_R32 = _Curve(
    351.255,
    57.82,
    (
        (0.019194334673139708, 0.531),
        (-6.794802163795212, 0.979),
        (9.276391392786632, 2.203),
        (-12.327153852761946, 2.382),
        (28.46579606476394, 3.421),
        (-28.570870718190093, 3.558),
    ),
)
_R404A_BUBBLE = _Curve(345.27, 37.348, ((0.061067, 0.54), (-6.5646, 0.965), (-3.6162, 3.7), (-3.9771, 9.0)))
_R404A_DEW = _Curve(345.27, 37.348, ((-0.00026863, 0.1), (-6.5757, 0.972), (-4.1802, 3.8), (-7.9102, 9.0)))
_R410A_BUBBLE = _Curve(344.494, 49.012, ((-7.2818, 1.0), (2.5093, 1.8), (-3.2695, 2.4), (-2.8022, 4.9)))
_R410A_DEW = _Curve(344.494, 49.012, ((-7.4411, 1.0), (1.9883, 1.6), (-2.4925, 2.4), (-3.2633, 5.0)))
_R407C_BUBBLE = _Curve(359.345, 46.317, ((0.48722, 0.54), (-6.6959, 0.925), (-1.4165, 2.7), (-2.5109, 4.7)))
_R407C_DEW = _Curve(359.345, 46.317, ((-0.086077, 0.4), (-6.6364, 0.965), (-2.4648, 3.1), (-3.4776, 5.0)))

#: Per substance the curve of the first bubble and that of the last dew; for a pure substance they are one.
_CURVES = {
    "R134a": (_R134A, _R134A),
    "R290": (_PROPANE, _PROPANE),
    "propane": (_PROPANE, _PROPANE),
    "R600": (_BUTANE, _BUTANE),
    "butane": (_BUTANE, _BUTANE),
    "R600a": (_ISOBUTANE, _ISOBUTANE),
    "isobutane": (_ISOBUTANE, _ISOBUTANE),
    "R32": (_R32, _R32),
    "R404A": (_R404A_BUBBLE, _R404A_DEW),
    "R410A": (_R410A_BUBBLE, _R410A_DEW),
    "R407C": (_R407C_BUBBLE, _R407C_DEW),
}

#: The substances whose saturation curve is known.
SUBSTANCES = tuple(_CURVES)
#: The two ends of a blend's change of state.
LINES = ("dew", "bubble")


def _curve(substance: str, line: str) -> _Curve:
    if substance not in _CURVES:
        raise OutOfRange(f"substance is {substance!r}; known substances are: {', '.join(SUBSTANCES)}")
    if line not in LINES:
        raise OutOfRange(f"line is {line!r}; known lines are: {', '.join(LINES)}")
    bubble, dew = _CURVES[substance]
    return dew if line == "dew" else bubble


@formula(substance=TEXT, temperature="degC", line=TEXT, returns="bar")
def saturation_pressure(substance: str, temperature: float, line: str = "dew") -> float:
    """Return the gauge pressure in bar of a refrigerant or liquefied gas at rest at a temperature.

    Arguments:
        substance: R134a, R290 (propane), R600 (butane), R600a (isobutane), R32, R404A, R410A or R407C.
        temperature: °C, -40 to 65.
        line: for a blend "dew" (suction side) or "bubble" (liquid side); no matter for a pure substance.

    Sea level. Within 0.05 % for pure substances and 0.5 % for blends. Raises `OutOfRange` outside or for
    another word.

    Source: saturation curves fitted to the reference equations of state as published with the open library
    CoolProp 8.0.0 (fluid files, ancillary equations).

    Propane at 30 °C is 10.79 bar absolute in a published table:

    >>> round(saturation_pressure("propane", 30.0) + 1.01325, 2)
    10.79
    """
    require_within("temperature", temperature, COLDEST, WARMEST)
    return _curve(substance, line).absolute(temperature) - ATMOSPHERE


@formula(substance=TEXT, gauge_pressure="bar", line=TEXT, returns="degC")
def saturation_temperature(substance: str, gauge_pressure: float, line: str = "dew") -> float:
    """Return the temperature in °C at which a refrigerant boils or condenses at a gauge pressure.

    Arguments:
        substance: R134a, R290 (propane), R600 (butane), R600a (isobutane), R32, R404A, R410A or R407C.
        gauge_pressure: bar above atmospheric, sea level.
        line: for a blend "dew" (suction side) or "bubble" (liquid side); no matter for a pure substance.

    Valid from -40 to 65 °C. Raises `OutOfRange` for a pressure outside that range or another word.

    Source: as for `saturation_pressure`, solved for the temperature.

    A published chart gives 35.0 psi (2.413 bar) for R134a at 40 °F (4.4 °C):

    >>> round(saturation_temperature("R134a", 2.413), 1)
    4.4
    """
    curve = _curve(substance, line)
    pressure = gauge_pressure + ATMOSPHERE
    low, high = COLDEST, WARMEST
    require_within(
        "gauge_pressure", gauge_pressure, curve.absolute(low) - ATMOSPHERE, curve.absolute(high) - ATMOSPHERE
    )
    for _ in range(60):
        middle = (low + high) / 2.0
        if curve.absolute(middle) < pressure:
            low = middle
        else:
            high = middle
    return (low + high) / 2.0
