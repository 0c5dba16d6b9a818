"""Liquefied petroleum gas aboard: test and lock-up pressure, ventilation and explosive limits."""

from __future__ import annotations

from typing import NamedTuple

from plangen.formulas.declare import NUMBER, TEXT, OutOfRange, formula, require_positive, require_within

ATMOSPHERE = 1013.25

#: Greatest pressure in mbar at no flow, by system. That of the United States is reported by a training text, the
#: European limits are from memory.
LOCK_UP_LIMITS = {
    "butane 28 mbar": 37.0,
    "30 mbar": 40.0,
    "propane 37 mbar": 47.0,
    "11 inch water column": 34.9,
}


class _Gas(NamedTuple):
    lower_limit: float
    density: float


#: Lower explosive limit in volume percent, and density in kg/m3 at 15 °C and 1 atm.
_GASES = {"propane": _Gas(2.1, 1.90), "butane": _Gas(1.6, 2.55)}


@formula(system=TEXT, returns="millibar")
def regulator_lock_up_limit(system: str) -> float:
    """Return the greatest pressure in mbar that a regulator may creep up to when all burners are off.

    Arguments:
        system: "butane 28 mbar", "30 mbar", "propane 37 mbar" or "11 inch water column".

    Raises `OutOfRange` for another word.

    Source: 14 in water column (34.9 mbar) for an 11 in regulator: training text on rv-techniciancomplete.examzify.com
    (secondary). The European limits are from memory, verify.

    >>> regulator_lock_up_limit("11 inch water column")
    34.9
    """
    if system not in LOCK_UP_LIMITS:
        raise OutOfRange(f"gas system is {system!r}; known systems are: {', '.join(LOCK_UP_LIMITS)}")
    return LOCK_UP_LIMITS[system]


@formula(gauge_pressure="millibar", temperature="degC", temperature_change="delta_degC", returns="millibar")
def gas_pressure_drift(gauge_pressure: float, temperature: float, temperature_change: float = 1.0) -> float:
    """Return by how many mbar closed gas changes its pressure when only its temperature changes.

    Arguments:
        gauge_pressure: of the test, mbar, up to 2000.
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

    Source: Registered Gas Engineer, September 2021, after PD 54823: three times working pressure; the limit of
    150 mbar is from memory.

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

    Source: Boat Safety Scheme (United Kingdom), standards of 2002, part 8, ventilation:
    V = 2200 U + 650 P + 440 F.

    >>> gas_ventilation_area(5.0, 6.0, 2.0)
    15780.0
    """
    if not (unflued_power >= 0 and persons >= 0 and flued_power >= 0):
        raise OutOfRange("powers and persons must not be below zero")
    area = 2200.0 * unflued_power + 650.0 * persons + 440.0 * flued_power
    require_positive(ventilation_area=area)
    return area


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
