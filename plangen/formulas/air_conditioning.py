"""Marine air conditioning: the capacity that rooms ask for, and the sea-water side."""

from __future__ import annotations

from plangen.formulas.declare import NUMBER, OutOfRange, formula, require_positive, require_within

#: Watts in one Btu/h.
WATT_PER_BTU_PER_HOUR = 0.29307107
LITRES_PER_US_GALLON = 3.785411784
CUBIC_FOOT = 0.0283168466
SQUARE_FOOT = 0.09290304


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

    Source: Flagship Marine, "How to size your boat", and Practical Sailor 45/6, "Calculating the Right Air
    Conditioner Size".

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

    Source: trade rule reported on Cruisers Forum (2005, "Marine air conditioning"): 200 US gal/h for each 12,000 Btu/h. 12.6 L/min:

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
