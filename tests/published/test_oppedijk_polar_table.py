"""Oppedijk, Sailing notes, a published velocity prediction table of a yacht that isn't named (undated):
https://github.com/Oppedijk/Oppedijk.github.io/blob/master/_sailing/test.md. Velocity made good: polar data file of a
32 ft racing yacht, read with it, 5.3 kn at 43.6 degrees make 3.8 kn to windward."""

import pytest

from plangen.formulas.sailing import expected_sailing_speed, velocity_made_good


@pytest.mark.parametrize(
    ("wind", "angle", "printed"),
    # Rows of the velocity prediction table.
    [(6.0, 52.0, 4.93), (12.0, 90.0, 6.78), (20.0, 135.0, 8.19), (16.0, 110.0, 7.51), (8.0, 150.0, 4.80)],
)
def test_rows_of_the_table(wind: float, angle: float, printed: float) -> None:
    assert expected_sailing_speed(wind, angle, 30.0, 6.78) == pytest.approx(printed)


def test_between_the_rows() -> None:
    # Between 52 and 60 degrees in 12 kn of wind the table has 6.39 and 6.54 kn.
    assert 6.39 < expected_sailing_speed(12.0, 56.0, 30.0, 6.78) < 6.54


@pytest.mark.parametrize(
    ("speed", "angle", "made_good"),
    [
        (5.3, 43.6, 3.8),  # polar data of the 32 ft yacht
        (8.19, 135.0, -5.79),  # geometry: cos 135 degrees is -0.7071
    ],
)
def test_velocity_made_good(speed: float, angle: float, made_good: float) -> None:
    assert velocity_made_good(speed, angle) == pytest.approx(made_good, abs=0.05)
