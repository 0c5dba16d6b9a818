"""Resistance of insulation and of protective conductors, tested dead."""

from __future__ import annotations

from plangen.formulas.conductors import conductor_resistance
from plangen.formulas.declare import formula, require_positive, require_within

#: Upper nominal voltage, test voltage V and least resistance in megohm.
INSULATION_ROWS = ((50.0, 250.0, 0.5), (500.0, 500.0, 1.0), (1000.0, 1000.0, 1.0))


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
    return _insulation_row(nominal_voltage)[1]


@formula(nominal_voltage="volt", returns="volt")
def insulation_test_voltage(nominal_voltage: float) -> float:
    """Return the direct voltage in V with which the insulation of a circuit is tested.

    Arguments:
        nominal_voltage: nominal voltage of the circuit, up to 1000 V.

    Raises `OutOfRange` outside.

    Source: as `insulation_resistance_minimum`.

    >>> insulation_test_voltage(12.0)
    250.0
    """
    return _insulation_row(nominal_voltage)[0]


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


def _insulation_row(nominal_voltage: float) -> tuple[float, float]:
    """Return the test voltage and the least resistance for a nominal voltage."""
    require_positive(nominal_voltage=nominal_voltage)
    require_within("nominal_voltage", nominal_voltage, 0.0, INSULATION_ROWS[-1][0])
    row = next(row for row in INSULATION_ROWS if nominal_voltage <= row[0])
    return row[1], row[2]
