"""IEC 60364-6 insulation resistance, as a railway authority's table restates it."""

import pytest

from plangen.formulas.declare import OutOfRange
from plangen.formulas.insulation import insulation_resistance_minimum, insulation_test_voltage


@pytest.mark.parametrize(
    ("nominal", "test_voltage", "megohm"), [(12, 250, 0.5), (50, 250, 0.5), (230, 500, 1.0), (690, 1000, 1.0)]
)
def test_row(nominal: float, test_voltage: float, megohm: float) -> None:
    assert insulation_test_voltage(nominal) == test_voltage
    assert insulation_resistance_minimum(nominal) == megohm


def test_high_voltage_is_refused() -> None:
    with pytest.raises(OutOfRange):
        insulation_resistance_minimum(3300.0)
