"""Filling, gauging and pressure-testing tanks of any kind."""

from __future__ import annotations

import math

from plangen.formulas.declare import (
    NUMBER,
    TEXT,
    OutOfRange,
    formula,
    require_positive,
    require_within,
)

#: Shapes for which the volume at a height is known in closed form.
TANK_SHAPES = ("box", "wedge", "horizontal cylinder")

LITRES_PER_US_GALLON = 3.785411784
GRAVITY = 9.80665


@formula(capacity="litre", rate="litre/minute", returns="minute")
def tank_fill_time(capacity: float, rate: float) -> float:
    """Return the minutes that a steady flow needs to fill a tank from empty.

    Arguments:
        capacity: gross capacity, L.
        rate: flow of the dock hose or pump, L/min; 40 to 60 L/min is a usual dock hose.

    Raises `OutOfRange` unless both are above zero.

    Source: definition of flow; dock rate: common practice.

    >>> tank_fill_time(600.0, 40.0)
    15.0
    """
    require_positive(capacity=capacity, rate=rate)
    return capacity / rate


@formula(capacity="litre", height_share=NUMBER, shape=TEXT, returns="litre")
def tank_gauge_volume(capacity: float, height_share: float, shape: str = "box") -> float:
    """Return the litres in a tank whose contents stand at a share of its height.

    Arguments:
        capacity: gross capacity, L.
        height_share: height of the contents over the height of the tank, 0 to 1.
        shape: "box" (straight sides), "wedge" (V section with its point down) or "horizontal cylinder".

    This is what a gauge that senses height must be calibrated for. Raises `OutOfRange` for another shape,
    a capacity not above zero, or a height outside the tank.

    Source: geometry. "Marking a Dipstick" (tognews.com): in a V-shaped tank half of the volume stands at
    nearly three quarters of the height. A wedge gives 0.707:

    >>> round(tank_gauge_volume(100.0, 0.7071, "wedge"))
    50
    """
    require_positive(capacity=capacity)
    require_within("height_share", height_share, 0.0, 1.0)
    if shape == "box":
        return capacity * height_share
    if shape == "wedge":
        return capacity * height_share**2
    if shape == "horizontal cylinder":
        half = 1.0 - 2.0 * height_share
        return capacity * (math.acos(half) - half * math.sqrt(1.0 - half * half)) / math.pi
    raise OutOfRange(f"tank shape is {shape!r}; known shapes are: {', '.join(TANK_SHAPES)}")


@formula(reading="litre", volume="litre", capacity="litre", returns="percent")
def tank_gauge_error(reading: float, volume: float, capacity: float) -> float:
    """Return a gauge's error in percent of full scale: positive when it shows more than is there.

    Arguments:
        reading: what the gauge shows, L.
        volume: what the flow meter put in, L.
        capacity: gross capacity, which is the gauge's full scale, L.

    Raises `OutOfRange` for a capacity not above zero or a negative volume or reading.

    Source: definition of an error of full scale.

    >>> tank_gauge_error(34.0, 30.0, 120.0)
    3.3333333333333335
    """
    require_positive(capacity=capacity)
    if not (reading >= 0 and volume >= 0):
        raise OutOfRange(f"reading {reading:g} and volume {volume:g} must not be below zero")
    return (reading - volume) / capacity * 100.0


@formula(head="metre", density="kilogram/metre**3", returns="kilopascal")
def fuel_tank_test_pressure(head: float, density: float = 1000.0) -> float:
    """Return the air pressure in kPa for the static test of an installed fuel system.

    Arguments:
        head: height of the top of the fill or vent above the bottom of the system, m.
        density: of the liquid whose head counts, kg/m3; water is the severe case.

    The greater of 3 psi (20.7 kPa) and 1.5 times the head. Valid for heads up to 10 m.
    Raises `OutOfRange` outside.

    Source: United States Coast Guard fuel system laboratory guide, examination 11, static pressure test.

    A head of 1 m of water is 9.8 kPa, so the 3 psi govern:

    >>> round(fuel_tank_test_pressure(1.0), 1)
    20.7
    """
    require_positive(density=density)
    require_within("head", head, 0.0, 10.0)
    three_psi = 20.684
    return max(three_psi, 1.5 * density * GRAVITY * head / 1000.0)


@formula(capacity="litre", returns="minute")
def fuel_tank_test_time(capacity: float) -> float:
    """Return the minutes for which the static pressure test of a fuel system is held.

    Arguments:
        capacity: of the tank, L.

    Five minutes, and one more for each 10 US gallons above 50. Raises `OutOfRange` for a capacity not above
    zero.

    Source: United States Coast Guard fuel system laboratory guide, examination 11, static pressure test.

    A tank of 100 US gallons is held for 10 minutes:

    >>> round(fuel_tank_test_time(378.5411784), 6)
    10.0
    """
    require_positive(capacity=capacity)
    return 5.0 + max(0.0, capacity / LITRES_PER_US_GALLON - 50.0) / 10.0
