"""Offshore Racing Congress, certificate ITA13672 of a 33 ft cruiser-racer, speed predictions in the collection
orc-data, https://jieter.github.io/orc-data/site/index.html#ITA/ITA13672, as transcribed in
https://github.com/0x64746b/x332-polar (x332-polar.py)."""

import math

import pytest

from plangen.formulas.sailing import expected_sailing_speed, velocity_made_good

ABEAM = 7.20  # 12 kn of wind at 90 degrees


@pytest.mark.parametrize(
    ("wind", "angle", "printed"),
    [
        (6.0, 52.0, 5.07),
        (8.0, 150.0, 4.97),
        (10.0, 75.0, 6.87),
        (12.0, 90.0, 7.20),
        (12.0, 135.0, 7.08),
        (16.0, 110.0, 8.01),
        (20.0, 120.0, 8.68),
        (20.0, 135.0, 8.65),
    ],
)
def test_rows_of_the_certificate(wind: float, angle: float, printed: float) -> None:
    assert expected_sailing_speed(wind, angle, 30.0, ABEAM) == pytest.approx(printed)


#: The same copy's whole lines for 6 and 12 kn, at 52, 60, 75, 90, 110, 120, 135 and 150 degrees.
ANGLES = (52.0, 60.0, 75.0, 90.0, 110.0, 120.0, 135.0, 150.0)
LINES = [
    (6.0, (5.07, 5.34, 5.53, 5.42, 5.35, 5.16, 4.61, 3.88)),
    (12.0, (6.79, 6.98, 7.16, 7.20, 7.42, 7.36, 7.08, 6.62)),
]


@pytest.mark.parametrize(("wind", "printed"), LINES)
def test_lines_of_the_certificate(wind: float, printed: tuple[float, ...]) -> None:
    found = [expected_sailing_speed(wind, angle, 30.0, ABEAM) for angle in ANGLES]
    assert found == pytest.approx(list(printed))


def test_an_angle_that_the_table_leaves_out() -> None:
    # The certificate gives her best run in 6 kn apart: 4.13 kn at 144.4 degrees, between the columns of 135 and 150.
    assert expected_sailing_speed(6.0, 144.4, 30.0, ABEAM) == pytest.approx(4.13, rel=0.01)


@pytest.mark.parametrize(("speed", "angle"), [(6.0, 60.0), (8.0, 45.0), (7.0, 120.0)])
def test_velocity_made_good(speed: float, angle: float) -> None:
    # Plane trigonometry: the part of the speed that points into the wind.
    sides = {60.0: 0.5, 45.0: math.sqrt(0.5), 120.0: -0.5}
    assert velocity_made_good(speed, angle) == pytest.approx(speed * sides[angle])
