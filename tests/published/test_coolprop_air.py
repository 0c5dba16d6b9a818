"""CoolProp's real air: heat carried off by ventilation, and the pressure of a closed tube that cools."""

import pytest
from CoolProp.CoolProp import PropsSI

from plangen.formulas.inflatable_tender import tube_pressure_at_temperature

ATMOSPHERE = 101_325.0


@pytest.mark.parametrize(("pressure", "warm", "cold"), [(240.0, 50.0, 20.0), (170.0, 35.0, 10.0)])
def test_closed_tube_that_cools(pressure: float, warm: float, cold: float) -> None:
    density = PropsSI("D", "T", warm + 273.15, "P", pressure * 100.0 + ATMOSPHERE, "Air")
    expected = (PropsSI("P", "T", cold + 273.15, "D", density, "Air") - ATMOSPHERE) / 100.0
    assert tube_pressure_at_temperature(pressure, warm, cold) == pytest.approx(expected, abs=0.5)
