"""Voltage and specific gravity of a rested battery, and the state of charge that they tell."""

from __future__ import annotations

from plangen.formulas.declare import TEXT, OutOfRange, formula, require_within
from plangen.formulas.interpolation import interpolate
from plangen.formulas.vocabulary import choose_chemistry, choose_listed

#: Nominal voltages of a bank.
NOMINAL_VOLTAGES = (12.0, 24.0, 36.0, 48.0)

#: Rest voltage of a 12 V battery by state of charge, per cent, at REST_TEMPERATURE.
REST_VOLTAGES = {
    "flooded": ((0.0, 11.89), (25.0, 12.06), (50.0, 12.24), (75.0, 12.45), (100.0, 12.65)),
    "agm": ((0.0, 10.50), (25.0, 11.75), (50.0, 12.20), (75.0, 12.55), (100.0, 12.80)),
    "gel": ((0.0, 11.80), (25.0, 12.00), (50.0, 12.32), (75.0, 12.60), (100.0, 12.85)),
}
#: Temperature of the table for flooded and absorbed-glass-mat batteries: 80 °F.
REST_TEMPERATURE = 26.7
#: Rise of the rest voltage of a 12 V lead battery: 0.024 V per 10 °F.
REST_VOLTS_PER_DEGREE = 0.024 / (10 / 1.8)

#: Least rest voltage per 12 V of a battery that is said to be charged.
CHARGED_REST_VOLTAGES = {"flooded": 12.65, "agm": 12.80, "gel": 12.85, "lithium-iron-phosphate": 13.3}

#: Specific gravity of a flooded cell by state of charge, at REST_TEMPERATURE, and its fall with warmth.
SPECIFIC_GRAVITIES = ((0.0, 1.120), (25.0, 1.155), (50.0, 1.190), (75.0, 1.225), (100.0, 1.265))
GRAVITY_PER_DEGREE = 0.004 / (10 / 1.8)


@formula(
    state_of_charge="percent", chemistry=TEXT, nominal_voltage="volt", temperature="degC", returns="volt"
)
def rest_voltage(
    state_of_charge: float,
    chemistry: str,
    nominal_voltage: float = 12.0,
    temperature: float = REST_TEMPERATURE,
) -> float:
    """Return the voltage in V of a lead-acid bank that has rested, from its state of charge.

    Rested means 6 h, better 24 h, with nothing connected. Expect 0.05 V either way per 12 V.

    Arguments:
        state_of_charge: 0 to 100 %.
        chemistry: "flooded", "agm", "tppl" or "gel"; lithium iron phosphate is refused, for its voltage hardly
            changes between 20 and 90 %.
        nominal_voltage: 12, 24, 36 or 48 V.
        temperature: temperature of the battery, -18 to 50 °C.

    Raises `OutOfRange` outside.

    Source: flooded, and the change with temperature: a battery maker's state-of-charge page, open-circuit
    voltages at 80 °F and 0.024 V per 10 °F. Absorbed glass mat: a battery maker's manual. Gel: from memory.

    The page's own example, a full battery at 30 °F:

    >>> round(rest_voltage(100.0, "flooded", 12.0, -1.1), 2)
    12.53
    """
    blocks = choose_listed("nominal voltage", nominal_voltage, NOMINAL_VOLTAGES) / 12
    require_within("temperature", temperature, -18.0, 50.0)
    volts = interpolate("state of charge", state_of_charge, _rest_rows(chemistry))
    return blocks * (volts + REST_VOLTS_PER_DEGREE * (temperature - REST_TEMPERATURE))


@formula(chemistry=TEXT, nominal_voltage="volt", returns="volt")
def charged_rest_voltage(chemistry: str, nominal_voltage: float = 12.0) -> float:
    """Return the least voltage in V of a rested bank that is said to be fully charged.

    Arguments:
        chemistry: "flooded", "agm", "tppl", "gel" or "lithium-iron-phosphate".
        nominal_voltage: 12, 24, 36 or 48 V.

    Raises `OutOfRange` for others.

    Source: flooded and absorbed glass mat: the full rows of `rest_voltage`. Gel from memory. Lithium iron
    phosphate: common practice, from published charts that disagree by 0.1 V.

    >>> charged_rest_voltage("agm", 24.0)
    25.6
    """
    blocks = choose_listed("nominal voltage", nominal_voltage, NOMINAL_VOLTAGES) / 12
    return blocks * choose_chemistry(chemistry, CHARGED_REST_VOLTAGES)


@formula(state_of_charge="percent", temperature="degC", returns="dimensionless")
def specific_gravity(state_of_charge: float, temperature: float = REST_TEMPERATURE) -> float:
    """Return the reading of a hydrometer in a flooded cell, from the state of charge.

    Arguments:
        state_of_charge: 0 to 100 %.
        temperature: temperature of the electrolyte, -18 to 50 °C.

    Some deep-cycle cells are made for 1.277 when full. Raises `OutOfRange` outside.

    Source: a battery maker's state-of-charge page: gravities at 80 °F, and 0.004 to be added to a reading
    for every 10 °F above, so that a warm cell reads low.

    >>> round(specific_gravity(100.0, 37.8), 3)
    1.257
    """
    require_within("temperature", temperature, -18.0, 50.0)
    gravity = interpolate("state of charge", state_of_charge, SPECIFIC_GRAVITIES)
    return gravity - GRAVITY_PER_DEGREE * (temperature - REST_TEMPERATURE)


def _rest_rows(chemistry: str) -> tuple[tuple[float, float], ...]:
    """Return the chemistry's table of state of charge and rest voltage."""
    if chemistry == "lithium-iron-phosphate":
        raise OutOfRange("rest voltage doesn't tell the charge of lithium iron phosphate: count ampere-hours")
    return choose_chemistry(chemistry, REST_VOLTAGES)
