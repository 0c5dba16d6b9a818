"""Voltages at which a charger should hold a bank, by chemistry and temperature."""

from __future__ import annotations

from typing import NamedTuple

from plangen.formulas.battery_rest_voltage import NOMINAL_VOLTAGES
from plangen.formulas.declare import TEXT, formula, require_positive, require_within
from plangen.formulas.vocabulary import choose, choose_chemistry, choose_listed


class ChargeVoltages(NamedTuple):
    """Charge voltages of one cell at 25 °C, and their fall with warmth."""

    cells_per_12_volt: int
    absorption: float
    float_hold: float
    millivolts_per_degree: float


#: Absorption and float voltages per 12 V at 25 °C between which makers' figures lie.
CHARGE_BANDS = {
    "flooded": ((14.1, 14.8), (13.2, 13.8)),
    "agm": ((14.2, 14.7), (13.2, 13.8)),
    "gel": ((14.1, 14.4), (13.2, 13.8)),
    "lithium-iron-phosphate": ((13.8, 14.6), (13.2, 13.6)),
}
STAGES = {"absorption": 0, "float": 1}

CHARGE_VOLTAGES = {
    "flooded": ChargeVoltages(6, 2.43, 2.23, 5.0),
    "agm": ChargeVoltages(6, 2.40, 2.22, 4.0),
    "gel": ChargeVoltages(6, 2.40, 2.25, 5.0),
    "lithium-iron-phosphate": ChargeVoltages(4, 3.55, 3.375, 0.0),
}


@formula(chemistry=TEXT, nominal_voltage="volt", temperature="degC", returns="volt")
def absorption_voltage(chemistry: str, nominal_voltage: float = 12.0, temperature: float = 25.0) -> float:
    """Return the absorption voltage in V of a bank, for a battery whose label doesn't say.

    Arguments:
        chemistry: "flooded", "agm", "tppl", "gel" or "lithium-iron-phosphate".
        nominal_voltage: 12, 24, 36 or 48 V.
        temperature: temperature of the battery, 0 to 45 °C.

    The battery's label governs: makers differ by 0.3 V per 12 V. Raises `OutOfRange` outside.

    Source: gel: a deep-cycle battery maker's user guide, 2.40 V and 5 mV a cell. Absorbed glass mat: a
    battery maker's manual, 14.2 to 14.4 V; 4 mV from memory. Lithium iron phosphate: makers' range 14.2 to
    14.6 V, its low end taken; no compensation. Flooded: from memory, 14.4 to 14.8 V.

    The gel guide's 48 V bulk voltage:

    >>> round(absorption_voltage("gel", 48.0), 2)
    57.6
    """
    return _cell_voltage(chemistry, nominal_voltage, temperature, "absorption")


@formula(chemistry=TEXT, nominal_voltage="volt", temperature="degC", returns="volt")
def float_voltage(chemistry: str, nominal_voltage: float = 12.0, temperature: float = 25.0) -> float:
    """Return the float voltage in V of a bank, for a battery whose label doesn't say.

    Arguments:
        chemistry: "flooded", "agm", "tppl", "gel" or "lithium-iron-phosphate" (which needs no float).
        nominal_voltage: 12, 24, 36 or 48 V.
        temperature: temperature of the battery, 0 to 45 °C.

    Raises `OutOfRange` outside.

    Source: gel: a deep-cycle battery maker's user guide, 2.25 V a cell. Flooded: published guidance of 2.15
    to 2.23 V. Absorbed glass mat: a battery maker's manual, 13.2 to 13.3 V. Lithium iron phosphate: from
    memory.

    >>> round(float_voltage("gel", 12.0), 2)
    13.5
    """
    return _cell_voltage(chemistry, nominal_voltage, temperature, "float_hold")


@formula(
    set_voltage="volt",
    temperature="degC",
    nominal_voltage="volt",
    millivolts_per_cell="dimensionless",
    returns="volt",
)
def compensated_voltage(
    set_voltage: float,
    temperature: float,
    nominal_voltage: float = 12.0,
    millivolts_per_cell: float = 5.0,
) -> float:
    """Return a lead-acid charger's voltage in V at the battery's temperature, from its setting at 25 °C.

    Arguments:
        set_voltage: charger's setting at 25 °C, V.
        temperature: temperature of the battery, 0 to 45 °C; above 45 °C charging should stop.
        nominal_voltage: 12, 24, 36 or 48 V.
        millivolts_per_cell: compensation, mV per cell and °C, 0 to 6; makers state 3 to 5.

    Raises `OutOfRange` outside.

    Source: a deep-cycle battery maker's user guide: 0.005 V a cell less for every °C above 25 °C.

    A gel bank set to 14.4 V, at 35 °C:

    >>> round(compensated_voltage(14.4, 35.0), 2)
    14.1
    """
    require_positive(set_voltage=set_voltage)
    require_within("temperature", temperature, 0.0, 45.0)
    require_within("millivolts_per_cell", millivolts_per_cell, 0.0, 6.0)
    cells = choose_listed("nominal voltage", nominal_voltage, NOMINAL_VOLTAGES) / 2
    return set_voltage - cells * millivolts_per_cell / 1000 * (temperature - 25.0)


@formula(stage=TEXT, chemistry=TEXT, nominal_voltage="volt", temperature="degC", returns="volt")
def charge_voltage_minimum(
    stage: str, chemistry: str, nominal_voltage: float = 12.0, temperature: float = 25.0
) -> float:
    """Return the lowest voltage in V at which any maker of that kind of battery lets a stage of charge end.

    Arguments:
        stage: "absorption" or "float".
        chemistry: "flooded", "agm", "tppl", "gel" or "lithium-iron-phosphate".
        nominal_voltage: 12, 24, 36 or 48 V.
        temperature: temperature of the battery, 0 to 45 °C.

    The battery's label governs where it says. Raises `OutOfRange` outside.

    Source: a glass-mat maker's manual, 14.2 to 14.4 V (thin-plate 14.7 V from memory); gel makers' 14.1 and
    14.4 V; lithium iron phosphate 14.2 to 14.6 V, with 13.8 V in long use by a published account; flooded from
    memory; compensation as `absorption_voltage`.

    >>> charge_voltage_minimum("absorption", "lithium-iron-phosphate", 24.0)
    27.6
    """
    return _band(stage, chemistry, nominal_voltage, temperature)[0]


@formula(stage=TEXT, chemistry=TEXT, nominal_voltage="volt", temperature="degC", returns="volt")
def charge_voltage_maximum(
    stage: str, chemistry: str, nominal_voltage: float = 12.0, temperature: float = 25.0
) -> float:
    """Return the highest voltage in V that any maker of that kind of battery allows in a stage of charge.

    Arguments, errors and source: as `charge_voltage_minimum`.

    A thin-plate glass-mat battery at 15 °C may be held 0.24 V above its 14.7 V at 25 °C:

    >>> round(charge_voltage_maximum("absorption", "agm", 12.0, 15.0), 2)
    14.94
    """
    return _band(stage, chemistry, nominal_voltage, temperature)[1]


def _band(stage: str, chemistry: str, nominal_voltage: float, temperature: float) -> tuple[float, float]:
    """Return the lowest and highest voltage of a bank in one stage of charge."""
    cell = choose_chemistry(chemistry, CHARGE_VOLTAGES)
    low, high = choose_chemistry(chemistry, CHARGE_BANDS)[choose("stage", stage, STAGES)]
    blocks = choose_listed("nominal voltage", nominal_voltage, NOMINAL_VOLTAGES) / 12
    require_within("temperature", temperature, 0.0, 45.0)
    shift = cell.cells_per_12_volt * cell.millivolts_per_degree / 1000 * (temperature - 25.0)
    return round(blocks * (low - shift), 9), round(blocks * (high - shift), 9)


def _cell_voltage(chemistry: str, nominal_voltage: float, temperature: float, stage: str) -> float:
    """Return a bank's voltage in one stage of charge."""
    cell = choose_chemistry(chemistry, CHARGE_VOLTAGES)
    blocks = choose_listed("nominal voltage", nominal_voltage, NOMINAL_VOLTAGES) / 12
    require_within("temperature", temperature, 0.0, 45.0)
    at_25 = cell.absorption if stage == "absorption" else cell.float_hold
    warmer = temperature - 25.0
    return blocks * cell.cells_per_12_volt * (at_25 - cell.millivolts_per_degree / 1000 * warmer)
