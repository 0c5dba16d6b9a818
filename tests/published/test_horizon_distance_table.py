"""A navigation handbook's appendix: distance of the horizon for a height of eye."""

import pytest

from plangen.formulas.lights import geographic_range


@pytest.mark.parametrize(
    ("light", "eye", "miles"),
    # The appendix: 16 ft 4.7 miles, 125 ft 13.1 miles, together 17.8 miles.
    [(0.0, 16.0, 4.7), (125.0, 0.0, 13.1), (125.0, 16.0, 17.8)],
)
def test_lighthouse(light: float, eye: float, miles: float) -> None:
    assert geographic_range(light, eye) == pytest.approx(miles, abs=0.05)
