"""Currents into and out of inverters and chargers."""

from __future__ import annotations

from plangen.formulas.declare import NUMBER, formula, require_positive, require_within


@formula(power="watt", terminal_voltage="volt", efficiency=NUMBER, returns="ampere")
def inverter_input_current(power: float, terminal_voltage: float, efficiency: float = 0.9) -> float:
    """Return the direct current in A that an inverter draws for a load.

    Arguments:
        power: power of the load, W.
        terminal_voltage: voltage at the inverter's terminals under that load, V.
        efficiency: power out over power in, 0.7 to 1.

    Raises `OutOfRange` outside.

    Source: power balance. 1500 W at 12.5 V and 90 %:

    >>> round(inverter_input_current(1500.0, 12.5), 1)
    133.3
    """
    require_positive(power=power, terminal_voltage=terminal_voltage)
    require_within("efficiency", efficiency, 0.7, 1.0)
    return power / (efficiency * terminal_voltage)


@formula(
    output_current="ampere", output_voltage="volt", supply_voltage="volt", efficiency=NUMBER, returns="ampere"
)
def charger_input_current(
    output_current: float, output_voltage: float, supply_voltage: float, efficiency: float = 0.88
) -> float:
    """Return the current in A that a battery charger or direct-current converter draws from its supply.

    Arguments:
        output_current: charging current, A.
        output_voltage: voltage at the battery, V.
        supply_voltage: voltage of the supply, V.
        efficiency: power out over power in, 0.6 to 1; for a charger without power-factor correction
            efficiency times power factor.

    Raises `OutOfRange` outside.

    Source: power balance; chargers' efficiencies of 0.85 to 0.94 are common practice.

    >>> round(charger_input_current(60.0, 14.4, 230.0), 2)
    4.27
    """
    require_positive(
        output_current=output_current, output_voltage=output_voltage, supply_voltage=supply_voltage
    )
    require_within("efficiency", efficiency, 0.6, 1.0)
    return output_current * output_voltage / (efficiency * supply_voltage)
