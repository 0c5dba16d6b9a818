"""Speed through the water from runs in opposite directions over the ground."""

from __future__ import annotations

from collections.abc import Sequence
from math import comb

from plangen.formulas.declare import OutOfRange, formula, require_positive


def mean_of_means(speeds: Sequence[float]) -> float:
    """Return the mean of means of two or more speeds, run in turn in opposite directions at equal intervals.

    The speeds over the ground are weighted by the binomial numbers: 1 1, 1 2 1, 1 3 3 1 and so on, which
    cancels a current that changes as a polynomial of time, of a degree two below the number of runs.

    Raises `OutOfRange` for fewer than two speeds and for speeds not above zero.

    Source: an introduction to naval architecture, p. 245, 8 V = V1 + 3 V2 + 3 V3 + V4, page read; the other
    weights follow from the same rule.

    >>> round(mean_of_means([11.0, 9.28, 10.48, 9.72]), 3)
    10.0
    """
    if len(speeds) < 2:
        raise OutOfRange(f"{len(speeds)} run given; at least two runs in opposite directions are needed")
    require_positive(**{f"speed_of_run_{number}": speed for number, speed in enumerate(speeds, start=1)})
    order = len(speeds) - 1
    return float(sum(comb(order, index) * speed for index, speed in enumerate(speeds)) / 2**order)


@formula(first="knot", second="knot", returns="knot")
def mean_of_two_runs(first: float, second: float) -> float:
    """Return the speed through the water in knots from two reciprocal runs in a constant current.

    Arguments:
        first: speed over the ground of the first run, kn.
        second: speed over the ground of the run back, kn.

    The mean of the speeds, not the distance over the total time, which is too low. Raises `OutOfRange` for
    values not above zero.

    Source: a sailing magazine's advice on log calibration and ship trial practice (secondary).

    Speeds of 20 and 10 have the mean 15, where distance over time would give 13.3:

    >>> mean_of_two_runs(20.0, 10.0)
    15.0
    """
    return mean_of_means((first, second))


@formula(first="knot", second="knot", third="knot", returns="knot")
def mean_of_three_runs(first: float, second: float, third: float) -> float:
    """Return the mean of means in knots of three runs, there, back and there again.

    Arguments:
        first: speed over the ground of the first run, kn.
        second: speed over the ground of the run back, kn.
        third: speed over the ground of the third run, kn.

    Cancels a current that changes evenly. Raises `OutOfRange` for values not above zero.

    Source: as `mean_of_means`.

    A boat of 8 kn in a current of 1.0, 0.8 and 0.6 kn:

    >>> round(mean_of_three_runs(9.0, 7.2, 8.6), 3)
    8.0
    """
    return mean_of_means((first, second, third))


@formula(first="knot", second="knot", third="knot", fourth="knot", returns="knot")
def mean_of_four_runs(first: float, second: float, third: float, fourth: float) -> float:
    """Return the mean of means in knots of four runs, two there and two back.

    Arguments:
        first: speed over the ground of the first run, kn.
        second: speed over the ground of the first run back, kn.
        third: speed over the ground of the second run, kn.
        fourth: speed over the ground of the second run back, kn.

    Cancels a current that changes as a quadratic of time, with runs at equal intervals. Raises `OutOfRange`
    for values not above zero.

    Source: an introduction to naval architecture, p. 245, 8 V = V1 + 3 V2 + 3 V3 + V4, page read.

    >>> round(mean_of_four_runs(11.0, 9.28, 10.48, 9.72), 3)
    10.0
    """
    return mean_of_means((first, second, third, fourth))
