"""Navigation lights: the range that the rules ask for, and the intensity that gives it."""

from __future__ import annotations

from plangen.formulas.declare import NUMBER, TEXT, formula, require_positive, require_within
from plangen.formulas.vocabulary import choose

_THRESHOLD = 2e-7
_CANDELA_PER_LUX_AT_ONE_MILE = 3.43e6
#: Range in nautical miles by light: below 12 m, from 12 m, from 20 m, from 50 m of length.
_REQUIRED_RANGE = {
    "masthead": (2.0, 3.0, 5.0, 6.0),
    "sidelight": (1.0, 2.0, 2.0, 3.0),
    "sternlight": (2.0, 2.0, 2.0, 3.0),
    "towing": (2.0, 2.0, 2.0, 3.0),
    "all-round": (2.0, 2.0, 2.0, 3.0),
}
_LENGTH_STEPS = (12.0, 20.0, 50.0)


@formula(length="metre", light=TEXT, returns="nautical_mile")
def light_range_required(length: float, light: str) -> float:
    """Return the least range in nautical miles at which a light must be visible.

    Arguments:
        length: length of the vessel, m.
        light: "masthead", "sidelight", "sternlight", "towing" or "all-round".

    Raises `OutOfRange` for another word and lengths not above zero.

    Source: COLREG Rule 22, which 33 CFR 83.22 repeats (text read, checked 2026-06-20).

    >>> light_range_required(14.1, "masthead")
    3.0
    """
    require_positive(length=length)
    ranges = choose("light", light, _REQUIRED_RANGE)
    return ranges[sum(length >= step for step in _LENGTH_STEPS)]


@formula(range_of_visibility="nautical_mile", transmissivity=NUMBER, returns="candela")
def luminous_intensity(range_of_visibility: float, transmissivity: float = 0.8) -> float:
    """Return the least intensity in candelas of a light that must be visible at a range.

    Arguments:
        range_of_visibility: range, nautical miles.
        transmissivity: part of the light that one mile of air lets through; the rules fix 0.8.

    Valid for ranges from 0.1 to 10 miles and transmissivities from 0.1 to 1. Raises `OutOfRange` outside.

    Source: COLREG Annex I section 8 and 33 CFR 84.14 (text read): 3.43 x 10^6 x 2 x 10^-7 lx x D^2 x K^-D.

    The table of the rule gives 4.3 cd for 2 miles:

    >>> round(luminous_intensity(2.0), 1)
    4.3
    """
    require_within("range_of_visibility", range_of_visibility, 0.1, 10.0)
    require_within("transmissivity", transmissivity, 0.1, 1.0)
    return float(
        _CANDELA_PER_LUX_AT_ONE_MILE
        * _THRESHOLD
        * range_of_visibility**2
        * transmissivity**-range_of_visibility
    )
