"""National Electrical Code, chapter 9 table 8, conductor properties, as a calculator's page annotates it."""

import pytest

from plangen.formulas.conductors import SQUARE_MILLIMETRES_PER_CIRCULAR_MIL, gauge_area
from plangen.formulas.voltage_drop import voltage_drop

#: Gauge, circular mils, ohm/km of stranded uncoated copper at 75 °C.
TABLE_8 = [
    ("14", 4110, 10.072), ("12", 6530, 6.332), ("10", 10380, 3.970), ("8", 16510, 2.507), ("6", 26240, 1.611),
    ("4", 41740, 1.010), ("3", 52620, 0.804), ("2", 66360, 0.636), ("1", 83690, 0.505), ("1/0", 105600, 0.400),
    ("2/0", 133100, 0.317), ("3/0", 167800, 0.251), ("4/0", 211600, 0.199),
]  # fmt: skip


@pytest.mark.parametrize(("gauge", "circular_mils", "_"), TABLE_8)
def test_area(gauge: str, circular_mils: int, _: float) -> None:
    area = gauge_area(gauge) / SQUARE_MILLIMETRES_PER_CIRCULAR_MIL
    assert area == pytest.approx(circular_mils, rel=0.001)


@pytest.mark.parametrize(("gauge", "_", "resistance"), TABLE_8)
def test_resistance_at_75_degrees(gauge: str, _: int, resistance: float) -> None:
    # One ampere over one kilometre. Stranding makes the table's conductors 2 % longer, and the 10.75 of the
    # marine formula is 0.3 % below annealed copper.
    assert voltage_drop(1.0, 1000.0, gauge_area(gauge), 75.0) == pytest.approx(resistance, rel=0.025)
