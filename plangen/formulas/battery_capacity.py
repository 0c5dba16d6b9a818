"""Charge that a battery delivers, and how long it lasts."""

from __future__ import annotations

from plangen.formulas.declare import NUMBER, TEXT, OutOfRange, formula, require_positive, require_within
from plangen.formulas.vocabulary import choose_chemistry

#: Share of the rated capacity that is used in ordinary service.
USABLE_SHARES = {"flooded": 0.5, "agm": 0.5, "gel": 0.5, "lithium-iron-phosphate": 0.8}


@formula(capacity="ampere_hour", current="ampere", exponent=NUMBER, rated_hours="hour", returns="ampere_hour")
def delivered_capacity(capacity: float, current: float, exponent: float, rated_hours: float = 20.0) -> float:
    """Return the charge in Ah that a battery delivers at a steady current (Peukert's law).

    At a current below the rated one, the rated capacity counts.

    Arguments:
        capacity: rated capacity, Ah.
        current: discharge current, A, up to five times the number of ampere-hours.
        exponent: Peukert's exponent, 1.0 to 1.5; usual values are 1.15 to 1.30 flooded, 1.05 to 1.15 agm,
            1.08 to 1.20 gel, 1.00 to 1.05 lithium iron phosphate (from memory).
        rated_hours: hours of discharge at which the capacity is rated, 1 to 120.

    Raises `OutOfRange` outside.

    Source: Peukert's law in the rated-hour form; a battery monitor's manual tabulates it for 100 Ah at the
    20 h rate. The form t = C/I^n with a 20 h rating is wrong by about half.

    The manual's example: 100 Ah of exponent 1.3 give 41 % at 100 A:

    >>> round(delivered_capacity(100.0, 100.0, 1.3))
    41
    """
    require_positive(capacity=capacity, current=current)
    require_within("rated_hours", rated_hours, 1.0, 120.0)
    require_within("exponent", exponent, 1.0, 1.5)
    if current > 5 * capacity:
        raise OutOfRange(f"current is {current:g} A; the law is tabulated to five times the capacity")
    rated_current = capacity / rated_hours
    return float(capacity * min(1.0, (rated_current / current) ** (exponent - 1)))


@formula(capacity="ampere_hour", temperature="degC", test_time="hour", returns="ampere_hour")
def capacity_at_temperature(capacity: float, temperature: float, test_time: float = 20.0) -> float:
    """Return the charge in Ah that a lead battery delivers at a temperature, from its capacity at 25 °C.

    Arguments:
        capacity: capacity at 25 °C, Ah.
        temperature: temperature of the battery at the start of the test, 0 to 40 °C.
        test_time: length of the test: 1 to 3 h, or 10 to 20 h; tests between are refused.

    Raises `OutOfRange` outside.

    Source: Vela Power, support page on capacity tests: 0.6 % per °C for tests of 10 to 20 h, 1 % for 1 to 3 h.

    >>> round(capacity_at_temperature(100.0, 15.0), 1)
    94.0
    """
    require_positive(capacity=capacity)
    require_within("temperature", temperature, 0.0, 40.0)
    return capacity * (1 + _temperature_coefficient(test_time) * (temperature - 25.0))


def _temperature_coefficient(test_time: float) -> float:
    """Return the relative change of a lead battery's capacity per °C, by the length of the test in hours."""
    if 1.0 <= test_time <= 3.0:
        return 0.01
    if 10.0 <= test_time <= 20.5:
        return 0.006
    raise OutOfRange(f"test time is {test_time:g} h; the source covers 1 to 3 h and 10 to 20 h")


@formula(capacity="ampere_hour", chemistry=TEXT, returns="ampere_hour")
def usable_capacity(capacity: float, chemistry: str) -> float:
    """Return the charge in Ah that is used in ordinary service without shortening the battery's life.

    Arguments:
        capacity: rated capacity, Ah.
        chemistry: "flooded", "agm", "tppl" or "gel" (half), or "lithium-iron-phosphate" (four fifths).

    Raises `OutOfRange` for another chemistry and for a capacity not above zero.

    Source: common practice.

    >>> usable_capacity(400.0, "lithium-iron-phosphate")
    320.0
    """
    require_positive(capacity=capacity)
    return capacity * choose_chemistry(chemistry, USABLE_SHARES)
