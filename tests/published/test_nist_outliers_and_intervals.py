"""Outliers, exact intervals of a share and the uncertainty of a standard deviation against published examples and scipy."""

from __future__ import annotations

from statistics import fmean, stdev

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from plangen.series.statistics import (
    Spread,
    extreme_deviates,
    outliers,
    share_below,
    share_interval,
    spread_of,
    student_quantile,
)

# Rosner (Technometrics 25, 1983) as in the NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.3 (secondary: the
# data as an R package's manual page for its test prints them, the results as others quote the handbook's table)
ROSNER = [
    -0.25, 0.68, 0.94, 1.15, 1.20, 1.26, 1.26, 1.34, 1.38, 1.43, 1.49, 1.49, 1.55, 1.56, 1.58, 1.65, 1.69, 1.70, 1.76,
    1.77, 1.81, 1.91, 1.94, 1.96, 1.99, 2.06, 2.09, 2.10, 2.14, 2.15, 2.23, 2.24, 2.26, 2.35, 2.37, 2.40, 2.47, 2.54,
    2.62, 2.64, 2.90, 2.92, 2.92, 2.93, 3.21, 3.26, 3.30, 3.59, 3.68, 4.30, 4.64, 5.34, 5.42, 6.01,
]  # fmt: skip
STATISTICS = [3.118, 2.942, 3.179, 2.810, 2.815, 2.848, 2.279, 2.310, 2.101, 2.067]
CRITICAL = [3.158, 3.151, 3.143, 3.136, 3.128, 3.120, 3.111, 3.103, 3.094, 3.085]


def test_rosners_example_has_three_outliers() -> None:
    steps = extreme_deviates(ROSNER, 10, 0.05)
    # the handbook cuts after the third decimal
    assert [step.statistic for step in steps] == pytest.approx(STATISTICS, abs=1.1e-3)
    assert [step.critical for step in steps] == pytest.approx(CRITICAL, abs=1.1e-3)
    beyond = [number for number, step in enumerate(steps, start=1) if step.statistic > step.critical]
    assert max(beyond) == 3
    assert {ROSNER[step.index] for step in steps[:3]} == {5.34, 5.42, 6.01}


def test_grubbs_example_of_the_uranium_isotope() -> None:
    # NIST/SEMATECH e-Handbook, 1.3.5.17.1, data of Tietjen and Moore (secondary: printed with a test of that name in R):
    # G = 2.4688
    masses = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57]
    (step,) = extreme_deviates(masses, 1, 0.05)
    assert step.statistic == pytest.approx(2.468765, abs=1e-6)
    assert step.index == 7
    assert outliers(masses) == (7,)


@pytest.mark.parametrize(
    ("number", "five", "one"),
    [(4, 1.481, 1.496), (5, 1.715, 1.764), (6, 1.887, 1.973), (8, 2.126, 2.274), (10, 2.290, 2.482), (14, 2.507, 2.755)],
)  # fmt: skip
def test_critical_values_of_grubbs(number: int, five: float, one: float) -> None:
    # table of critical values, an open textbook of analytical chemistry, appendix 7 (read; its rows of 7 and 15 hold a slip)
    values = [float(n) for n in range(number)]
    assert extreme_deviates(values, 1, 0.05)[0].critical == pytest.approx(five, abs=1e-3)
    assert extreme_deviates(values, 1, 0.01)[0].critical == pytest.approx(one, abs=1e-3)


@pytest.mark.parametrize(
    ("count", "of", "low", "high", "within"),
    [
        # manual of scipy, BinomTestResult.proportion_ci (read)
        (7, 50, 0.05819170033997342, 0.26739600249700846, 1e-12),
        # Conover, Practical nonparametric statistics, p. 97, as R's manual page of binom.test computes it (secondary)
        (682, 925, 0.7076683, 0.7654066, 1e-7),
        # a course's worked example with the tables of Conover: 5 of 25 seedlings (read)
        (5, 25, 0.068, 0.407, 5e-4),
    ],
)
def test_exact_interval_of_a_share(count: int, of: int, low: float, high: float, within: float) -> None:
    assert share_interval(count, of) == pytest.approx((low, high), abs=within)


@pytest.mark.parametrize(("of", "high"), [(3, 0.7076), (10, 0.3085), (29, 0.1194)])
def test_none_of_so_many_leaves_room_for_this_share(of: int, high: float) -> None:
    # by hand: (1 - p)^n = 0.025
    assert (1 - high) ** of == pytest.approx(0.025, abs=2e-4)
    assert share_interval(0, of) == (0.0, pytest.approx(high, abs=1e-4))
    assert share_interval(of, of) == (pytest.approx(1 - high, abs=1e-4), 1.0)


@given(st.integers(1, 600).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))))
def test_interval_is_that_of_scipy(counted: tuple[int, int]) -> None:
    count, of = counted
    theirs = stats.binomtest(count, of).proportion_ci()
    assert share_interval(count, of) == pytest.approx((theirs.low, theirs.high), abs=1e-9)


@given(st.floats(0.001, 0.999), st.floats(0.5, 500), st.floats(0.5, 500))
def test_beta_distribution_is_that_of_scipy(x: float, a: float, b: float) -> None:
    assert share_below(x, a, b) == pytest.approx(stats.beta.cdf(x, a, b), abs=1e-10)


@given(st.floats(0.6, 0.99999), st.integers(1, 500))
def test_students_distribution_is_that_of_scipy(probability: float, freedom: int) -> None:
    assert student_quantile(probability, freedom) == pytest.approx(
        stats.t.ppf(probability, freedom), rel=1e-7
    )


@pytest.mark.parametrize(
    ("number", "per_cent"), [(2, 76), (3, 52), (4, 42), (5, 36), (10, 24), (20, 16), (30, 13), (50, 10)]
)
def test_how_well_a_standard_deviation_is_known(number: int, per_cent: int) -> None:
    # JCGM 100:2008, table E.1 (from memory)
    known = Spread(number, 0.0, 1.0).deviation_uncertainty
    assert known is not None
    assert round(100 * known) == per_cent


@given(st.lists(st.floats(-1e6, 1e6), min_size=2, max_size=60))
def test_spread_is_that_of_the_standard_library(values: list[float]) -> None:
    found = spread_of(values)
    assert found.mean == pytest.approx(fmean(values), rel=1e-9, abs=1e-6)
    assert found.deviation == pytest.approx(stdev(values), rel=1e-6, abs=1e-6)


def test_what_the_instruments_cannot_tell_apart_is_no_outlier() -> None:
    readings = [14.2] * 9 + [14.3]
    assert outliers(readings) == (9,)
    assert outliers(readings, seen=0.2) == ()


def test_two_that_hide_each_other_are_both_found() -> None:
    readings = [10.0, 10.1, 9.9, 10.2, 9.8, 10.0, 10.1, 9.9, 10.0, 10.1, 9.9, 10.0, 10.1, 14.0, 14.2]
    assert outliers(readings) == (13, 14)


def test_few_readings_hold_no_outlier() -> None:
    assert outliers([1.0, 1.0, 1.0, 900.0]) == ()
