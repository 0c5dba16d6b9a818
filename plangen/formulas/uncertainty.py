"""Measurement uncertainty: a meter's error limit, and pass or fail with a guard band."""

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


@formula(reading=NUMBER, share_of_reading="percent", digits=NUMBER, resolution=NUMBER, returns=NUMBER)
def meter_error_limit(reading: float, share_of_reading: float, digits: float, resolution: float) -> float:
    """Return the greatest error of a meter, in the unit of the reading.

    Arguments:
        reading: what the meter shows, in any unit.
        share_of_reading: first term of the specification, percent.
        digits: second term, in counts of the last digit.
        resolution: one count of the last digit on this range, in the unit of the reading.

    Raises `OutOfRange` for negative terms or a resolution not above zero.

    Source: the usual form of a meter's specification, +-(a % of reading + n digits). A university's laboratory
    sheet gives +-0.83 V for 32.00 V at +-(2.5 % + 3 digits):

    >>> round(meter_error_limit(32.0, 2.5, 3.0, 0.01), 2)
    0.83
    """
    _require_finite(reading=reading)
    require_positive(resolution=resolution)
    if not (share_of_reading >= 0 and digits >= 0):
        raise OutOfRange("the terms of a meter's specification must not be below zero")
    return abs(reading) * share_of_reading / 100.0 + digits * resolution


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


@formula(uncertainty=NUMBER, factor=NUMBER, returns=NUMBER)
def guard_band(uncertainty: float, factor: float = 1.0) -> float:
    """Return the width by which acceptance limits lie inside the tolerance limits.

    Arguments:
        uncertainty: expanded, k = 2, in the unit of the reading.
        factor: 0 simple acceptance, 0.83 (ISO 14253-1:2017), 1 (risk below 2.5 %), 1.5 (below 0.16 %), 3.

    Raises `OutOfRange` for a negative uncertainty or a factor outside 0 to 3.

    Source: ILAC-G8:09/2019, guard band w = r U.

    >>> round(guard_band(0.2, 0.83), 3)
    0.166
    """
    require_within("factor", factor, 0.0, 3.0)
    if not uncertainty >= 0:
        raise OutOfRange(f"uncertainty is {uncertainty:g}; it must not be below zero")
    return factor * uncertainty


@formula(limit=NUMBER, band=NUMBER, returns=NUMBER)
def upper_acceptance_limit(limit: float, band: float) -> float:
    """Return the greatest reading that passes an upper tolerance limit for certain.

    Arguments:
        limit: upper tolerance limit.
        band: guard band, in the same unit.

    Raises `OutOfRange` for a negative band or a limit that is no number.

    Source: ILAC-G8:09/2019, acceptance limit = tolerance limit - w.

    >>> upper_acceptance_limit(11.0, 0.2)
    10.8
    """
    if not band >= 0:
        raise OutOfRange(f"guard band is {band:g}; it must not be below zero")
    _require_finite(limit=limit)
    return limit - band


@formula(limit=NUMBER, band=NUMBER, returns=NUMBER)
def lower_acceptance_limit(limit: float, band: float) -> float:
    """Return the least reading that passes a lower tolerance limit for certain.

    Arguments:
        limit: lower tolerance limit.
        band: guard band, in the same unit.

    Raises `OutOfRange` for a negative band or a limit that is no number.

    Source: ILAC-G8:09/2019, acceptance limit = tolerance limit + w.

    >>> lower_acceptance_limit(9.0, 0.2)
    9.2
    """
    if not band >= 0:
        raise OutOfRange(f"guard band is {band:g}; it must not be below zero")
    _require_finite(limit=limit)
    return limit + band


@formula(factor=NUMBER, returns="percent")
def risk_at_acceptance_limit(factor: float) -> float:
    """Return the percent chance that an item which reads just at the acceptance limit is out of tolerance.

    Arguments:
        factor: guard band over expanded uncertainty (k = 2), 0 to 3.

    Raises `OutOfRange` outside.

    Source: normal distribution with u = U/2; published bounds: up to 50 % without guard band, below 5 % for
    0.83, below 2.5 % for 1, below 0.16 % for 1.5.

    >>> round(risk_at_acceptance_limit(1.0), 1)
    2.3
    """
    require_within("factor", factor, 0.0, 3.0)
    return 100.0 * _normal(-2.0 * factor)


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

    Pass and fail are certain; a conditional statement says to which side the reading leans inside the band.
    Raises `OutOfRange` when no limit is given.

    Source: ILAC-G8:09/2019, 4.2.3 (its four statements; secondary for the formulas).

    >>> conformity(0.0025, 0.0010, high=0.003)
    'conditional pass'
    """
    if low is None and high is None:
        raise OutOfRange("at least one tolerance limit is needed")
    _require_finite(reading=reading, low=low, high=high)
    band = guard_band(uncertainty, factor)
    margins = [high - reading] if high is not None else []
    margins += [reading - low] if low is not None else []
    margin = min(margins)
    if margin >= band:
        return "pass"
    if margin >= 0.0:
        return "conditional pass"
    return "conditional fail" if margin >= -band else "fail"
