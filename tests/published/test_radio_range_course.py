"""eGMDSS, GMDSS course, range of VHF, and the radio horizon of a four-thirds earth (ITU-R).

https://www.egmdss.com/gmdss-courses/mod/page/view.php?id=2340
"""

import pytest

from plangen.formulas.radio import radio_horizon


def test_ship_and_coast_station() -> None:
    # The course: antennas at 30 m and 62 m reach each other at 30.04 nautical miles.
    assert radio_horizon(30.0, 62.0) == pytest.approx(30.04, abs=0.005)


@pytest.mark.parametrize("height", [4.0, 16.0, 100.0])
def test_four_thirds_earth(height: float) -> None:
    # Standard refraction (ITU-R, effective earth radius 4/3): square root of (2 x 4/3 x 6,371 km x height).
    horizon = (2.0 * 4.0 / 3.0 * 6_371_000.0 * height) ** 0.5 / 1852.0
    assert radio_horizon(height, height) == pytest.approx(2.0 * horizon, rel=0.02)
