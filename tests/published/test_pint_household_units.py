"""Units and unit conversions of the household formulas against pint."""

from typing import Any

import pint
import pytest

from plangen.formulas import FORMULAS
from plangen.formulas.accumulator import accumulator_precharge
from plangen.formulas.air_conditioning import cooling_capacity_needed, cooling_water_flow_needed
from plangen.formulas.declare import DATE, TEXT
from plangen.formulas.gas import (
    gas_ventilation_area,
    regulator_lock_up_limit,
)
from plangen.formulas.tanks import fuel_tank_test_pressure, fuel_tank_test_time

UNITS: pint.UnitRegistry[Any] = pint.UnitRegistry()
MODULES = {
    f"plangen.formulas.{name}"
    for name in (
        "accumulator", "air_conditioning", "flooding", "gas", "holding_tank", "moist_air", "pipe_flow", "pumps",
        "refrigeration", "sea_water", "tanks", "uncertainty", "vapour_pressure", "water_heating", "watermaker",
    )
}  # fmt: skip


def _to(quantity: str, unit: str) -> float:
    return float(UNITS.Quantity(quantity).to(unit).magnitude)


def test_every_declared_unit_is_known_to_pint() -> None:
    declared = [f for f in FORMULAS.values() if f.function.__module__ in MODULES]
    assert len(declared) > 40
    for entry in declared:
        for unit in (*entry.units.values(), entry.returns):
            if unit not in (TEXT, DATE):
                assert UNITS.Unit(unit) is not None


def test_water_column_of_the_united_states_regulator() -> None:
    # pint: 14 in of water column
    assert regulator_lock_up_limit("11 inch water column") == pytest.approx(
        _to("14 inH2O", "millibar"), abs=0.1
    )


def test_btu_per_hour() -> None:
    # pint: 12,000 Btu/h = 3.517 kW; 14 Btu/h in each of 1000 cubic feet
    volume = _to("1000 foot**3", "metre**3")
    assert cooling_capacity_needed(volume) == pytest.approx(_to("14000 Btu/hour", "kilowatt"), rel=1e-4)
    glass = _to("10 foot**2", "metre**2")
    extra = cooling_capacity_needed(volume, glass_area=glass, persons=2.0) - cooling_capacity_needed(volume)
    assert extra == pytest.approx(_to("7000 Btu/hour", "kilowatt"), rel=1e-4)


def test_gallons() -> None:
    # pint: 200 US gal/h for 12,000 Btu/h
    ton = _to("12000 Btu/hour", "kilowatt")
    assert cooling_water_flow_needed(ton) == pytest.approx(_to("200 gallon/hour", "litre/minute"), rel=1e-4)
    # pint: 150 US gal is 100 above 50: 5 and 10 minutes
    assert fuel_tank_test_time(_to("150 gallon", "litre")) == pytest.approx(15.0)


def test_pounds_per_square_inch() -> None:
    # pint: the test pressure of 3 psi, and the pre-charge 2 psi below a cut-in of 30 psi
    assert fuel_tank_test_pressure(0.5) == pytest.approx(_to("3 psi", "kilopascal"), rel=1e-3)
    assert accumulator_precharge(_to("30 psi", "bar")) == pytest.approx(_to("28 psi", "bar"), rel=1e-3)
    # pint: above 1.406 m of water the head governs, 1.5 x 2 m
    assert fuel_tank_test_pressure(2.0) == pytest.approx(_to("300 cmH2O", "kilopascal"), rel=1e-3)


def test_square_inches() -> None:
    assert gas_ventilation_area(1.0, 0.0) == _to("22 centimetre**2", "millimetre**2")
