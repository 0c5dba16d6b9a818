"""A chart plotter maker's manual and a sailing writer's page on the log."""

import pytest

from plangen.formulas.log_calibration import log_calibration_factor, speed_past_a_float


def test_water_speed_offset() -> None:
    # Chart plotter manual: the log at 8.5, speed over ground 10, set 117 %.
    assert log_calibration_factor(10.0, 8.5) == pytest.approx(117.0, abs=1.0)


def test_float_past_the_hull() -> None:
    # Sailing writer: knots = 0.59 x feet / seconds, so 40 ft in 4 s are 5.9 kn.
    assert speed_past_a_float(40.0, 4.0) == pytest.approx(5.9, abs=0.03)
