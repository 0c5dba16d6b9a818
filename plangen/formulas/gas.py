"""Liquefied petroleum gas aboard: tightness, working pressure, ventilation and explosive limits."""

from __future__ import annotations

from typing import NamedTuple

from plangen.formulas.declare import NUMBER, TEXT, OutOfRange, formula, require_positive, require_within

ATMOSPHERE = 1013.25


class RegulatorBand(NamedTuple):
    """Pressures of a low-pressure gas system, mbar: nominal, tolerance either way, and locked up at no flow."""

    nominal: float
    tolerance: float
    lock_up: float


#: Nominal pressures as read in the sources named in `regulator_pressure`. Tolerances and the European lock-up
#: limits are from memory; that of the United States is reported by a training text.
REGULATOR_BANDS = {
    "butane 28 mbar": RegulatorBand(28.0, 5.0, 37.0),
    "30 mbar": RegulatorBand(30.0, 5.0, 40.0),
    "propane 37 mbar": RegulatorBand(37.0, 5.0, 47.0),
    "11 inch water column": RegulatorBand(27.4, 5.0, 34.9),
}


class _Gas(NamedTuple):
    lower_limit: float
    density: float


#: Lower explosive limit in volume percent, and density in kg/m3 at 15 °C and 1 atm.
_GASES = {"propane": _Gas(2.1, 1.90), "butane": _Gas(1.6, 2.55)}


def regulator_band(system: str) -> RegulatorBand:
    """Return the pressures in mbar that a low-pressure gas system must keep.

    Arguments:
        system: "butane 28 mbar", "30 mbar", "propane 37 mbar" or "11 inch water column".

    Raises `OutOfRange` for another word.

    Source: see `regulator_pressure`, `regulator_pressure_tolerance` and `regulator_lock_up_limit`.

    >>> regulator_band("propane 37 mbar").nominal
    37.0
    """
    if system not in REGULATOR_BANDS:
        raise OutOfRange(f"gas system is {system!r}; known systems are: {', '.join(REGULATOR_BANDS)}")
    return REGULATOR_BANDS[system]


@formula(system=TEXT, returns="millibar")
def regulator_pressure(system: str) -> float:
    """Return the working pressure in mbar behind the regulator with burners lit.

    Arguments:
        system: "butane 28 mbar", "30 mbar", "propane 37 mbar" or "11 inch water column".

    Raises `OutOfRange` for another word.

    Source: a national sailing association's guidance on gas (butane 28, propane 37, European 30 mbar systems); a
    gas heater's installation manual (11 in water column, 27.4 mbar).

    >>> regulator_pressure("butane 28 mbar")
    28.0
    """
    return regulator_band(system).nominal


@formula(system=TEXT, returns="millibar")
def regulator_pressure_tolerance(system: str) -> float:
    """Return by how many mbar the working pressure may lie above or below the nominal.

    Arguments:
        system: "butane 28 mbar", "30 mbar", "propane 37 mbar" or "11 inch water column".

    Raises `OutOfRange` for another word.

    Source: from memory, verify: +-5 mbar.

    >>> regulator_pressure_tolerance("propane 37 mbar")
    5.0
    """
    return regulator_band(system).tolerance


@formula(system=TEXT, returns="millibar")
def regulator_lock_up_limit(system: str) -> float:
    """Return the greatest pressure in mbar that a regulator may creep up to when all burners are off.

    Arguments:
        system: "butane 28 mbar", "30 mbar", "propane 37 mbar" or "11 inch water column".

    Raises `OutOfRange` for another word.

    Source: 14 in water column (34.9 mbar) for an 11 in regulator: a technicians' training text (secondary). The
    European limits are from memory, verify.

    >>> regulator_lock_up_limit("11 inch water column")
    34.9
    """
    return regulator_band(system).lock_up


@formula(pipe_volume="litre", pressure_drop="millibar", time="minute", returns="litre/hour")
def gas_leak_rate(pipe_volume: float, pressure_drop: float, time: float) -> float:
    """Return the size of a gas leak in L/h of free gas from the fall of pressure in closed pipework.

    Arguments:
        pipe_volume: of pipe and hose between the shut valves, L.
        pressure_drop: mbar.
        time: min.

    For sizing only: any fall at constant temperature is a fail. Raises `OutOfRange` for a volume or time not
    above zero or a negative drop.

    Source: Boyle's law.

    >>> round(gas_leak_rate(1.0, 1.0, 2.0), 3)
    0.03
    """
    require_positive(pipe_volume=pipe_volume, time=time)
    if not pressure_drop >= 0:
        raise OutOfRange(
            f"pressure drop is {pressure_drop:g}; a rise means that the gas warmed: wait and repeat"
        )
    return pipe_volume * pressure_drop / ATMOSPHERE * 60.0 / time


@formula(gauge_pressure="millibar", temperature="degC", temperature_change="delta_degC", returns="millibar")
def gas_pressure_drift(gauge_pressure: float, temperature: float, temperature_change: float = 1.0) -> float:
    """Return by how many mbar closed gas changes its pressure when only its temperature changes.

    Arguments:
        gauge_pressure: of the test, mbar.
        temperature: of the pipework, °C, -20 to 50.
        temperature_change: K, negative when it cools.

    Raises `OutOfRange` outside.

    Source: Gay-Lussac's law with absolute pressure. One kelvin at 37 mbar and 15 °C is 3.6 mbar:

    >>> round(gas_pressure_drift(37.0, 15.0), 1)
    3.6
    """
    require_within("gauge_pressure", gauge_pressure, 0.0, 2000.0)
    require_within("temperature", temperature, -20.0, 50.0)
    require_within("temperature_change", temperature_change, -20.0, 20.0)
    return (gauge_pressure + ATMOSPHERE) * temperature_change / (temperature + 273.15)


@formula(working_pressure="millibar", returns="millibar")
def gas_pipework_test_pressure(working_pressure: float) -> float:
    """Return the air pressure in mbar for new or altered low-pressure gas pipework, appliances shut off.

    Arguments:
        working_pressure: mbar, 20 to 60.

    Three times the working pressure, but not above 150 mbar. Raises `OutOfRange` outside.

    Source: a registered gas engineers' article on boats (September 2021): three times working pressure; the
    limit of 150 mbar is from memory.

    >>> gas_pipework_test_pressure(37.0)
    111.0
    """
    require_within("working_pressure", working_pressure, 20.0, 60.0)
    return min(150.0, 3.0 * working_pressure)


@formula(unflued_power="kilowatt", persons=NUMBER, flued_power="kilowatt", returns="millimetre**2")
def gas_ventilation_area(unflued_power: float, persons: float, flued_power: float = 0.0) -> float:
    """Return the fixed ventilation area in mm2 for fuel-burning appliances, half high and half low.

    Arguments:
        unflued_power: heat input of every appliance without flue, cooker included, kW.
        persons: for which the space is meant.
        flued_power: heat input of open-flued appliances, kW.

    Raises `OutOfRange` for negative values or none at all.

    Source: United Kingdom inland boat safety standards (2002), part 8, ventilation: V = 2200 U + 650 P + 440 F.

    >>> gas_ventilation_area(5.0, 6.0, 2.0)
    15780.0
    """
    if not (unflued_power >= 0 and persons >= 0 and flued_power >= 0):
        raise OutOfRange("powers and persons must not be below zero")
    area = 2200.0 * unflued_power + 650.0 * persons + 440.0 * flued_power
    require_positive(ventilation_area=area)
    return area


@formula(power="kilowatt", flue=TEXT, returns="centimetre**2")
def heater_vent_area(power: float, flue: str = "flued") -> float:
    """Return the combustion-air opening in cm2 of a cabin heater.

    Arguments:
        power: heat input, kW.
        flue: "flued" or "unflued".

    Raises `OutOfRange` for a power not above zero or another word.

    Source: a published guide on boat heaters, formula 16-1: Btu/h divided by 775 (flued) or 155 (unflued). Its
    example: 6000 Btu/h (1.758 kW) flued needs 7.74 cm2:

    >>> round(heater_vent_area(1.7584), 2)
    7.74
    """
    require_positive(power=power)
    divisors = {"flued": 775.0, "unflued": 155.0}
    if flue not in divisors:
        raise OutOfRange(f"flue is {flue!r}; known words are: {', '.join(divisors)}")
    return power * 1000.0 / 0.29307107 / divisors[flue]


@formula(volume="metre**3", gas=TEXT, returns="kilogram")
def gas_mass_to_explode(volume: float, gas: str = "propane") -> float:
    """Return the kilograms of gas that bring a space, evenly mixed, to the lower explosive limit.

    Arguments:
        volume: of the cabin or bilge, m3.
        gas: "propane" or "butane".

    Far less is dangerous where it gathers low. Raises `OutOfRange` for a volume not above zero or another word.

    Source: lower explosive limits 2.1 % (propane) and 1.6 % (butane, the lower of two published figures) from
    gas suppliers' lists; gas densities at 15 °C and 1 atm.

    A bilge of 2 m3 needs 0.08 kg:

    >>> round(gas_mass_to_explode(2.0), 2)
    0.08
    """
    require_positive(volume=volume)
    if gas not in _GASES:
        raise OutOfRange(f"gas is {gas!r}; known gases are: {', '.join(_GASES)}")
    limit, density = _GASES[gas]
    return volume * limit / 100.0 * density
