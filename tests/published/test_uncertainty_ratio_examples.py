"""Test uncertainty ratio against worked examples of calibration services."""

import pytest

from plangen.formulas import OutOfRange
from plangen.formulas.uncertainty import uncertainty_ratio
from plangen.packs.model import Instrument, ReadingRule
from plangen.packs.uncertainty_ratio import static_ratio


@pytest.mark.parametrize(
    ("tolerance", "uncertainty", "expected"),
    [
        (0.05, 0.0125, 4.0),  # a calibration service's article: +-0.05 V
        (0.05, 0.025, 2.0),  # the same with twice the uncertainty
        (0.010, 0.002, 5.0),  # a calibration software's lesson: +-0.010 mm
        (0.010, 0.004, 2.5),  # the same with twice the uncertainty
        (0.20, 2 * 0.0269, 3.72),  # an engineering site: +-0.20 bar, u = 0.0269, k = 2
    ],
)
def test_ratio(tolerance: float, uncertainty: float, expected: float) -> None:
    assert uncertainty_ratio(-tolerance, tolerance, uncertainty) == pytest.approx(expected, abs=0.005)


def test_limits_out_of_order_are_refused() -> None:
    with pytest.raises(OutOfRange, match="not above the lower limit"):
        uncertainty_ratio(2.0, 1.0, 0.1)


@pytest.mark.parametrize(("accuracy", "expected"), [("0.0125 V", 4.0), ("0.025 V", 2.0)])
def test_ratio_that_a_rule_is_warned_of(accuracy: str, expected: float) -> None:
    # the calibration service's article: +-0.05 V, here about 12 V
    rule = ReadingRule(id="voltage", reading="voltage", unit="V", about="12 V", tolerance="0.05 V")
    ratio = static_ratio(rule, Instrument(title="meter", unit="V", accuracy=accuracy))
    assert ratio == pytest.approx(expected)
