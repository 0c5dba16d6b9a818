"""Refrigerators and freezers: heat leak and daily energy."""

from __future__ import annotations

from plangen.formulas.declare import NUMBER, OutOfRange, formula, require_positive, require_within

#: kJ/kg to melt ice.
LATENT_HEAT = 334.0


@formula(ice_melted="kilogram", time="hour", returns="watt")
def ice_melt_heat_leak(ice_melted: float, time: float = 24.0) -> float:
    """Return a box's heat leak in W from the ice that it melts while switched off.

    Arguments:
        ice_melted: melt water weighed, kg.
        time: h.

    The box must hold ice and water at 0 °C throughout. Raises `OutOfRange` unless both are above zero.

    Source: latent heat of ice, 334 kJ/kg (from memory).

    >>> round(ice_melt_heat_leak(5.0), 1)
    19.3
    """
    require_positive(ice_melted=ice_melted, time=time)
    return ice_melted * LATENT_HEAT * 1000.0 / (time * 3600.0)


@formula(
    area="metre**2",
    thickness="millimetre",
    inside_temperature="degC",
    outside_temperature="degC",
    conductivity="watt/(metre*kelvin)",
    returns="watt",
)
def insulation_heat_leak(
    area: float,
    thickness: float,
    inside_temperature: float,
    outside_temperature: float,
    conductivity: float = 0.025,
) -> float:
    """Return the heat in W that passes a box's insulation; lids, seals and hoses come on top.

    Arguments:
        area: mean of inside and outside surface, m2.
        thickness: of the insulation, mm.
        inside_temperature: °C.
        outside_temperature: °C, above the inside.
        conductivity: W/(m K), 0.002 to 0.1: 0.025 for closed-cell polyurethane foam (from memory).

    Raises `OutOfRange` for an area or thickness not above zero or temperatures out of order.

    Source: Fourier's law.

    >>> insulation_heat_leak(2.0, 50.0, 5.0, 30.0)
    25.0
    """
    require_positive(area=area, thickness=thickness)
    require_within("conductivity", conductivity, 0.002, 0.1)
    if not outside_temperature > inside_temperature:
        raise OutOfRange(f"outside {outside_temperature:g} is not warmer than inside {inside_temperature:g}")
    return conductivity * area * (outside_temperature - inside_temperature) / (thickness / 1000.0)


@formula(
    capacity="litre",
    thickness="millimetre",
    inside_temperature="degC",
    outside_temperature="degC",
    returns="watt",
)
def cold_box_heat_leak(
    capacity: float, thickness: float, inside_temperature: float, outside_temperature: float
) -> float:
    """Return the greatest heat leak in W that a sound cold box of a given capacity has.

    Arguments:
        capacity: inside volume, L.
        thickness: of the insulation, mm.
        inside_temperature: °C.
        outside_temperature: °C, above the inside.

    The box is taken as a cube of that volume in foam of 0.025 W/(m K), with half as much again for lid, seal and
    pipes. Raises `OutOfRange` for a capacity or thickness not above zero or temperatures out of order.

    Source: Fourier's law over the mean of inside and outside surface; the half for lid and seal is common practice.

    A cube of 0.5 m (125 L) in 50 mm, 5 °C inside and 30 °C outside: mean surface 1.83 m2, 22.9 W, and half again:

    >>> round(cold_box_heat_leak(125.0, 50.0, 5.0, 30.0), 1)
    34.3
    """
    require_positive(capacity=capacity, thickness=thickness)
    inside = (capacity / 1000.0) ** (1.0 / 3.0)
    outside = inside + 2.0 * thickness / 1000.0
    area = 3.0 * (inside**2 + outside**2)
    return 1.5 * insulation_heat_leak(area, thickness, inside_temperature, outside_temperature)


@formula(heat_leak="watt", performance=NUMBER, returns="watt_hour/day")
def refrigeration_daily_energy(heat_leak: float, performance: float = 1.5) -> float:
    """Return the energy in Wh per day that a refrigerator uses to hold its temperature.

    Arguments:
        heat_leak: into the box, W.
        performance: coefficient of performance, 0.5 to 4: 1.0 to 1.5 is usual for a small sealed unit.

    Raises `OutOfRange` for a leak not above zero or another coefficient.

    Source: heat balance; coefficient of performance: common practice.

    >>> refrigeration_daily_energy(30.0)
    480.0
    """
    require_positive(heat_leak=heat_leak)
    require_within("performance", performance, 0.5, 4.0)
    return heat_leak * 24.0 / performance
