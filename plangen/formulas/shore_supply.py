"""Voltage, frequency and power of an alternating-current supply from the shore."""

from __future__ import annotations

from plangen.formulas.declare import formula, require_positive, require_within
from plangen.formulas.vocabulary import choose_listed

#: Lowest and highest voltage at the supply, as shares of nominal.
VOLTAGE_BANDS = {120.0: (0.95, 1.05), 230.0: (0.90, 1.10), 240.0: (0.95, 1.05), 400.0: (0.90, 1.10)}


@formula(nominal_voltage="volt", returns="volt")
def supply_voltage_minimum(nominal_voltage: float) -> float:
    """Return the lowest voltage in V that a shore supply should have.

    Arguments:
        nominal_voltage: 120 or 240 V (North America), 230 V, or 400 V between the phases of a supply of 230 V.

    Raises `OutOfRange` for another.

    Source: 230 and 400 V: EN 50160, 10 % either way for 95 % of the 10-minute means of a week (at all times down to
    15 % below), as a power meter's manual restates it. 120 and 240 V: ANSI C84.1 range A at the service,
    5 % either way, as an appliance engineer's page restates it.

    >>> supply_voltage_minimum(120.0)
    114.0
    """
    nominal = choose_listed("nominal voltage", nominal_voltage, VOLTAGE_BANDS)
    return round(VOLTAGE_BANDS[nominal][0] * nominal, 6)


@formula(nominal_voltage="volt", returns="volt")
def supply_voltage_maximum(nominal_voltage: float) -> float:
    """Return the highest voltage in V that a shore supply should have.

    Arguments, errors and source: as `supply_voltage_minimum`.

    >>> supply_voltage_maximum(230.0)
    253.0
    """
    nominal = choose_listed("nominal voltage", nominal_voltage, VOLTAGE_BANDS)
    return round(VOLTAGE_BANDS[nominal][1] * nominal, 6)


@formula(nominal_frequency="hertz", returns="hertz")
def supply_frequency_tolerance(nominal_frequency: float) -> float:
    """Return the deviation in Hz, either way, that the frequency of a shore supply may have.

    Arguments:
        nominal_frequency: 50 or 60 Hz.

    An island's own grid may deviate by 2 %. Raises `OutOfRange` for another frequency.

    Source: 50 Hz: EN 50160, 1 % for 99.5 % of the year, as a power meter's manual restates it. 60 Hz: common
    practice, the same share.

    >>> supply_frequency_tolerance(50.0)
    0.5
    """
    return round(0.01 * choose_listed("nominal frequency", nominal_frequency, (50.0, 60.0)), 6)


@formula(rated_current="ampere", voltage="volt", share="percent", returns="kilowatt")
def shore_power(rated_current: float, voltage: float, share: float = 100.0) -> float:
    """Return the power in kW that a shore inlet can carry.

    Arguments:
        rated_current: rating of the inlet, A.
        voltage: voltage of the supply, V; 240 V for an inlet with two legs of 120 V.
        share: share of the rating to plan for, per cent, 1 to 100; 80 % for loads that run for hours (common practice).

    Raises `OutOfRange` outside.

    Source: power balance. A 30 A 120 V inlet carries 3.6 kW:

    >>> shore_power(30.0, 120.0)
    3.6
    """
    require_positive(rated_current=rated_current, voltage=voltage)
    require_within("share", share, 1.0, 100.0)
    return round(rated_current * voltage * share / 100_000, 9)
