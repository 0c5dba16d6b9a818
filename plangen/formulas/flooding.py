"""Water that enters through a hole, and the time until it matters."""

from __future__ import annotations

import math

from plangen.formulas.declare import NUMBER, OutOfRange, formula, require_positive, require_within

GRAVITY = 9.80665


@formula(diameter="millimetre", depth="metre", discharge_coefficient=NUMBER, returns="litre/minute")
def hole_inflow(diameter: float, depth: float, discharge_coefficient: float = 0.6) -> float:
    """Return the water in L/min that enters through a round hole below the waterline.

    Arguments:
        diameter: of the hole or the bore of the failed fitting, mm.
        depth: of its centre below the outside water, m.
        discharge_coefficient: 0.6 for a sharp hole; 1.0 is an upper bound and what many tables use.

    Valid while the water inside stays below the hole. Raises `OutOfRange` for a diameter or depth not above
    zero or a coefficient outside 0.5 to 1.

    Source: Torricelli's law, Q = Cd A sqrt(2 g h). The table of flooding rates on whsyc.org (Cd = 1)
    gives 111.1 US gal/min (420.6 L/min) for 2 in at 2 ft:

    >>> round(hole_inflow(50.8, 0.6096, 1.0) / 3.785411784, 1)
    111.1
    """
    require_positive(diameter=diameter, depth=depth)
    require_within("discharge_coefficient", discharge_coefficient, 0.5, 1.0)
    area = math.pi / 4.0 * (diameter / 1000.0) ** 2
    return discharge_coefficient * area * math.sqrt(2.0 * GRAVITY * depth) * 60000.0


@formula(volume="litre", inflow="litre/minute", pumped_out="litre/minute", returns="minute")
def flooding_time(volume: float, inflow: float, pumped_out: float = 0.0) -> float:
    """Return the minutes until a leak fills a volume, such as the bilge up to the floorboards.

    Arguments:
        volume: of the space below the level that matters, L.
        inflow: through the hole, L/min.
        pumped_out: by the pumps as delivered in place, L/min.

    Raises `OutOfRange` for a volume or inflow not above zero, a negative pump flow, or when the pumps keep up
    with the leak.

    Source: volume balance.

    >>> flooding_time(500.0, 55.0, 30.0)
    20.0
    """
    require_positive(volume=volume, inflow=inflow)
    if not pumped_out >= 0:
        raise OutOfRange(f"pumped out is {pumped_out:g}; it must not be below zero")
    if pumped_out >= inflow:
        raise OutOfRange(f"pumps that move {pumped_out:g} L/min keep up with a leak of {inflow:g} L/min")
    return volume / (inflow - pumped_out)
