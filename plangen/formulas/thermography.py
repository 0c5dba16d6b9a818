"""What a thermal image of an electrical joint means."""

from __future__ import annotations

from plangen.formulas.declare import NUMBER, OutOfRange, formula, require_positive, require_within


@formula(rise="delta_degC", current="ampere", full_current="ampere", exponent=NUMBER, returns="delta_degC")
def full_load_rise(rise: float, current: float, full_current: float, exponent: float = 1.6) -> float:
    """Return the rise in °C that a joint would show at full load, from one measured at part load.

    Arguments:
        rise: temperature rise measured, °C, above 0.
        current: current during the measurement, A, at least 40 % of the full one.
        full_current: full-load current, A.
        exponent: 1.6 in still air to 2.0, where only the heat of the current counts.

    Raises `OutOfRange` outside.

    Source: exponents from memory of thermographers' practice; the 40 % from a report of NETA MTS-2019.

    >>> round(full_load_rise(8.0, 60.0, 100.0))
    18
    """
    require_positive(rise=rise, current=current, full_current=full_current)
    require_within("exponent", exponent, 1.6, 2.0)
    if not 0.4 <= current / full_current <= 1.0:
        share = 100 * current / full_current
        raise OutOfRange(f"current is {share:.0f} % of full load; measure at 40 to 100 %")
    return float(rise * (full_current / current) ** exponent)
