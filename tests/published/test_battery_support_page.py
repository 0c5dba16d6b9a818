"""A battery maker's support page on capacity tests, and a US utility's battery-maintenance manual."""

import pytest

from plangen.formulas.battery_capacity import capacity_at_25_degrees
from plangen.formulas.declare import OutOfRange


@pytest.mark.parametrize(("hours", "coefficient"), [(20.0, 0.006), (10.0, 0.006), (1.0, 0.01), (3.0, 0.01)])
def test_temperature_coefficient(hours: float, coefficient: float) -> None:
    # Support page: 0.6 % per °C for 10 to 20 h, 1 % for 1 to 3 h, about 25 °C.
    at_10 = capacity_at_25_degrees(100.0, 10.0, hours)
    assert 100.0 / at_10 == pytest.approx(1 - 15 * coefficient)
    assert capacity_at_25_degrees(100.0, 25.0, hours) == 100


def test_time_without_a_coefficient_is_refused() -> None:
    with pytest.raises(OutOfRange):
        capacity_at_25_degrees(100.0, 15.0, 5.0)
