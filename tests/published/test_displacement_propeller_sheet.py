"""A propeller sheet for displacement speeds, with its printed case of about 10,000 lb."""

import pytest

from plangen.formulas.displacement_speed import displacement_power, displacement_speed, speed_length_ratio

POUNDS = 10_000.0
FEET = 100.0


def test_ratio_with_42_horsepower() -> None:
    # The sheet prints a speed/length ratio of 1.72 with 42 shaft horsepower.
    assert speed_length_ratio(displacement_speed(POUNDS, 42.0, FEET), FEET) == pytest.approx(1.72, abs=0.005)


def test_power_for_a_ratio_of_1_35() -> None:
    # The sheet prints 20 shaft horsepower for a ratio of 1.35.
    assert displacement_power(POUNDS, 1.35 * FEET**0.5, FEET) == pytest.approx(20.0, abs=0.5)
