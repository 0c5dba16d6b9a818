"""The Gibbs SeaWater library: heat that raw water takes up, and steel weighed in the sea."""

import gsw
import pytest

from plangen.formulas.engine_cooling_and_exhaust import raw_water_temperature_rise
from plangen.formulas.ground_tackle import steel_mass_in_water

SALINITY = gsw.SA_from_SP(35.0, 0.0, 0.0, 45.0)


@pytest.mark.parametrize(("heat", "flow"), [(40.0, 35.0), (110.0, 90.0)])
def test_raw_water_temperature_rise(heat: float, flow: float) -> None:
    density = gsw.rho_t_exact(SALINITY, 15.0, 0.0)
    heat_capacity = gsw.cp_t_exact(SALINITY, 15.0, 0.0)
    expected = heat * 1000.0 / (flow / 60_000.0 * density * heat_capacity)
    assert raw_water_temperature_rise(heat, flow) == pytest.approx(expected, rel=0.002)


def test_chain_weighed_in_the_sea() -> None:
    density = gsw.rho_t_exact(SALINITY, 15.0, 0.0)
    assert steel_mass_in_water(100.0) == pytest.approx(100.0 * (1.0 - density / 7850.0), abs=0.05)
