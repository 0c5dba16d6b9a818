"""Joule's law: the heat of a resistance goes with the square of the current."""

import pytest

from plangen.formulas.thermography import full_load_rise


@pytest.mark.parametrize(("current", "times"), [(50.0, 4.0), (80.0, 1.5625), (100.0, 1.0)])
def test_heat_of_a_resistance_goes_with_the_square_of_the_current(current: float, times: float) -> None:
    assert full_load_rise(8.0, current, 100.0, 2.0) == pytest.approx(8.0 * times)
