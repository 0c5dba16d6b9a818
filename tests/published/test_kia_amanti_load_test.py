"""Kia, Amanti repair manual (2004), battery load test at half the cold-cranking current for 15 s.

https://lemon-manuals.org.ua/Kia/2004/Amanti/Repair%20and%20Diagnosis/Electrical/Charging%20Systems/System%20Testing/Load%20Test/
"""

import pytest

from plangen.formulas.declare import OutOfRange
from plangen.formulas.starting_circuit import load_test_current, load_test_voltage, marine_cranking_current


@pytest.mark.parametrize(
    ("celsius", "volts"),
    [(20, 9.6), (35, 9.6), (18, 9.5), (10, 9.4), (4, 9.3), (-1, 9.1), (-7, 8.9), (-12, 8.7)],
)
def test_least_voltage(celsius: float, volts: float) -> None:
    assert load_test_voltage(celsius) == pytest.approx(volts)


def test_test_current_is_half() -> None:
    assert load_test_current(630.0) == 315


def test_marine_cranking_rating() -> None:
    assert marine_cranking_current(500.0) == pytest.approx(650)  # marinemechanic.com, page 32


def test_colder_than_the_table_is_refused() -> None:
    with pytest.raises(OutOfRange):
        load_test_voltage(-18.0)
