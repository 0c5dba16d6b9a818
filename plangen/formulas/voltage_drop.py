"""Voltage lost in a cable, and the cable that keeps the loss within its limit."""

from __future__ import annotations

from plangen.formulas.conductors import (
    FLEXIBLE_RESISTANCES,
    GAUGES,
    OHMS_PER_MIL_FOOT,
    RESISTIVITY_30,
    SQUARE_MILLIMETRES_PER_CIRCULAR_MIL,
    allowable_current,
    gauge_area,
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


@formula(
    current="ampere", path_length="metre", area="millimetre**2", nominal_voltage="volt", returns="percent"
)
def voltage_drop_percent(current: float, path_length: float, area: float, nominal_voltage: float) -> float:
    """Return the voltage that is lost in a cable, as per cent of the nominal voltage.

    Arguments:
        current: current, A.
        path_length: length of conductor from source to load and back, m.
        area: conductor area, mm².
        nominal_voltage: nominal voltage of the system, V.

    Raises `OutOfRange` unless all are above zero.

    Source: as `voltage_drop`.

    >>> round(voltage_drop_percent(10.0, 6.40, 1.31, 12.0), 1)
    7.3
    """
    return voltage_loss_percent(voltage_drop(current, path_length, area), nominal_voltage)


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


@formula(current="ampere", path_length="foot", allowed_drop="volt", returns="circular_mil")
def conductor_circular_mils(current: float, path_length: float, allowed_drop: float) -> float:
    """Return the least area in circular mils of a conductor that keeps to an allowed voltage drop.

    Arguments:
        current: current, A.
        path_length: length of conductor from source to load and back, ft.
        allowed_drop: voltage that may be lost, V.

    Raises `OutOfRange` unless all are above zero.

    Source: ABYC E-11 11.14.2.6 as quoted: CM = 10.75 x A x ft / V.

    A bilge pump of 10 A, 11 ft out and 10 ft back, 10 % of 12 V: the published answer is 16 AWG, which has
    2583 circular mils, while 18 AWG has 1624:

    >>> round(conductor_circular_mils(10.0, 21.0, 1.2))
    1881
    """
    require_positive(current=current, path_length=path_length, allowed_drop=allowed_drop)
    return OHMS_PER_MIL_FOOT * current * path_length / allowed_drop


def conductor_gauge(
    current: float,
    path_length: float,
    allowed_drop: float,
    insulation_temperature: float = 105.0,
    space: str = "elsewhere",
) -> str:
    """Return the thinnest American wire gauge that keeps to the allowed drop and carries the current.

    Arguments:
        current: current, A.
        path_length: length of conductor from source to load and back, m.
        allowed_drop: voltage that may be lost, V.
        insulation_temperature: rating of the insulation, °C, as in `allowable_current`.
        space: "engine space" or "elsewhere".

    Raises `OutOfRange` if even 0000 is too thin.

    Source: as `conductor_circular_mils` and `allowable_current`.

    >>> conductor_gauge(10.0, 6.40, 1.2)
    '16'
    """
    least = conductor_circular_mils(current, path_length / 0.3048, allowed_drop)
    for gauge in GAUGES:
        area = gauge_area(gauge)
        wide_enough = area >= least * SQUARE_MILLIMETRES_PER_CIRCULAR_MIL
        if wide_enough and allowable_current(area, insulation_temperature, space) >= current:
            return gauge
    raise OutOfRange(f"no single conductor up to 0000 carries {current:g} A over {path_length:g} m")


@formula(
    current="ampere",
    path_length="metre",
    allowed_drop="volt",
    insulation_temperature="degC",
    space=TEXT,
    returns="millimetre**2",
)
def conductor_area_american(
    current: float,
    path_length: float,
    allowed_drop: float,
    insulation_temperature: float = 105.0,
    space: str = "elsewhere",
) -> float:
    """Return the area in mm² of the thinnest American wire gauge that will do.

    Arguments and errors: as `conductor_gauge`, which gives the gauge's name.

    Source: as `conductor_gauge`. 16 AWG is the published answer for 10 A over 21 ft at 10 % of 12 V:

    >>> round(conductor_area_american(10.0, 6.40, 1.2), 2)
    1.31
    """
    return gauge_area(conductor_gauge(current, path_length, allowed_drop, insulation_temperature, space))


@formula(
    current="ampere",
    path_length="metre",
    allowed_drop="volt",
    insulation_temperature="degC",
    space=TEXT,
    returns="millimetre**2",
)
def conductor_area_metric(
    current: float,
    path_length: float,
    allowed_drop: float,
    insulation_temperature: float = 105.0,
    space: str = "elsewhere",
) -> float:
    """Return the smallest standard metric area in mm² that will do.

    Arguments: as `conductor_gauge`.

    Raises `OutOfRange` if even 120 mm² is too thin.

    Source: areas of IEC 60228; drop as `voltage_drop`; current as `allowable_current`.

    10 A over 20 m may lose 10 % of 12 V, so 4 mm² will do:

    >>> conductor_area_metric(10.0, 20.0, 1.2)
    4.0
    """
    require_positive(allowed_drop=allowed_drop)
    for area in FLEXIBLE_RESISTANCES:
        if not 0.82 <= area <= 120.0 or voltage_drop(current, path_length, area) > allowed_drop:
            continue
        if allowable_current(area, insulation_temperature, space) >= current:
            return area
    raise OutOfRange(f"no single conductor up to 120 mm² carries {current:g} A over {path_length:g} m")
