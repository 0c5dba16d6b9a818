"""IEC 60228, resistance of copper conductors, as two cable engineers' pages restate it."""

import pytest

from plangen.formulas.conductors import FLEXIBLE_RESISTANCES, conductor_resistance, resistance_ratio
from plangen.formulas.insulation import protective_conductor_resistance_limit
from plangen.formulas.voltage_drop import voltage_drop

#: Correction factor by temperature: a resistance measured there times the factor is that at 20 °C.
FACTORS = {5: 1.064, 10: 1.042, 15: 1.020, 25: 0.980, 30: 0.962, 40: 0.926, 50: 0.893, 75: 0.820, 100: 0.758}
#: Nominal area, mm², and greatest resistance of plain copper at 20 °C, ohm/km: stranded (2), flexible (5).
RESISTANCES = [
    (1.0, 18.1, 19.5), (1.5, 12.1, 13.3), (2.5, 7.41, 7.98), (4.0, 4.61, 4.95), (6.0, 3.08, 3.30),
    (10.0, 1.83, 1.91), (16.0, 1.15, 1.21), (25.0, 0.727, 0.780), (35.0, 0.524, 0.554), (50.0, 0.387, 0.386),
    (70.0, 0.268, 0.272), (95.0, 0.193, 0.206), (120.0, 0.153, 0.161), (150.0, 0.124, 0.129),
]  # fmt: skip


@pytest.mark.parametrize(("temperature", "factor"), FACTORS.items())
def test_temperature_factor(temperature: int, factor: float) -> None:
    # The standard's table is rounded through 250/(230 + T), which is 0.3 % off at the warm end.
    assert 1 / resistance_ratio(temperature, 20.0) == pytest.approx(factor, abs=0.003)


@pytest.mark.parametrize(("area", "stranded", "flexible"), RESISTANCES)
def test_resistance_of_a_kilometre(area: float, stranded: float, flexible: float) -> None:
    assert conductor_resistance(area, 1000.0) == pytest.approx(flexible)  # class 5 column
    assert voltage_drop(1.0, 1000.0, area, 20.0) <= stranded  # full copper is no worse than the class 2 limit


def test_all_listed_areas_are_checked() -> None:
    assert set(FLEXIBLE_RESISTANCES) - {0.75} == {row[0] for row in RESISTANCES}


def test_protective_conductor() -> None:
    # 20 m of 2.5 mm², class 5: 20 x 7.98 mohm, and 0.1 ohm for joints (common practice).
    assert protective_conductor_resistance_limit(20.0, 2.5) == pytest.approx(0.1 + 0.1596)
