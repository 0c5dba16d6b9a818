"""Probability of conformance against the example of JCGM 106:2012, 7.4, as used in a published article."""

import pytest

from plangen.formulas import OutOfRange
from plangen.formulas.uncertainty import conformance_probability


def test_example() -> None:
    # result 13.6, standard uncertainty 1.8, limits 12.5 and 16.3; by the tables of the normal distribution
    # 0.9332 - 0.2706 = 0.6626
    assert conformance_probability(13.6, 2 * 1.8, 12.5, 16.3) == pytest.approx(0.6626, abs=2e-4)


def test_two_standard_uncertainties_inside_one_limit() -> None:
    # tables of the normal distribution: Phi(2) = 0.97725
    assert conformance_probability(8.0, 2.0, high=10.0) == pytest.approx(0.97725, abs=1e-5)
    assert conformance_probability(12.0, 2.0, low=10.0) == pytest.approx(0.97725, abs=1e-5)


def test_no_limit_is_refused() -> None:
    with pytest.raises(OutOfRange, match="at least one"):
        conformance_probability(1.0, 0.1)
