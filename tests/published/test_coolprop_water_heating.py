"""Heated fresh water against CoolProp's properties of water at 1 atm."""

import pytest
from CoolProp.CoolProp import PropsSI

from plangen.formulas import OutOfRange
from plangen.formulas.water_heating import (
    element_power_at_voltage,
    mixed_water,
    water_density,
    water_expansion,
    water_heating_energy,
    water_heating_time,
)

ATMOSPHERE = 101325.0


def _density(celsius: float) -> float:
    return float(PropsSI("D", "T", celsius + 273.15, "P", ATMOSPHERE, "Water"))


def _enthalpy(celsius: float) -> float:
    return float(PropsSI("H", "T", celsius + 273.15, "P", ATMOSPHERE, "Water"))


@pytest.mark.parametrize("temperature", [5.0, 15.0, 40.0, 60.0, 85.0])
def test_density(temperature: float) -> None:
    assert water_density(temperature) == pytest.approx(_density(temperature), rel=2e-5)  # CoolProp, Water, D


@pytest.mark.parametrize(
    ("volume", "start", "end"),
    [(40.0, 15.0, 60.0), (75.0, 10.0, 60.0), (22.0, 15.0, 65.0), (1.0, 20.0, 95.0)],
)
def test_energy(volume: float, start: float, end: float) -> None:
    joules = (
        volume / 1000.0 * _density(start) * (_enthalpy(end) - _enthalpy(start))
    )  # CoolProp, Water, D and H
    assert water_heating_energy(volume, start, end) == pytest.approx(joules / 3.6e6, rel=0.005)


def test_time() -> None:
    joules = 0.075 * _density(10.0) * (_enthalpy(60.0) - _enthalpy(10.0))  # CoolProp, Water, D and H
    assert water_heating_time(75.0, 10.0, 60.0, 1200.0) == pytest.approx(joules / 1200.0 / 60.0, rel=0.005)


@pytest.mark.parametrize(("start", "end"), [(15.0, 60.0), (10.0, 80.0)])
def test_expansion(start: float, end: float) -> None:
    expected = 40.0 * (_density(start) / _density(end) - 1.0)  # CoolProp, Water, D
    assert water_expansion(40.0, start, end) == pytest.approx(expected, rel=0.002)


def test_mixed_water_keeps_the_heat() -> None:
    litres = mixed_water(40.0, 60.0, 20.0, 40.0, 1.0)
    hot = 40.0 * _density(60.0) * (_enthalpy(60.0) - _enthalpy(20.0))
    mixed = (
        litres * _density(40.0) * (_enthalpy(40.0) - _enthalpy(20.0))
    )  # CoolProp: same heat above the cold supply
    assert mixed == pytest.approx(hot, rel=0.015)


def test_out_of_range_is_refused() -> None:
    with pytest.raises(OutOfRange, match="volume is 0"):
        water_heating_energy(0.0, 15.0, 60.0)
    with pytest.raises(OutOfRange, match="not above start"):
        water_heating_time(40.0, 60.0, 15.0, 750.0)
    with pytest.raises(OutOfRange, match="not between cold"):
        mixed_water(40.0, 60.0, 20.0, 70.0)
    with pytest.raises(OutOfRange, match="voltage is -230"):
        element_power_at_voltage(750.0, 230.0, -230.0)
