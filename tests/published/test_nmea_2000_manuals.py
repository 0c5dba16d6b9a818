"""Marine electronics makers' installation manuals on NMEA 2000 supply, loads and terminators."""

import pytest

from plangen.formulas.declare import OutOfRange
from plangen.formulas.network_backbone import (
    backbone_resistance,
    backbone_voltage_drop,
    load_equivalence_number,
)


def test_form_in_ohms_per_100_metres() -> None:
    # A monitoring maker's manual: 0.1 x loads x length x resistance/100, resistance in ohm per 100 m.
    assert backbone_voltage_drop(50.0, 10.0, 0.057) == pytest.approx(0.1 * 10 * 50 * 5.7 / 100)


@pytest.mark.parametrize(("milliamperes", "number"), [(151, 4), (50, 1), (1000, 20)])
def test_load_equivalence(milliamperes: float, number: float) -> None:
    # A network maker's design notes: "151 mA ... LEN is 4"; each 50 mA; 1 A at most.
    assert load_equivalence_number(milliamperes) == number


def test_terminators() -> None:
    assert backbone_resistance(1.0) == 120  # an equipment maker's manual: 120 ohm at each end
    assert backbone_resistance(2.0) == 60


def test_device_above_1_ampere_is_refused() -> None:
    with pytest.raises(OutOfRange):
        load_equivalence_number(1001.0)
