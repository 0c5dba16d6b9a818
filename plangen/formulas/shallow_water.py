"""Depth in which a trial is not slowed by the bottom, and how exact the sounder is to be."""

from __future__ import annotations

from plangen.formulas.declare import OutOfRange, formula, require_positive
from plangen.formulas.vocabulary import choose_listed

_GRAVITY = 9.81
#: Tolerance in metres on each range scale that the sounder standard names.
_SCALE_TOLERANCE = {20.0: 0.5, 200.0: 5.0}


@formula(beam="metre", draught="metre", speed="metre/second", returns="metre")
def depth_free_of_shallow_water(beam: float, draught: float, speed: float) -> float:
    """Return the least depth in metres that does not slow a speed trial.

    Arguments:
        beam: beam on the waterline, m.
        draught: draught, m.
        speed: greatest speed of the trial, m/s.

    The larger of 3 x square root of (beam x draught) and 2.75 x speed^2 / g. At planing speeds it is often
    met offshore only. Raises `OutOfRange` for values not above zero.

    Source: ITTC 7.5-04-01-01.1 and ISO 15016, from memory.

    >>> round(depth_free_of_shallow_water(4.2, 2.0, 3.858), 1)
    8.7
    """
    require_positive(beam=beam, draught=draught, speed=speed)
    return float(max(3.0 * (beam * draught) ** 0.5, 2.75 * speed**2 / _GRAVITY))


@formula(depth="metre", range_scale="metre", returns="metre")
def echo_sounder_tolerance(depth: float, range_scale: float = 20.0) -> float:
    """Return how far in metres an echo sounder may be out.

    Arguments:
        depth: true depth below the transducer, m.
        range_scale: range scale in use, 20 m or 200 m.

    The larger of 0.5 m on the 20 m scale or 5 m on the 200 m scale, and 2.5 % of the depth. Raises
    `OutOfRange` for another scale, for a depth beyond the scale and for values not above zero.

    Source: a summary of the IMO performance standards for echo sounding equipment, page read. A ships'
    standard, used here as a yardstick.

    >>> echo_sounder_tolerance(18.0)
    0.5
    """
    require_positive(depth=depth)
    scale = choose_listed("range scale", range_scale, _SCALE_TOLERANCE)
    if depth > scale:
        raise OutOfRange(f"depth is {depth:g} m, beyond the range scale of {range_scale:g} m")
    return float(max(_SCALE_TOLERANCE[scale], 0.025 * depth))
