"""A propeller sheet for displacement speeds, with its printed case of about 10,000 lb.

Surfprop propeller sheet, electricboats.co.uk, http://www.electricboats.co.uk/surfprop/Propking_files/sheet005.htm
"""

import pytest

from plangen.formulas.displacement_speed import displacement_speed

POUNDS = 10_000.0
FEET = 100.0


@pytest.mark.parametrize(
    ("horsepower", "ratio"),
    [(42.0, 1.72), (20.0, 1.35)],  # the sheet's speed/length ratios with its shaft horsepower
)
def test_ratio_by_power(horsepower: float, ratio: float) -> None:
    speed = displacement_speed(POUNDS, horsepower, FEET)
    assert speed / FEET**0.5 == pytest.approx(ratio, abs=0.01)
