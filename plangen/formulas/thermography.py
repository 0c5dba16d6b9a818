"""What a thermal image of an electrical joint means."""

from __future__ import annotations

from plangen.formulas.declare import NUMBER, TEXT, OutOfRange, formula, require_positive, require_within
from plangen.formulas.vocabulary import choose

#: Lowest rise in °C of each NETA priority, the most urgent first, by what the joint is compared with.
PRIORITIES = {
    "similar": ((1.0, 15.0), (3.0, 3.0), (4.0, 1.0)),
    "ambient": ((1.0, 40.0), (2.0, 20.0), (3.0, 10.0), (4.0, 1.0)),
}


@formula(rise="delta_degC", compared_with=TEXT, returns=NUMBER)
def thermal_priority(rise: float, compared_with: str) -> float:
    """Return the priority of repair of a warm joint, 1 to 4, or 0 for none.

    1 is to repair at once, 2 to watch until mended, 3 to repair when time permits, 4 to look into it.

    Arguments:
        rise: temperature above the comparison, °C, 0 to 300.
        compared_with: "similar" (the same component under the same load) or "ambient" (air).

    A rise between two rows of whole degrees counts as the more urgent; of 1 °C and more as 4.
    Raises `OutOfRange` outside.

    Source: NETA table 100.18: 1 to 3, 4 to 15, above 15 °C to similar components; 1 to 10, 11 to 20, 21 to
    40, above 40 °C to ambient.

    >>> thermal_priority(10.0, "similar")
    3.0
    """
    require_within("rise", rise, 0.0, 300.0)
    for priority, above in choose("compared with", compared_with, PRIORITIES):
        if rise > above or (priority == 4.0 and rise >= above):
            return priority
    return 0.0


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
