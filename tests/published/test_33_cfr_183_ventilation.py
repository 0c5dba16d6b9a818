"""33 CFR 183 subpart K, ventilation of petrol compartments, and a worked answer on it.

33 CFR 183.610 and 183.630, United States; Westlawn Institute, The Masthead no. 21 (2012), blower solution,
http://www.westlawn.edu/news/Masthead21/files/assets/seo/page14.html
"""

import math

import pytest

from plangen.formulas.petrol_compartment import (
    petrol_blower_output,
    petrol_blower_rating,
    petrol_natural_vent_area,
)


@pytest.mark.parametrize(
    ("volume", "rating", "output"),
    [
        (20.0, 50.0, 20.0),  # table 183.610, below 34
        (60.0, 90.0, 36.0),  # table 183.610, 34 to 100: 1.5 V and 0.6 V
        (319.7, 259.8, 103.9),  # design school's newsletter, worked answer
    ],
)
def test_blower(volume: float, rating: float, output: float) -> None:
    assert petrol_blower_rating(volume) == pytest.approx(rating, abs=0.1)
    assert petrol_blower_output(volume) == pytest.approx(output, abs=0.1)


def test_natural_ventilation() -> None:
    # 183.630 (d): area = 5 ln (V / 5), so V = 5 e^2 gives 10; (e): never below 3.0.
    assert petrol_natural_vent_area(5.0 * math.e**2) == pytest.approx(10.0)
    assert petrol_natural_vent_area(6.0) == 3.0
