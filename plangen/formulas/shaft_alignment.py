"""Alignment of the propeller shaft to the gearbox."""

from __future__ import annotations

from plangen.formulas.declare import formula, require_within


@formula(coupling_diameter="millimetre", returns="millimetre")
def coupling_gap_limit(coupling_diameter: float) -> float:
    """Return how far in millimetres the gap between the coupling faces may differ around the edge.

    Arguments:
        coupling_diameter: outer diameter of the coupling, mm.

    Measured afloat, with the rig at its tension, and again some weeks after launching. Some makers ask for
    half of it. Valid for couplings from 40 to 400 mm. Raises `OutOfRange` outside.

    Source: Westerbeke, WPDS 20 operator's manual, 0.001 in for each inch of diameter, page read.

    The manual gives 0.003 in (0.076 mm) for a coupling of 3 in (76.2 mm):

    >>> round(coupling_gap_limit(76.2), 3)
    0.076
    """
    require_within("coupling_diameter", coupling_diameter, 40.0, 400.0)
    return float(0.001 * coupling_diameter)
