"""Power and energy that a solar array puts into the battery, and its open-circuit voltage."""

from __future__ import annotations

from datetime import date
from math import prod

from plangen.formulas.clear_sky import hazy_sky_irradiance, sum_over_day
from plangen.formulas.declare import DATE, NUMBER, TEXT, formula, require_positive, require_within
from plangen.formulas.vocabulary import choose

#: Losses of an unshaded array aboard, per cent: soiling, mismatch, wiring, connections, light-induced
#: degradation, name-plate.
MARINE_LOSSES = (2.0, 2.0, 2.0, 0.5, 1.5, 1.0)
#: Share of the array's power that a tracking controller passes on.
TRACKER_EFFICIENCY = 0.97
#: Change of power per °C of cell temperature above 25 °C.
POWER_COEFFICIENT = -0.0035
#: Cell temperature at 800 W/m² and 20 °C in a light wind.
NOMINAL_CELL_TEMPERATURE = 45.0
#: Degrees that a panel is hotter at 1000 W/m² than one that the wind gets under.
MOUNTINGS = {"glued": 10.0, "ventilated": 0.0}


@formula(irradiance="watt/metre**2", air_temperature="degC", mounting=TEXT, returns="degC")
def cell_temperature(irradiance: float, air_temperature: float, mounting: str = "glued") -> float:
    """Return the temperature in °C of the cells of a solar panel.

    Arguments:
        irradiance: irradiance of the panel, W/m², 0 to 1300.
        air_temperature: air temperature, °C, -20 to 50.
        mounting: "glued" to a deck or bimini, or "ventilated" behind.

    Raises `OutOfRange` outside.

    Source: the nominal-operating-cell-temperature rule with 45 °C; 10 °C more at full sun for a glued panel
    is common practice.

    By definition 45 °C at 800 W/m² and 20 °C:

    >>> cell_temperature(800.0, 20.0, "ventilated")
    45.0
    """
    require_within("irradiance", irradiance, 0.0, 1300.0)
    require_within("air_temperature", air_temperature, -20.0, 50.0)
    extra = choose("mounting", mounting, MOUNTINGS)
    return air_temperature + irradiance / 800 * (NOMINAL_CELL_TEMPERATURE - 20.0) + extra * irradiance / 1000


@formula(
    panel_power="watt", irradiance="watt/metre**2", air_temperature="degC", mounting=TEXT, returns="watt"
)
def array_power(
    panel_power: float, irradiance: float, air_temperature: float = 25.0, mounting: str = "glued"
) -> float:
    """Return the power in W that an unshaded solar array puts into the battery.

    Arguments:
        panel_power: rated power of all panels, W.
        irradiance: irradiance of the panels, W/m², 0 to 1300.
        air_temperature: air temperature, °C, -20 to 50.
        mounting: "glued" or "ventilated".

    Raises `OutOfRange` outside.

    Source: PVWatts model of NREL/TP-6A20-62641 (rated power, irradiance, -0.35 % per °C, losses multiplied),
    with the losses 2, 2, 2, 0.5, 1.5 and 1 % of an unshaded array and 97 % for the tracking controller.

    At rated sun and 25 °C in the cell 400 W give 354 W; here the cell is at 66 °C:

    >>> round(array_power(400.0, 1000.0, 25.0, "glued"))
    303
    """
    require_positive(panel_power=panel_power)
    warmer = cell_temperature(irradiance, air_temperature, mounting) - 25.0
    passed = prod(1 - loss / 100 for loss in MARINE_LOSSES) * TRACKER_EFFICIENCY
    return panel_power * irradiance / 1000 * (1 + POWER_COEFFICIENT * warmer) * passed


@formula(
    panel_power="watt",
    day=DATE,
    latitude="degree",
    air_temperature="degC",
    turbidity=NUMBER,
    mounting=TEXT,
    returns="watt_hour",
)
def array_daily_yield(
    panel_power: float,
    day: date,
    latitude: float,
    air_temperature: float = 25.0,
    turbidity: float = 3.0,
    mounting: str = "glued",
) -> float:
    """Return the energy in Wh that a flat, unshaded array puts into the battery in a cloudless day.

    Arguments:
        panel_power: rated power of all panels, W.
        day: date.
        latitude: degrees, north above zero, -66 to 66.
        air_temperature: mean air temperature of the day, °C.
        turbidity: Linke turbidity, 1 to 8, as in `hazy_sky_irradiance`.
        mounting: "glued" or "ventilated".

    The battery must be able to take it all. Raises `OutOfRange` outside.

    Source: `array_power` under `hazy_sky_irradiance`, summed over the day.

    >>> round(array_daily_yield(400.0, date(2026, 6, 21), 17.0, 28.0) / 1000, 1)
    2.4
    """
    require_positive(panel_power=panel_power)

    def power(height: float) -> float:
        return array_power(
            panel_power, hazy_sky_irradiance(height, day, turbidity), air_temperature, mounting
        )

    return sum_over_day(day, latitude, power)


@formula(
    open_circuit_voltage="volt",
    panels_in_series=NUMBER,
    cell_temperature="degC",
    coefficient=NUMBER,
    returns="volt",
)
def string_open_circuit_voltage(
    open_circuit_voltage: float,
    panels_in_series: float,
    cell_temperature: float,
    coefficient: float = -0.003,
) -> float:
    """Return the open-circuit voltage in V of a string of panels at a cell temperature.

    Arguments:
        open_circuit_voltage: open-circuit voltage of one panel at 25 °C, V.
        panels_in_series: number of panels in series, 1 or more.
        cell_temperature: temperature of the cells, -40 to 90 °C; the coldest morning gives the highest.
        coefficient: relative change per °C, -0.005 to -0.002, from the panel's data sheet.

    Raises `OutOfRange` outside.

    Source: definition of the coefficient; its usual values, -0.0027 to -0.0035, are from memory.

    >>> round(string_open_circuit_voltage(24.0, 2.0, -5.0), 2)
    52.32
    """
    require_positive(open_circuit_voltage=open_circuit_voltage)
    require_within("panels_in_series", panels_in_series, 1.0, 100.0)
    require_within("cell_temperature", cell_temperature, -40.0, 90.0)
    require_within("coefficient", coefficient, -0.005, -0.002)
    return panels_in_series * open_circuit_voltage * (1 + coefficient * (cell_temperature - 25.0))
