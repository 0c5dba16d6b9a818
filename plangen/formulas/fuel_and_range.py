"""Fuel burnt, fuel for each mile, and how far a tank goes."""

from __future__ import annotations

from plangen.formulas.declare import TEXT, formula, require_positive, require_within
from plangen.formulas.propeller import propeller_law_power
from plangen.formulas.vocabulary import choose


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

    Source: 0.40 lb per hp hour for diesel and 0.50 for petrol, Fuel use from hours and horsepower,
    calculator7.snowdaycalculatornow.com, page read.

    A page of diesel conversions prints 0.2132 L for one hp hour at 0.40 lb and a density of 0.853:

    >>> round(fuel_rate(0.7457, 243.3, 853.0), 4)
    0.2127
    """
    require_positive(power=power)
    require_within("specific_consumption", specific_consumption, 180.0, 450.0)
    require_within("density", density, 700.0, 900.0)
    return float(power * specific_consumption / density)


@formula(
    hull=TEXT,
    fuel=TEXT,
    rated_power="kilowatt",
    engine_speed_share="percent",
    rated_rate="litre/hour",
    returns="litre/hour",
)
def fuel_rate_under_way(
    hull: str, fuel: str, rated_power: float, engine_speed_share: float, rated_rate: float = 0.0
) -> float:
    """Return the fuel in litres per hour that an engine usually burns under way at a share of its rated speed.

    Arguments:
        hull: kind of hull, in the words of the spec; on planing hulls the rate goes with the square of the engine
            speed, on all others with the power of 2.7.
        fuel: "diesel", 243 g/kWh at 840 g/L, or "petrol", 340 g/kWh at 740 g/L.
        rated_power: power at the rated speed, kW.
        engine_speed_share: engine speed in per cent of the rated engine speed.
        rated_rate: the maker's rate at rated power, L/h, to which the curve is scaled; 0 without one.

    Valid for shares from 20 to 110 %. Raises `OutOfRange` outside and for another fuel.

    Source: the propeller law of `propeller_law_power` and the consumption of `fuel_rate`; the exponent of planing
    hulls and the consumption of petrol engines were fitted to published trials,
    tests/published/speed_under_power.yaml.

    A published trial of a 42 ft planing boat with two diesels of 404.5 kW burnt 225 L/h at full throttle:

    >>> round(2.0 * fuel_rate_under_way("motor-planing", "diesel", 404.5, 100.0))
    234
    """
    specific, density = choose("fuel", fuel, {"diesel": (243.0, 840.0), "petrol": (340.0, 740.0)})
    exponent = 2.0 if hull == "motor-planing" else 2.7
    power = propeller_law_power(rated_power, engine_speed_share / 100.0, 1.0, exponent)
    return rated_rate * power / rated_power if rated_rate > 0 else fuel_rate(power, specific, density)


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


@formula(usable_fuel="litre", rate="litre/hour", speed="knot", reserve="percent", returns="nautical_mile")
def range_under_power(usable_fuel: float, rate: float, speed: float, reserve: float = 10.0) -> float:
    """Return the distance in nautical miles that the usable fuel gives with a reserve kept.

    Arguments:
        usable_fuel: fuel that the engine can draw, L.
        rate: fuel burnt by all engines together, L/h.
        speed: speed through the water, kn.
        reserve: part that is not to be used, %.

    Valid for reserves from 0 to 50 %. Raises `OutOfRange` outside and for values not above zero.

    Source: common practice; the reserve of 10 % is from memory.

    >>> range_under_power(400.0, 6.0, 7.0)
    420.0
    """
    require_positive(usable_fuel=usable_fuel, rate=rate, speed=speed)
    require_within("reserve", reserve, 0.0, 50.0)
    return float(usable_fuel * (1.0 - reserve / 100.0) / rate * speed)
