"""A marine diesel maker's service data for a 50 A alternator, and an outboard maker's output table."""

import pytest

from plangen.formulas.alternator import alternator_hot_output, alternator_speed, output_from_curve
from plangen.formulas.declare import OutOfRange

#: Outboard maker's manual (2001), page 2B-17: engine rpm and amperes at the battery.
OUTBOARD = [(600, 16), (1000, 31), (1500, 36), (2000, 39), (2500, 40), (3000, 41), (4000, 42), (5750, 42)]


@pytest.mark.parametrize(("alternator_rpm", "amperes"), [(1300, 16), (2500, 41), (5000, 48)])
def test_hot_output(alternator_rpm: float, amperes: float) -> None:
    assert alternator_hot_output(alternator_rpm / 1.78, 1.78, 50.0) == pytest.approx(amperes)


def test_pulley_ratio() -> None:
    # "The RPM is that of the alternator. The pulley ratio is 1.78 to 1."
    assert alternator_speed(2000.0, 1.78) == pytest.approx(3560)


@pytest.mark.parametrize(("rpm", "amperes"), OUTBOARD)
def test_published_curve_is_met_at_its_points(rpm: float, amperes: float) -> None:
    assert output_from_curve(rpm, 1.0, OUTBOARD) == amperes


def test_outboard_between_points() -> None:
    assert output_from_curve(3500.0, 1.0, OUTBOARD) == pytest.approx(41, abs=0.6)  # the row left out above


@pytest.mark.parametrize("rpm", [400.0, 9000.0])
def test_speeds_beyond_the_curve_are_refused(rpm: float) -> None:
    with pytest.raises(OutOfRange):
        alternator_hot_output(rpm, 1.78, 50.0)
