"""Energy, time and yield of heated fresh water."""

from __future__ import annotations

from plangen.formulas.declare import NUMBER, OutOfRange, formula, require_positive, require_within

#: Heat to warm one litre of water by one kelvin, kJ: cp 4.186 kJ/(kg K) at 1 kg/L.
HEAT_PER_LITRE = 4.186


def water_density(temperature: float) -> float:
    """Return the density of air-free fresh water at 1 atm in kg/m3.

    Arguments:
        temperature: °C, 0 to 100.

    Raises `OutOfRange` outside that range.

    Source: Kell, Journal of Chemical and Engineering Data 20 (1975) 97 (coefficients from memory, checked
    against a reference library). Its tabulated maximum is 999.972 near 4 °C:

    >>> round(water_density(4.0), 3)
    999.972
    """
    require_within("temperature", temperature, 0.0, 100.0)
    t = temperature
    top = 999.83952 + t * (
        16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12)))
    )
    return top / (1.0 + 16.879850e-3 * t)


def _require_warming(start: float, end: float) -> None:
    require_within("start_temperature", start, 0.0, 100.0)
    require_within("end_temperature", end, 0.0, 100.0)
    if end <= start:
        raise OutOfRange(f"end temperature {end:g} is not above start temperature {start:g}")


@formula(volume="litre", start_temperature="degC", end_temperature="degC", returns="kilowatt_hour")
def water_heating_energy(volume: float, start_temperature: float, end_temperature: float) -> float:
    """Return the energy in kWh that warms fresh water.

    Arguments:
        volume: cold, L.
        start_temperature: °C.
        end_temperature: °C, above the start.

    Within 0.5 % from 5 to 90 °C. Raises `OutOfRange` for a volume not above zero or temperatures outside 0 to
    100 °C.

    Source: specific heat of water, 4.186 kJ/(kg K).

    >>> round(water_heating_energy(40.0, 15.0, 60.0), 2)
    2.09
    """
    require_positive(volume=volume)
    _require_warming(start_temperature, end_temperature)
    return volume * HEAT_PER_LITRE * (end_temperature - start_temperature) / 3600.0


@formula(
    volume="litre",
    start_temperature="degC",
    end_temperature="degC",
    power="watt",
    efficiency=NUMBER,
    returns="minute",
)
def water_heating_time(
    volume: float, start_temperature: float, end_temperature: float, power: float, efficiency: float = 1.0
) -> float:
    """Return the minutes that an immersion heater, or a hob, needs to warm water.

    Arguments:
        volume: cold, L.
        start_temperature: °C.
        end_temperature: °C, above the start.
        power: electrical or rated power, W.
        efficiency: share that reaches the water: 1 for an immersion heater; from memory 0.45 to 0.55 for a gas
            burner, 0.6 to 0.7 for a radiant zone, 0.8 to 0.9 for induction.

    A heater in order takes 1.0 to 1.2 times this. Raises `OutOfRange` for a volume or power not above zero, an
    efficiency outside 0.1 to 1, or temperatures outside 0 to 100 °C.

    Source: specific heat of water; efficiencies of hobs: common practice.

    >>> round(water_heating_time(40.0, 15.0, 60.0, 750.0))
    167
    """
    require_positive(power=power)
    require_within("efficiency", efficiency, 0.1, 1.0)
    energy = water_heating_energy(volume, start_temperature, end_temperature)
    return energy * 60000.0 / (power * efficiency)


@formula(rated_power="watt", rated_voltage="volt", voltage="volt", returns="watt")
def element_power_at_voltage(rated_power: float, rated_voltage: float, voltage: float) -> float:
    """Return the power in W of a heating element at another voltage than its rating.

    Arguments:
        rated_power: W.
        rated_voltage: V.
        voltage: at the element, V.

    Raises `OutOfRange` unless all are above zero.

    Source: Ohm's law with constant resistance.

    At 207 V an element for 230 V gives 81 %:

    >>> round(element_power_at_voltage(1000.0, 230.0, 207.0))
    810
    """
    require_positive(rated_power=rated_power, rated_voltage=rated_voltage, voltage=voltage)
    return rated_power * (voltage / rated_voltage) ** 2


@formula(
    volume="litre",
    hot_temperature="degC",
    cold_temperature="degC",
    use_temperature="degC",
    usable_share=NUMBER,
    returns="litre",
)
def mixed_water(
    volume: float,
    hot_temperature: float,
    cold_temperature: float,
    use_temperature: float = 40.0,
    usable_share: float = 0.8,
) -> float:
    """Return the litres of mixed water that one tankful of hot water gives.

    Arguments:
        volume: of the water heater, L.
        hot_temperature: stored, °C.
        cold_temperature: of the supply, °C.
        use_temperature: at the tap, °C, between cold and hot.
        usable_share: of the tank before cold water breaks through, 0.5 to 1; 0.7 to 0.9 is usual.

    Raises `OutOfRange` for a volume not above zero or temperatures out of order.

    Source: heat balance; usable share from memory (common practice).

    >>> round(mixed_water(75.0, 65.0, 15.0, 38.0, 0.85), 1)
    138.6
    """
    require_positive(volume=volume)
    require_within("usable_share", usable_share, 0.5, 1.0)
    _require_warming(cold_temperature, hot_temperature)
    if not cold_temperature < use_temperature <= hot_temperature:
        raise OutOfRange(
            f"use temperature {use_temperature:g} is not between cold {cold_temperature:g} and "
            f"hot {hot_temperature:g}"
        )
    gain = (hot_temperature - cold_temperature) / (use_temperature - cold_temperature)
    return volume * usable_share * gain


@formula(volume="litre", start_temperature="degC", end_temperature="degC", returns="litre")
def water_expansion(volume: float, start_temperature: float, end_temperature: float) -> float:
    """Return the litres by which the contents of a water heater grow: what a relief valve drips.

    Arguments:
        volume: of the water heater, L.
        start_temperature: °C.
        end_temperature: °C, above the start.

    Raises `OutOfRange` for a volume not above zero or temperatures outside 0 to 100 °C.

    Source: density of water after Kell (1975).

    A tank of 40 L makes 0.65 L from 15 to 60 °C:

    >>> round(water_expansion(40.0, 15.0, 60.0), 2)
    0.65
    """
    require_positive(volume=volume)
    _require_warming(start_temperature, end_temperature)
    return volume * (water_density(start_temperature) / water_density(end_temperature) - 1.0)
