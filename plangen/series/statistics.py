"""Statistics of few hulls: exact intervals of a share, how well a spread is known, and readings that stand apart."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache
from math import exp, lgamma, log, log1p, sqrt

#: Fewer readings than this hold no outlier that any test could tell.
FEWEST_FOR_OUTLIERS = 5
#: The chance with which the outlier test points at readings among which none stands apart.
FALSE_ALARM = 0.01
_HALVINGS = 90


def share_below(x: float, a: float, b: float) -> float:
    """Return the share of a beta distribution that lies below `x`: the regularised incomplete beta function.

    By its continued fraction (Abramowitz and Stegun 26.5.8, from memory).

    >>> round(share_below(0.5, 2.0, 3.0), 4)
    0.6875
    """
    if x <= 0.0 or x >= 1.0:
        return float(x > 0.0)
    if x > (a + 1.0) / (a + b + 2.0):
        return 1.0 - share_below(1.0 - x, b, a)
    front = exp(lgamma(a + b) - lgamma(a) - lgamma(b) + a * log(x) + b * log1p(-x)) / a
    return front * _continued_fraction(x, a, b)


def _continued_fraction(x: float, a: float, b: float) -> float:
    """Return 1/(1 + d1/(1 + d2/(1 + …))), from its tail on."""
    value = 1.0
    for m in range(60 + int(6 * sqrt(a + b)), 0, -1):
        half = m // 2
        if m % 2:
            d = -(a + half) * (a + b + half) * x / ((a + 2 * half) * (a + 2 * half + 1))
        else:
            d = half * (b - half) * x / ((a + m - 1) * (a + m))
        value = 1.0 + d / value
    return 1.0 / value


def _root(rising: Callable[[float], float], wanted: float, low: float, high: float) -> float:
    """Return where a rising function takes a value, by halving."""
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if middle in (low, high):
            break
        low, high = (middle, high) if rising(middle) < wanted else (low, middle)
    return (low + high) / 2


@cache
def share_interval(count: int, of: int, confidence: float = 0.95) -> tuple[float, float]:
    """Return the exact interval of a share, that of Clopper and Pearson (1934): it holds the true share at least so often.

    >>> tuple(round(end, 3) for end in share_interval(5, 25))
    (0.068, 0.407)
    """
    if not 0 <= count <= of or of == 0:
        raise ValueError(f"{count} of {of} is no share")
    tail = (1.0 - confidence) / 2
    low = 0.0 if count == 0 else _root(lambda p: share_below(p, count, of - count + 1), tail, 0.0, 1.0)
    high = 1.0 if count == of else _root(lambda p: share_below(p, count + 1, of - count), 1 - tail, 0.0, 1.0)
    return low, high


@cache
def student_quantile(probability: float, freedom: int) -> float:
    """Return the quantile of Student's t distribution, for a probability above one half."""

    def below(t: float) -> float:
        return 1.0 - share_below(freedom / (freedom + t * t), freedom / 2, 0.5) / 2

    return _root(below, probability, 0.0, 1e6)


@dataclass(frozen=True)
class Spread:
    """Number, mean and standard deviation of readings; one reading has no deviation."""

    number: int
    mean: float
    deviation: float | None

    @property
    def deviation_uncertainty(self) -> float | None:
        """Return how well the deviation itself is known, as a share of it (JCGM 100:2008, table E.1).

        >>> round(Spread(4, 0.0, 1.0).deviation_uncertainty or 0.0, 2)
        0.42
        """
        if self.number < 2:
            return None
        n = self.number
        c4 = sqrt(2.0 / (n - 1)) * exp(lgamma(n / 2) - lgamma((n - 1) / 2))
        return sqrt(1.0 - c4 * c4) / c4


def spread_of(values: Sequence[float]) -> Spread:
    """Return the spread of readings.

    >>> spread_of([12.0, 13.0, 14.0])
    Spread(number=3, mean=13.0, deviation=1.0)
    """
    n = len(values)
    mean = sum(values) / n
    deviation = sqrt(sum((value - mean) ** 2 for value in values) / (n - 1)) if n > 1 else None
    return Spread(n, mean, deviation)


@dataclass(frozen=True)
class Deviate:
    """One step of the test: which reading lies farthest from the rest, how far, and how far it may lie."""

    index: int
    statistic: float
    critical: float


def extreme_deviates(values: Sequence[float], most: int, false_alarm: float) -> list[Deviate]:
    """Return the steps of the generalized extreme studentized deviate test (Rosner, Technometrics 25, 1983; NIST/SEMATECH
    e-Handbook of Statistical Methods, 1.3.5.17.3). With one step it is Grubbs' test.

    Step by step the reading that lies farthest from the mean, in standard deviations, is taken out.
    """
    left = list(enumerate(values))
    found: list[Deviate] = []
    for step in range(1, most + 1):
        spread = spread_of([value for _, value in left])
        if len(left) < 3 or not spread.deviation:
            break
        mean = spread.mean
        place = max(range(len(left)), key=lambda n: abs(left[n][1] - mean))
        index, value = left.pop(place)
        statistic = abs(value - mean) / spread.deviation
        found.append(Deviate(index, statistic, _critical(len(values), step, false_alarm)))
    return found


@cache
def _critical(number: int, step: int, false_alarm: float) -> float:
    left = number - step
    t = student_quantile(1.0 - false_alarm / (2.0 * (left + 1)), left - 1)
    return left * t / sqrt((left - 1 + t * t) * (left + 1))


def most_outliers(number: int) -> int:
    """Return how many readings of so many the test may point at: one of few, a tenth of many, at most ten.

    Rosner showed the test for up to ten.

    >>> most_outliers(4), most_outliers(8), most_outliers(20), most_outliers(500)
    (0, 1, 2, 10)
    """
    if number < FEWEST_FOR_OUTLIERS:
        return 0
    return 1 if number < 15 else min(10, max(2, number // 10))


def outliers(values: Sequence[float], seen: float = 0.0) -> tuple[int, ...]:
    """Return which readings stand apart from the others, by their places.

    `seen` is the smallest difference that the instruments can tell: what differs less stands apart from nothing.
    """
    steps = extreme_deviates(values, most_outliers(len(values)), FALSE_ALARM)
    last = max((n for n, step in enumerate(steps, start=1) if step.statistic > step.critical), default=0)
    apart = {step.index for step in steps[:last]}
    rest = [value for index, value in enumerate(values) if index not in apart]
    middle = sum(rest) / len(rest) if rest else 0.0
    return tuple(sorted(index for index in apart if abs(values[index] - middle) > seen * (1 + 1e-9)))
