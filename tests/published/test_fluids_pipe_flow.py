"""Hose losses and tank shapes against fluids, the open library of fluid dynamics."""

import math

import fluids
import pytest
from fluids.geometry import TANK

from plangen.formulas import OutOfRange
from plangen.formulas.pipe_flow import (
    AIR_DENSITY,
    AIR_VISCOSITY,
    HOSE_ROUGHNESS,
    WATER_DENSITY,
    WATER_VISCOSITY,
    friction_factor,
    vent_air_pressure,
    vent_overflow_pressure,
)
from plangen.formulas.tanks import tank_gauge_volume


def _loss(flow: float, bore: float, length: float, density: float, viscosity: float) -> float:
    """Return fluids' pressure loss in Pa with a sharp entry (0.5), a free outlet (1) and Colebrook friction."""
    speed = flow / 60000.0 / (math.pi / 4.0 * bore**2)
    reynolds = fluids.Reynolds(V=speed, D=bore, rho=density, mu=viscosity)
    factor = fluids.friction_factor(Re=reynolds, eD=HOSE_ROUGHNESS / bore)
    losses = fluids.K_from_f(fd=factor, L=length, D=bore) + fluids.entrance_sharp() + fluids.exit_normal()
    return float(fluids.dP_from_K(losses, rho=density, V=speed))


@pytest.mark.parametrize(
    ("reynolds", "roughness"), [(1000.0, 0.0), (7400.0, 0.0016), (67000.0, 0.0016), (2e5, 0.001), (1e5, 0.02)]
)
def test_friction_factor(reynolds: float, roughness: float) -> None:
    expected = fluids.friction_factor(Re=reynolds, eD=roughness)  # fluids.friction_factor
    assert friction_factor(reynolds, roughness) == pytest.approx(expected, rel=0.02)


@pytest.mark.parametrize(
    ("flow", "bore", "length"), [(100.0, 19.0, 3.0), (60.0, 16.0, 2.0), (200.0, 25.0, 5.0)]
)
def test_vent_with_air(flow: float, bore: float, length: float) -> None:
    expected = _loss(flow, bore / 1000.0, length, AIR_DENSITY, AIR_VISCOSITY)  # fluids
    # fluids takes 0.57 for a sharp entry, this library the textbook 0.5
    assert vent_air_pressure(flow, bore, length) == pytest.approx(expected, rel=0.03)


@pytest.mark.parametrize(
    ("flow", "bore", "length", "rise"),
    [(60.0, 19.0, 1.5, 0.0), (40.0, 19.0, 2.0, 0.8), (60.0, 38.0, 1.5, 1.0)],
)
def test_vent_as_overflow(flow: float, bore: float, length: float, rise: float) -> None:
    expected = _loss(flow, bore / 1000.0, length, WATER_DENSITY, WATER_VISCOSITY)  # fluids
    static = WATER_DENSITY * fluids.constants.g * rise
    assert vent_overflow_pressure(flow, bore, length, rise) == pytest.approx(
        (expected + static) / 1000, rel=0.03
    )


@pytest.mark.parametrize("height", [0.1, 0.25, 0.5, 0.8, 0.95])
def test_horizontal_cylinder(height: float) -> None:
    tank = TANK(D=0.5, L=1.2, horizontal=True)  # fluids.geometry.TANK with flat ends
    expected = tank.V_from_h(height * 0.5) / tank.V_total * 100.0
    assert tank_gauge_volume(100.0, height, "horizontal cylinder") == pytest.approx(expected, abs=0.01)


def test_standard_air_and_water() -> None:
    # fluids: standard atmosphere at sea level
    atmosphere = fluids.ATMOSPHERE_1976(0.0)
    assert pytest.approx(atmosphere.rho, rel=1e-3) == AIR_DENSITY
    assert pytest.approx(atmosphere.mu, rel=2e-3) == AIR_VISCOSITY


def test_out_of_range_is_refused() -> None:
    with pytest.raises(OutOfRange, match="bore is 0"):
        vent_air_pressure(60.0, 0.0, 1.0)
    with pytest.raises(OutOfRange, match="air speed"):
        vent_air_pressure(1000.0, 19.0, 3.0)
    with pytest.raises(OutOfRange, match="known shapes are"):
        tank_gauge_volume(100.0, 0.5, "sphere")
