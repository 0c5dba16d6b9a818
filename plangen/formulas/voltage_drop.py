"""Voltage lost in a cable, and the cable that keeps the loss within its limit."""

from __future__ import annotations

from plangen.formulas.conductors import (
    RESISTIVITY_30,
    resistance_ratio,
)
from plangen.formulas.declare import TEXT, OutOfRange, formula, require_positive, require_within
from plangen.formulas.vocabulary import choose

#: Greatest loss that ABYC E-11 allows, per cent of nominal, by how critical the circuit is.
ALLOWED_DROPS = {"critical": 3.0, "other": 10.0}


@formula(current="ampere", path_length="metre", area="millimetre**2", temperature="degC", returns="volt")
def voltage_drop(current: float, path_length: float, area: float, temperature: float = 30.0) -> float:
    """Return the voltage in V that is lost in a copper cable, there and back.

    Arguments:
        current: current, A.
        path_length: length of conductor from source to load and back, m.
        area: conductor area, mm².
        temperature: temperature of the copper, 0 to 105 °C.

    Raises `OutOfRange` unless current, length and area are above zero and the temperature is in its range.

    A flexible conductor of a nominal metric area may by IEC 60228 have 11 to 16 % more resistance than its
    area says: `conductor_resistance` gives that limit.

    Source: ABYC E-11 11.14.2.6 as quoted, with its constant of 10.75 ohm per mil-foot, which is
    0.0179 ohm mm²/m and fits annealed copper at 30 °C. ISO 10133 Annex C uses 0.0164 (from memory), which
    gives 8 % less.

    16 AWG is the published answer for 10 A over 21 ft at 10 % of 12 V; it loses 0.87 V:

    >>> round(voltage_drop(10.0, 6.40, 1.31), 2)
    0.87
    """
    require_positive(current=current, path_length=path_length, area=area)
    require_within("temperature", temperature, 0.0, 105.0)
    return RESISTIVITY_30 * resistance_ratio(temperature, 30.0) * current * path_length / area


@formula(lost="volt", nominal_voltage="volt", returns="percent")
def voltage_loss_percent(lost: float, nominal_voltage: float) -> float:
    """Return a measured loss of voltage as per cent of the nominal voltage.

    Arguments:
        lost: voltage lost on both sides of the circuit together, V, 0 or more.
        nominal_voltage: nominal voltage of the system, V.

    Raises `OutOfRange` for a loss below zero and for a nominal voltage not above zero.

    Source: definition. The 3 % that ABYC E-11 11.14.1.2 allows, as quoted, is 0.36 V of 12 V:

    >>> round(voltage_loss_percent(0.36, 12.0), 6)
    3.0
    """
    require_positive(nominal_voltage=nominal_voltage)
    if not lost >= 0:
        raise OutOfRange(f"lost is {lost:g} V; it must not be below zero")
    return 100 * lost / nominal_voltage


@formula(circuit=TEXT, nominal_voltage="volt", returns="volt")
def voltage_drop_limit(circuit: str, nominal_voltage: float) -> float:
    """Return the greatest voltage in V that a direct-current circuit may lose.

    Arguments:
        circuit: "critical" (panel feeders, bilge blowers and pumps, electronics, navigation lights)
            or "other".
        nominal_voltage: nominal voltage of the system, V.

    Raises `OutOfRange` for another word and for a voltage not above zero.

    Source: ABYC E-11 11.14.1.2 as quoted: 3 % and 10 %; ISO 10133:2012 clause 4 has the same 3 % list.

    >>> round(voltage_drop_limit("critical", 12.0), 2)
    0.36
    """
    require_positive(nominal_voltage=nominal_voltage)
    return choose("circuit", circuit, ALLOWED_DROPS) / 100 * nominal_voltage
