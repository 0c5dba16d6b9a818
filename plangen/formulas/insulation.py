"""Resistance of insulation and of protective conductors, tested dead."""

from __future__ import annotations

from plangen.formulas.conductors import conductor_resistance
from plangen.formulas.declare import formula, require_positive, require_within

#: Upper nominal voltage and least resistance in megohm.
INSULATION_ROWS = ((50.0, 0.5), (500.0, 1.0), (1000.0, 1.0))


@formula(nominal_voltage="volt", returns="megaohm")
def insulation_resistance_minimum(nominal_voltage: float) -> float:
    """Return the least insulation resistance in megohm of a circuit.

    A new boat should show more than 20 megohm (common practice).

    Arguments:
        nominal_voltage: nominal voltage of the circuit, up to 1000 V.

    Raises `OutOfRange` outside.

    Source: IEC 60364-6 as a railway authority's table restates it. Tables before it had half of that.

    >>> insulation_resistance_minimum(230.0)
    1.0
    """
    require_positive(nominal_voltage=nominal_voltage)
    require_within("nominal_voltage", nominal_voltage, 0.0, 1000.0)
    return next(least for upper, least in INSULATION_ROWS if nominal_voltage <= upper)


@formula(length="metre", area="millimetre**2", returns="ohm")
def protective_conductor_resistance_limit(length: float, area: float) -> float:
    """Return the greatest resistance in ohm of a protective conductor from the inlet to a case.

    Arguments:
        length: length of the conductor, m.
        area: its nominal area, mm², one of those of IEC 60228.

    Raises `OutOfRange` outside.

    Source: resistance as `conductor_resistance`; 0.1 ohm more for the joints is common practice.

    >>> round(protective_conductor_resistance_limit(20.0, 2.5), 2)
    0.26
    """
    return 0.1 + conductor_resistance(area, length)
