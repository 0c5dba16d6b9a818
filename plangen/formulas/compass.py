"""Deviation of the steering compass and its five approximate coefficients; east is positive."""

from __future__ import annotations

from collections.abc import Mapping
from math import cos, radians, sin
from typing import NamedTuple

from plangen.formulas.declare import OutOfRange, formula, require_within

_PRINCIPAL_HEADINGS = (0.0, 45.0, 90.0, 135.0, 180.0, 225.0, 270.0, 315.0)
#: The approximate coefficients hold for deviations up to about this many degrees.
_GREATEST_DEVIATION = 25.0


class DeviationCoefficients(NamedTuple):
    """The five approximate coefficients of deviation, degrees, east positive."""

    a: float
    b: float
    c: float
    d: float
    e: float


def _check(deviations: Mapping[float, float]) -> None:
    """Raise `OutOfRange` naming the first deviation that is too large for approximate coefficients."""
    for heading, deviation in deviations.items():
        require_within(f"deviation_on_{heading:03.0f}", deviation, -_GREATEST_DEVIATION, _GREATEST_DEVIATION)


def deviation_coefficients(deviations: Mapping[float, float]) -> DeviationCoefficients:
    """Return the coefficients from the deviations on the eight principal compass headings.

    Arguments:
        deviations: deviation in degrees by compass heading; the headings are 0, 45, 90 and so on.

    Raises `OutOfRange` for other headings and for deviations above 25 degrees.

    Source: Handbook of Magnetic Compass Adjustment (formerly Pub. 226), ch. V, 501; E also in a navigation
    dictionary.

    >>> curve = {0: 10.5, 45: 20, 90: 11.5, 135: -1.2, 180: -5.5, 225: -8, 270: -12.5, 315: -6.8}
    >>> deviation_coefficients(curve).d
    5.0
    """
    if sorted(deviations) != list(_PRINCIPAL_HEADINGS):
        raise OutOfRange("deviations are needed on the eight headings 0, 45, 90, 135, 180, 225, 270 and 315")
    _check(deviations)
    north, northeast, east, southeast, south, southwest, west, northwest = (
        deviations[heading] for heading in _PRINCIPAL_HEADINGS
    )
    return DeviationCoefficients(
        a=sum(deviations.values()) / 8.0,
        b=(east - west) / 2.0,
        c=(north - south) / 2.0,
        d=(northeast - southeast + southwest - northwest) / 4.0,
        e=(north - east + south - west) / 4.0,
    )


def fitted_deviation_coefficients(deviations: Mapping[float, float]) -> DeviationCoefficients:
    """Return the coefficients that best fit the deviations on five or more evenly spaced headings.

    Arguments:
        deviations: deviation in degrees by compass heading; headings are the same number of degrees apart all
            round.

    Raises `OutOfRange` for fewer than five headings, uneven spacing and deviations above 25 degrees.

    Source: Fourier series, which is the least-squares fit for evenly spaced headings.

    >>> round(fitted_deviation_coefficients({h: 2.0 for h in range(0, 360, 30)}).a, 6)
    2.0
    """
    headings, count = sorted(deviations), len(deviations)
    if count < 5:
        raise OutOfRange(f"{count} headings given; at least five, evenly spaced, are needed")
    step = 360.0 / count
    if any(abs(heading - headings[0] - index * step) > 0.5 for index, heading in enumerate(headings)):
        raise OutOfRange(f"the {count} headings are not evenly spaced; they should be {step:g} degrees apart")
    _check(deviations)
    swing = [(radians(heading), deviation) for heading, deviation in deviations.items()]
    return DeviationCoefficients(
        a=sum(deviation for _, deviation in swing) / count,
        b=2.0 / count * sum(deviation * sin(heading) for heading, deviation in swing),
        c=2.0 / count * sum(deviation * cos(heading) for heading, deviation in swing),
        d=2.0 / count * sum(deviation * sin(2.0 * heading) for heading, deviation in swing),
        e=2.0 / count * sum(deviation * cos(2.0 * heading) for heading, deviation in swing),
    )


@formula(
    heading="degree",
    coefficient_a="degree",
    coefficient_b="degree",
    coefficient_c="degree",
    coefficient_d="degree",
    coefficient_e="degree",
    returns="degree",
)
def deviation_on_heading(
    heading: float,
    coefficient_a: float,
    coefficient_b: float,
    coefficient_c: float,
    coefficient_d: float,
    coefficient_e: float,
) -> float:
    """Return the deviation in degrees on a compass heading, east positive.

    Arguments:
        heading: heading by the compass, degrees.
        coefficient_a: constant part, degrees.
        coefficient_b: part that follows the sine of the heading, degrees.
        coefficient_c: part that follows the cosine of the heading, degrees.
        coefficient_d: part that follows the sine of twice the heading, degrees.
        coefficient_e: part that follows the cosine of twice the heading, degrees.

    Valid for headings from 0 to 360 and coefficients up to 25 degrees. Raises `OutOfRange` outside.

    Source: Handbook of Magnetic Compass Adjustment (formerly Pub. 226), ch. V.

    The handbook's curve has 11.5 degrees east on the heading east:

    >>> round(deviation_on_heading(90.0, 1.0, 12.0, 8.0, 5.0, 1.5), 1)
    11.5
    """
    require_within("heading", heading, 0.0, 360.0)
    coefficients = (coefficient_a, coefficient_b, coefficient_c, coefficient_d, coefficient_e)
    for letter, coefficient in zip("abcde", coefficients, strict=True):
        require_within(f"coefficient_{letter}", coefficient, -_GREATEST_DEVIATION, _GREATEST_DEVIATION)
    angle = radians(heading)
    return float(
        coefficient_a
        + coefficient_b * sin(angle)
        + coefficient_c * cos(angle)
        + coefficient_d * sin(2.0 * angle)
        + coefficient_e * cos(2.0 * angle)
    )
