"""Microwave output against a service manual's table, a Japanese short test and a laboratory's field method."""

import pytest

from plangen.formulas import OutOfRange
from plangen.formulas.water_heating import microwave_power


@pytest.mark.parametrize(
    ("seconds", "watts"),
    [
        (70, 600),
        (64, 650),
        (60, 700),
        (56, 750),
        (52, 800),
        (49, 850),
        (47, 900),
        (44, 950),
        (42, 1000),
        (40, 1050),
        (38, 1100),
    ],
)
def test_service_manual(seconds: float, watts: float) -> None:
    # a domestic microwave oven's service manual: heating time of 1000 g by 10 °C from 10 °C
    assert microwave_power(1000.0, 10.0, 20.0, seconds) == pytest.approx(watts, rel=0.02)


def test_short_method() -> None:
    # a microwave leakage meter maker's page, JIS: 2 x 500 mL, 60 s, 70 W per °C: 19.6 to 28.8 °C is 644 W
    assert microwave_power(1000.0, 19.6, 28.8, 60.0) == pytest.approx(644.0, rel=0.005)


def test_field_method() -> None:
    # a histology laboratory's method: 1 L, 2 minutes, 35 W per °C
    assert microwave_power(1000.0, 20.0, 40.0, 120.0) == pytest.approx(35.0 * 20.0, rel=0.005)


def test_out_of_range_is_refused() -> None:
    with pytest.raises(OutOfRange, match="time is 0"):
        microwave_power(1000.0, 10.0, 20.0, 0.0)
    with pytest.raises(OutOfRange, match="vessel mass"):
        microwave_power(1000.0, 10.0, 20.0, 52.0, vessel_mass=-1.0)
