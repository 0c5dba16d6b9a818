"""Westerbeke, 33A technical data, p. 83: a 50 A alternator, hot and cold.

https://www.manualshelf.com/manual/westerbeke/33a/technical-data-english/page-83.html
"""

import pytest

from plangen.formulas.alternator import alternator_hot_output, alternator_speed
from plangen.formulas.declare import OutOfRange


@pytest.mark.parametrize(("alternator_rpm", "amperes"), [(1300, 16), (2500, 41), (5000, 48)])
def test_hot_output(alternator_rpm: float, amperes: float) -> None:
    assert alternator_hot_output(alternator_rpm / 1.78, 1.78, 50.0) == pytest.approx(amperes)


def test_pulley_ratio() -> None:
    # "The RPM is that of the alternator. The pulley ratio is 1.78 to 1."
    assert alternator_speed(2000.0, 1.78) == pytest.approx(3560)


@pytest.mark.parametrize("rpm", [400.0, 9000.0])
def test_speeds_beyond_the_curve_are_refused(rpm: float) -> None:
    with pytest.raises(OutOfRange):
        alternator_hot_output(rpm, 1.78, 50.0)
