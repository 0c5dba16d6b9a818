"""ISO 8528-5 class G2 as a tender specification quotes it, and two generator makers' manuals."""

import pytest

from plangen.formulas.declare import OutOfRange
from plangen.formulas.generator_set import (
    frequency_droop,
    frequency_droop_limit,
    generator_dip_voltage,
    generator_voltage_tolerance,
    no_load_frequency,
)


def test_class_g2() -> None:
    assert frequency_droop_limit("G2") == 5  # "(a) frequency droop: < 5 %"
    assert generator_voltage_tolerance(400.0, "G2") == pytest.approx(10)  # "(e) < ± 2.5 %"
    assert generator_dip_voltage(400.0, "G2") == pytest.approx(320)  # "(h)(ii) sudden increase: < - 20 %"


@pytest.mark.parametrize("no_load", [61.5, 62.5])
def test_mechanical_governor(no_load: float) -> None:
    # An 8 kW set's manual: 61.5 to 62.5 Hz without load, 60 Hz loaded; class G2 allows it.
    droop = frequency_droop(no_load, 60.0, 60.0)
    assert droop < frequency_droop_limit("G2")
    assert no_load_frequency(60.0, droop) == pytest.approx(no_load)


def test_droop_of_a_switchboard_maker() -> None:
    # A controller maker's commissioning guide: 1500 rpm unloaded, 1442 rpm at 975 of 1000 kW, droop 4.0 %.
    per_load = frequency_droop(1500 / 30, 1442 / 30, 50.0) * 1000 / 975
    assert per_load == pytest.approx(4.0, abs=0.05)


def test_rise_with_load_is_refused() -> None:
    with pytest.raises(OutOfRange):
        frequency_droop(60.0, 61.0, 60.0)
