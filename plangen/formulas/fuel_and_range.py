"""Fuel burnt, fuel for each mile, and how far a tank goes."""

from __future__ import annotations

from plangen.formulas.declare import NUMBER, formula, require_positive, require_within
from plangen.formulas.propeller import propeller_law_power


@formula(
    power="kilowatt", specific_consumption="gram/kilowatt_hour", density="gram/litre", returns="litre/hour"
)
def fuel_rate(power: float, specific_consumption: float = 243.0, density: float = 840.0) -> float:
    """Return the fuel that an engine burns at a power, litres per hour.

    Arguments:
        power: power delivered, kW.
        specific_consumption: fuel for each kilowatt hour, g; 243 for diesel, about 304 for petrol.
        density: fuel density, g/L; 840 for diesel, about 740 for petrol.

    Valid for specific consumptions from 180 to 450 g/kWh and densities from 700 to 900 g/L; below a quarter
    of the rated power engines burn more than the fallback. Raises `OutOfRange` outside and for powers not
    above zero.

    Source: 0.40 lb per hp hour for diesel and 0.50 for petrol, a published method for fuel use from power,
    page read.

    A page of diesel conversions prints 0.2132 L for one hp hour at 0.40 lb and a density of 0.853:

    >>> round(fuel_rate(0.7457, 243.3, 853.0), 4)
    0.2127
    """
    require_positive(power=power)
    require_within("specific_consumption", specific_consumption, 180.0, 450.0)
    require_within("density", density, 700.0, 900.0)
    return float(power * specific_consumption / density)


@formula(
    rated_power="kilowatt",
    engine_speed="revolutions_per_minute",
    rated_speed="revolutions_per_minute",
    exponent=NUMBER,
    specific_consumption="gram/kilowatt_hour",
    density="gram/litre",
    returns="litre/hour",
)
def fuel_rate_at_engine_speed(
    rated_power: float,
    engine_speed: float,
    rated_speed: float,
    exponent: float = 2.7,
    specific_consumption: float = 243.0,
    density: float = 840.0,
) -> float:
    """Return the fuel in litres per hour that an engine burns at an engine speed on the propeller curve.

    Arguments:
        rated_power: power at the rated speed, kW.
        engine_speed: engine speed, rev/min.
        rated_speed: engine speed of the rating, rev/min.
        exponent: exponent of the propeller curve, see `propeller_law_power`.
        specific_consumption: fuel for each kilowatt hour, g.
        density: fuel density, g/L.

    Validity, errors and sources: those of `propeller_law_power` and `fuel_rate`.

    >>> round(fuel_rate_at_engine_speed(40.0, 2400.0, 3000.0, 3.0, 250.0), 2)
    6.1
    """
    power = propeller_law_power(rated_power, engine_speed, rated_speed, exponent)
    return fuel_rate(power, specific_consumption, density)


@formula(rate="litre/hour", speed="knot", returns="litre/nautical_mile")
def fuel_per_mile(rate: float, speed: float) -> float:
    """Return the fuel burnt for each nautical mile, litres.

    Arguments:
        rate: fuel burnt by all engines together, L/h.
        speed: speed through the water, kn.

    Raises `OutOfRange` for values not above zero.

    Source: definition.

    >>> fuel_per_mile(6.0, 7.5)
    0.8
    """
    require_positive(rate=rate, speed=speed)
    return float(rate / speed)


@formula(usable_fuel="litre", rate="litre/hour", reserve="percent", returns="hour")
def endurance_under_power(usable_fuel: float, rate: float, reserve: float = 10.0) -> float:
    """Return the hours that the usable fuel lasts with a reserve kept.

    Arguments:
        usable_fuel: fuel that the engine can draw, L.
        rate: fuel burnt by all engines together, L/h.
        reserve: part that is not to be used, %.

    Valid for reserves from 0 to 50 %. Raises `OutOfRange` outside and for values not above zero.

    Source: common practice; the reserve of 10 % is from memory.

    >>> endurance_under_power(400.0, 6.0)
    60.0
    """
    require_positive(usable_fuel=usable_fuel, rate=rate)
    require_within("reserve", reserve, 0.0, 50.0)
    return float(usable_fuel * (1.0 - reserve / 100.0) / rate)


@formula(usable_fuel="litre", rate="litre/hour", speed="knot", reserve="percent", returns="nautical_mile")
def range_under_power(usable_fuel: float, rate: float, speed: float, reserve: float = 10.0) -> float:
    """Return the distance in nautical miles that the usable fuel gives with a reserve kept.

    Arguments:
        usable_fuel: fuel that the engine can draw, L.
        rate: fuel burnt by all engines together, L/h.
        speed: speed through the water, kn.
        reserve: part that is not to be used, %.

    Validity, errors and source: those of `endurance_under_power`.

    >>> range_under_power(400.0, 6.0, 7.0)
    420.0
    """
    require_positive(speed=speed)
    return float(endurance_under_power(usable_fuel, rate, reserve) * speed)
