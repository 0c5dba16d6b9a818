"""Vela Power, support page on capacity tests: 0.6 % per °C for 10 to 20 h, 1 % for 1 to 3 h, about 25 °C.

https://www.velapower.com/support
"""

import pytest

from plangen.formulas.battery_capacity import capacity_at_temperature
from plangen.formulas.declare import OutOfRange


@pytest.mark.parametrize(("hours", "delivered"), [(20.0, 91.0), (10.0, 91.0), (1.0, 85.0), (3.0, 85.0)])
def test_fifteen_degrees_colder(hours: float, delivered: float) -> None:
    # 15 °C below 25 °C: 15 × 0.6 % = 9 %, or 15 × 1 % = 15 %.
    assert capacity_at_temperature(100.0, 10.0, hours) == pytest.approx(delivered)
    assert capacity_at_temperature(100.0, 25.0, hours) == 100


def test_time_without_a_coefficient_is_refused() -> None:
    with pytest.raises(OutOfRange):
        capacity_at_temperature(100.0, 15.0, 5.0)
