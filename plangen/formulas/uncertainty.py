"""Measurement uncertainty, and pass or fail with a guard band."""

from __future__ import annotations

import math
from typing import Literal

from plangen.formulas.declare import NUMBER, OutOfRange, formula, require_positive, require_within

#: The four statements of the guide on decision rules.
Statement = Literal["pass", "conditional pass", "conditional fail", "fail"]


def _require_finite(**values: float | None) -> None:
    for name, value in values.items():
        if value is not None and not math.isfinite(value):
            raise OutOfRange(f"{name} is {value}; a number is needed")


def _normal(z: float) -> float:
    return 0.5 * math.erfc(-z / math.sqrt(2.0))


@formula(error_limit=NUMBER, coverage_factor=NUMBER, returns=NUMBER)
def expanded_uncertainty(error_limit: float, coverage_factor: float = 2.0) -> float:
    """Return the expanded uncertainty that goes with a meter's error limit.

    Arguments:
        error_limit: greatest error by the specification, in the unit of the reading.
        coverage_factor: 2 for about 95 %.

    Every error within the limit is taken as equally likely: u = limit / sqrt(3), U = k u. Raises `OutOfRange`
    for a negative limit or a factor outside 1 to 4.

    Source: JCGM 100 (GUM), rectangular distribution (from memory).

    >>> round(expanded_uncertainty(1.0), 3)
    1.155
    """
    require_within("coverage_factor", coverage_factor, 1.0, 4.0)
    if not error_limit >= 0:
        raise OutOfRange(f"error limit is {error_limit:g}; it must not be below zero")
    return coverage_factor * error_limit / math.sqrt(3.0)


@formula(low=NUMBER, high=NUMBER, uncertainty=NUMBER, returns=NUMBER)
def uncertainty_ratio(low: float, high: float, uncertainty: float) -> float:
    """Return how many times the tolerance exceeds the uncertainty: 4 is the usual aim.

    Arguments:
        low: lower tolerance limit.
        high: upper tolerance limit.
        uncertainty: expanded, k = 2, in the same unit.

    At 1 and below no pass zone is left and the meter is unsuitable. Raises `OutOfRange` for limits out of order
    or an uncertainty not above zero.

    Source: published calibration guidance, (upper - lower) / (2 U); JCGM 106:2012 calls a like ratio the
    measurement capability index. Its example: +-0.05 V with 0.0125 V is 4:1:

    >>> round(uncertainty_ratio(-0.05, 0.05, 0.0125), 9)
    4.0
    """
    require_positive(uncertainty=uncertainty)
    if not high > low:
        raise OutOfRange(f"upper limit {high:g} is not above the lower limit {low:g}")
    return (high - low) / (2.0 * uncertainty)


def conformance_probability(
    reading: float, uncertainty: float, low: float | None = None, high: float | None = None
) -> float:
    """Return the probability, 0 to 1, that the true value lies within the tolerance.

    Arguments:
        reading: measured.
        uncertainty: expanded, k = 2, in the same unit.
        low: lower tolerance limit, or none.
        high: upper tolerance limit, or none.

    Normal distribution about the reading with u = U/2. Raises `OutOfRange` for an uncertainty not above zero or
    no limit at all.

    Source: JCGM 106:2012, 7.4, whose example (13.6, u 1.8, limits 12.5 and 16.3) gives 0.66:

    >>> round(conformance_probability(13.6, 3.6, 12.5, 16.3), 2)
    0.66
    """
    require_positive(uncertainty=uncertainty)
    if low is None and high is None:
        raise OutOfRange("at least one tolerance limit is needed")
    _require_finite(reading=reading, low=low, high=high)
    u = uncertainty / 2.0
    below = 1.0 if high is None else _normal((high - reading) / u)
    under = 0.0 if low is None else _normal((low - reading) / u)
    return below - under


def conformity(
    reading: float,
    uncertainty: float,
    low: float | None = None,
    high: float | None = None,
    factor: float = 1.0,
) -> Statement:
    """Return the statement of conformity of a reading with its guard band.

    Arguments:
        reading: measured.
        uncertainty: expanded, k = 2, in the same unit.
        low: lower tolerance limit, or none.
        high: upper tolerance limit, or none.
        factor: guard band over uncertainty.

    The guard band is factor times uncertainty: 0 is simple acceptance, 0.83 that of ISO 14253-1:2017, 1 a risk
    below 2.5 %. Pass and fail are certain; a conditional statement says to which side the reading leans inside
    the band. Raises `OutOfRange` when no limit is given, for a negative uncertainty or a factor outside 0 to 3.

    Source: ILAC-G8:09/2019, 4.2.3 (its four statements; secondary for the formulas).

    >>> conformity(0.0025, 0.0010, high=0.003)
    'conditional pass'
    """
    if low is None and high is None:
        raise OutOfRange("at least one tolerance limit is needed")
    _require_finite(reading=reading, low=low, high=high)
    require_within("factor", factor, 0.0, 3.0)
    if not uncertainty >= 0:
        raise OutOfRange(f"uncertainty is {uncertainty:g}; it must not be below zero")
    band = factor * uncertainty
    margins = [high - reading] if high is not None else []
    margins += [reading - low] if low is not None else []
    margin = min(margins)
    if margin >= band:
        return "pass"
    if margin >= 0.0:
        return "conditional pass"
    return "conditional fail" if margin >= -band else "fail"
