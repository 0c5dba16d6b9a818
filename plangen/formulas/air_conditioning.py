"""Marine air conditioning: capacity by the air side, condensate, and the sea-water side."""

from __future__ import annotations

from plangen.formulas.declare import NUMBER, OutOfRange, formula, require_positive, require_within
from plangen.formulas.moist_air import humidity_ratio, moist_air_enthalpy, moist_air_volume

#: Watts in one Btu/h.
WATT_PER_BTU_PER_HOUR = 0.29307107
LITRES_PER_US_GALLON = 3.785411784
CUBIC_FOOT = 0.0283168466
SQUARE_FOOT = 0.09290304


@formula(return_temperature="degC", supply_temperature="degC", returns="delta_degC")
def air_temperature_difference(return_temperature: float, supply_temperature: float) -> float:
    """Return how much a cooling unit chills the air that passes it, in kelvin.

    Arguments:
        return_temperature: at the return grille, °C.
        supply_temperature: at the nearest supply grille, °C.

    8 to 12 K is usual; high humidity lowers it, so `cooling_capacity` decides before the charge is blamed.
    Raises `OutOfRange` outside 0 to 60 °C.

    Source: definition; usual range: a marine air conditioner maker's installation guidance and owners' reports.

    >>> air_temperature_difference(26.5, 15.5)
    11.0
    """
    require_within("return_temperature", return_temperature, 0.0, 60.0)
    require_within("supply_temperature", supply_temperature, 0.0, 60.0)
    return return_temperature - supply_temperature


@formula(
    airflow="metre**3/hour",
    return_temperature="degC",
    return_humidity="percent",
    supply_temperature="degC",
    supply_humidity="percent",
    returns="kilowatt",
)
def cooling_capacity(
    airflow: float,
    return_temperature: float,
    return_humidity: float,
    supply_temperature: float,
    supply_humidity: float,
) -> float:
    """Return the total cooling in kW that a unit gives, from its air flow and two psychrometer readings.

    Arguments:
        airflow: at the supply grille, m3/h.
        return_temperature: °C.
        return_humidity: percent.
        supply_temperature: °C.
        supply_humidity: percent.

    Sea level. Raises `OutOfRange` for a flow not above zero or air outside 0 to 60 °C or 0 to 100 %.

    Source: moist-air enthalpy, ASHRAE Handbook of Fundamentals, Psychrometrics.

    >>> round(cooling_capacity(720.0, 27.0, 60.0, 16.0, 90.0), 1)
    4.7
    """
    require_positive(airflow=airflow)
    warm = humidity_ratio(return_temperature, return_humidity)
    cool = humidity_ratio(supply_temperature, supply_humidity)
    dry_air = airflow / 3600.0 / moist_air_volume(supply_temperature, cool)
    drop = moist_air_enthalpy(return_temperature, warm) - moist_air_enthalpy(supply_temperature, cool)
    return dry_air * drop


@formula(
    airflow="metre**3/hour",
    return_temperature="degC",
    return_humidity="percent",
    supply_temperature="degC",
    supply_humidity="percent",
    returns="litre/hour",
)
def condensate_rate(
    airflow: float,
    return_temperature: float,
    return_humidity: float,
    supply_temperature: float,
    supply_humidity: float,
) -> float:
    """Return the litres of condensate per hour that a cooling unit makes; zero when the coil stays dry.

    Arguments:
        airflow: at the supply grille, m3/h.
        return_temperature: °C.
        return_humidity: percent.
        supply_temperature: °C.
        supply_humidity: percent.

    Raises `OutOfRange` for a flow not above zero or air outside 0 to 60 °C or 0 to 100 %.

    Source: humidity ratios, ASHRAE Handbook of Fundamentals, Psychrometrics.

    >>> round(condensate_rate(720.0, 27.0, 60.0, 16.0, 90.0), 1)
    2.8
    """
    require_positive(airflow=airflow)
    warm = humidity_ratio(return_temperature, return_humidity)
    cool = humidity_ratio(supply_temperature, supply_humidity)
    dry_air = airflow / moist_air_volume(supply_temperature, cool)
    return max(0.0, dry_air * (warm - cool))


@formula(
    volume="metre**3",
    glass_area="metre**2",
    persons=NUMBER,
    load_per_cubic_foot=NUMBER,
    returns="kilowatt",
)
def cooling_capacity_needed(
    volume: float, glass_area: float = 0.0, persons: float = 0.0, load_per_cubic_foot: float = 14.0
) -> float:
    """Return the cooling capacity in kW that a space of a given volume asks for.

    Arguments:
        volume: of the space, m3.
        glass_area: of windows in the sun, m2.
        persons: in the space.
        load_per_cubic_foot: Btu/h per cubic foot: 14 on average, 16 to 19 in a pilothouse, 10 to 12 below deck
            in the evening.

    600 Btu/h per square foot of glass and 500 per person (250 at rest) come on top. A rule for choosing, good
    to 30 %. Raises `OutOfRange` for a volume not above zero, negative glass or persons, or a load outside 8 to
    25.

    Source: a marine air conditioner maker's sizing guide, and a magazine's sizing article.

    The article's 17,000 Btu/h (4.98 kW) belong to 1214 cubic feet (34.4 m3):

    >>> round(cooling_capacity_needed(34.4), 2)
    4.98
    """
    require_positive(volume=volume)
    require_within("load_per_cubic_foot", load_per_cubic_foot, 8.0, 25.0)
    if not (glass_area >= 0 and persons >= 0):
        raise OutOfRange(f"glass area {glass_area:g} and persons {persons:g} must not be below zero")
    load = load_per_cubic_foot * volume / CUBIC_FOOT + 600.0 * glass_area / SQUARE_FOOT + 500.0 * persons
    return load * WATT_PER_BTU_PER_HOUR / 1000.0


@formula(capacity="kilowatt", returns="litre/minute")
def cooling_water_flow_needed(capacity: float) -> float:
    """Return the sea-water flow in L/min that a cooling unit asks for.

    Arguments:
        capacity: cooling, kW.

    Raises `OutOfRange` for a capacity not above zero.

    Source: trade rule reported on an owners' forum: 200 US gal/h for each 12,000 Btu/h. 12.6 L/min:

    >>> round(cooling_water_flow_needed(3.517), 1)
    12.6
    """
    require_positive(capacity=capacity)
    tons = capacity * 1000.0 / WATT_PER_BTU_PER_HOUR / 12000.0
    return tons * 200.0 * LITRES_PER_US_GALLON / 60.0


@formula(capacity="kilowatt", flow="litre/minute", rejection_ratio=NUMBER, returns="delta_degC")
def cooling_water_rise(capacity: float, flow: float, rejection_ratio: float = 1.3) -> float:
    """Return by how many kelvin the sea water leaves warmer than it came.

    Arguments:
        capacity: cooling, kW.
        flow: of sea water, L/min.
        rejection_ratio: heat rejected over cooling, 1.1 to 1.6; 1.25 to 1.3 is usual.

    Raises `OutOfRange` for a capacity or flow not above zero or another ratio.

    Source: heat balance; sea water 1.025 kg/L and 3.99 kJ/(kg K) (UNESCO Technical Papers in Marine Science 44:
    3993.9 J/(kg K) at salinity 35 and 20 °C).

    >>> round(cooling_water_rise(3.517, 12.6), 1)
    5.3
    """
    require_positive(capacity=capacity, flow=flow)
    require_within("rejection_ratio", rejection_ratio, 1.1, 1.6)
    return capacity * rejection_ratio / (flow / 60.0 * 1.025 * 3.99)
