"""The starting battery under load, and the voltage lost between it and the starter."""

from __future__ import annotations

from plangen.formulas.declare import formula, require_positive, require_within
from plangen.formulas.interpolation import interpolate

#: Least voltage of a 12 V battery after 15 s at half its cold-cranking current, by temperature, °C.
LOAD_TEST_VOLTAGES = (
    (-12.0, 8.7), (-7.0, 8.9), (-1.0, 9.1), (4.0, 9.3), (10.0, 9.4), (18.0, 9.5), (20.0, 9.6),
)  # fmt: skip


@formula(temperature="degC", returns="volt")
def load_test_voltage(temperature: float) -> float:
    """Return the least voltage in V of a 12 V battery after 15 s at half its cold-cranking current.

    Arguments:
        temperature: temperature of the battery, -12 to 50 °C; from 20 °C up the limit stays the same.

    Raises `OutOfRange` outside.

    Source: a vehicle maker's service manual, load-test table.

    >>> load_test_voltage(10.0)
    9.4
    """
    require_within("temperature", temperature, -12.0, 50.0)
    return interpolate("temperature", min(temperature, 20.0), LOAD_TEST_VOLTAGES)


@formula(cold_cranking_current="ampere", returns="ampere")
def load_test_current(cold_cranking_current: float) -> float:
    """Return the current in A for the 15 s load test of a starting battery: half its cold-cranking rating.

    Arguments:
        cold_cranking_current: cold-cranking current (SAE), A.

    Raises `OutOfRange` unless it is above zero.

    Source: a vehicle maker's service manual.

    >>> load_test_current(800.0)
    400.0
    """
    require_positive(cold_cranking_current=cold_cranking_current)
    return cold_cranking_current / 2


@formula(cold_cranking_current="ampere", returns="ampere")
def marine_cranking_current(cold_cranking_current: float) -> float:
    """Return the marine cranking current in A (at 0 °C) of a battery, from its cold-cranking current.

    Arguments:
        cold_cranking_current: cold-cranking current at -18 °C (SAE), A.

    Raises `OutOfRange` unless it is above zero.

    Source: a marine mechanic's page: 1.3 times.

    >>> marine_cranking_current(500.0)
    650.0
    """
    require_positive(cold_cranking_current=cold_cranking_current)
    return 1.3 * cold_cranking_current


@formula(cranking_current="ampere", returns="volt")
def starting_circuit_drop_limit(cranking_current: float) -> float:
    """Return the greatest voltage in V that a whole 12 V starting circuit may lose while cranking.

    Arguments:
        cranking_current: current while cranking, 20 to 3000 A.

    Raises `OutOfRange` outside.

    Source: US Army TM 10-3930-671-24: 0.20 V for each 100 A.

    >>> starting_circuit_drop_limit(300.0)
    0.6
    """
    require_within("cranking_current", cranking_current, 20.0, 3000.0)
    return round(0.002 * cranking_current, 9)
