"""Speed through the water from runs in opposite directions over the ground."""

from __future__ import annotations

from collections.abc import Sequence
from math import comb

from plangen.formulas.declare import OutOfRange, require_positive


def mean_of_means(speeds: Sequence[float]) -> float:
    """Return the mean of means of two or more speeds, run in turn in opposite directions at equal intervals.

    The speeds over the ground are weighted by the binomial numbers: 1 1, 1 2 1, 1 3 3 1 and so on, which
    cancels a current that changes as a polynomial of time, of a degree two below the number of runs.

    Raises `OutOfRange` for fewer than two speeds and for speeds not above zero.

    Source: E. C. Tupper, Introduction to Naval Architecture, p. 245, 8 V = V1 + 3 V2 + 3 V3 + V4, page read; the other
    weights follow from the same rule.

    >>> round(mean_of_means([11.0, 9.28, 10.48, 9.72]), 3)
    10.0
    """
    if len(speeds) < 2:
        raise OutOfRange(f"{len(speeds)} run given; at least two runs in opposite directions are needed")
    require_positive(**{f"speed_of_run_{number}": speed for number, speed in enumerate(speeds, start=1)})
    order = len(speeds) - 1
    return float(sum(comb(order, index) * speed for index, speed in enumerate(speeds)) / 2**order)
