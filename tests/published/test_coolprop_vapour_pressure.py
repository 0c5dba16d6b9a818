"""Liquefied petroleum gases against the equations of state of CoolProp (coolprop.org)."""

import pytest
from CoolProp.CoolProp import PropsSI

from plangen.formulas import OutOfRange
from plangen.formulas.gas import gas_mass_to_explode
from plangen.formulas.vapour_pressure import saturation_pressure


@pytest.mark.parametrize(("substance", "fluid"), [("propane", "Propane"), ("butane", "n-Butane")])
@pytest.mark.parametrize("temperature", [-30.0, 0.0, 20.0, 55.0])
def test_saturation_pressure(substance: str, fluid: str, temperature: float) -> None:
    pascal = PropsSI("P", "T", temperature + 273.15, "Q", 1, fluid)  # CoolProp, full equation of state
    assert saturation_pressure(substance, temperature) + 1.01325 == pytest.approx(pascal / 1e5, rel=5e-4)


@pytest.mark.parametrize(
    ("gas", "fluid", "limit"), [("propane", "Propane", 2.1), ("butane", "n-Butane", 1.6)]
)
def test_mass_to_the_lower_explosive_limit(gas: str, fluid: str, limit: float) -> None:
    density = PropsSI("D", "T", 288.15, "P", 101325.0, fluid)  # CoolProp, gas at 15 °C and 1 atm
    assert gas_mass_to_explode(20.0, gas) == pytest.approx(20.0 * limit / 100.0 * density, rel=0.01)


def test_butane_does_not_feed_in_winter() -> None:
    pascal = PropsSI("P", "T", 273.15, "Q", 1, "n-Butane")  # CoolProp: hardly above the atmosphere at 0 °C
    assert saturation_pressure("butane", 0.0) == pytest.approx(pascal / 1e5 - 1.01325, abs=0.002)
    assert saturation_pressure("butane", 0.0) < 0.05


def test_unknown_words_are_refused() -> None:
    with pytest.raises(OutOfRange, match="known substances are"):
        saturation_pressure("R13", 0.0)
    with pytest.raises(OutOfRange, match="known gases are"):
        gas_mass_to_explode(2.0, "methane")
