"""A sling catalogue, effects of sling angles: two legs under 10,000 lb, by angle from the horizontal."""

import math

import pytest

from plangen.formulas.lifting import line_tension_at_midspan


@pytest.mark.parametrize(
    ("angle", "multiplier"),
    [(30.0, 2.000), (35.0, 1.742), (40.0, 1.555), (45.0, 1.414), (50.0, 1.305), (60.0, 1.155), (75.0, 1.035)],
)
def test_tension_multiplier(angle: float, multiplier: float) -> None:
    # The catalogue's multiplier of each leg's share of the load.
    sag = math.tan(math.radians(angle))
    assert line_tension_at_midspan(10_000.0, 2.0, sag) == pytest.approx(5_000.0 * multiplier, rel=0.001)
