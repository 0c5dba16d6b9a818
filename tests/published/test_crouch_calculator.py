"""Crouch's method: miles per hour = square root of (hp / lb) x constant.

Crouch speed calculator, continuouswave.com, http://continuouswave.com/cgi-bin/crouchcalc.pl (constants for miles per
hour); boat power-to-speed calculator, https://roth-calculator.com/Boat-Hp-To-Speed-Calculator.php (constants for knots).
"""

import pytest

from plangen.formulas.planing_speed import planing_speed

KNOTS_PER_MILE_PER_HOUR = 1609.344 / 1852.0


@pytest.mark.parametrize(
    ("for_miles", "for_knots"),
    # The calculator's table of constants for miles per hour, and another page's constants for knots.
    [(172.0, 150.0), (218.0, 190.0), (240.0, 210.0), (253.0, 220.0), (265.0, 230.0)],
)
def test_constants_for_miles_and_for_knots_agree(for_miles: float, for_knots: float) -> None:
    miles_per_hour = (400.0 / 8000.0) ** 0.5 * for_miles
    assert planing_speed(400.0, 8000.0, for_knots) == pytest.approx(
        miles_per_hour * KNOTS_PER_MILE_PER_HOUR, rel=0.01
    )
