"""Sea water against gsw, the reference implementation of TEOS-10 and of the practical salinity scale (teos-10.org)."""

import gsw
import pytest

from plangen.formulas import OutOfRange
from plangen.formulas.sea_water import (
    osmotic_pressure,
    practical_salinity,
    sea_water_conductivity,
    sea_water_density,
    sea_water_salinity,
)
from plangen.formulas.watermaker import net_driving_pressure


@pytest.mark.parametrize(
    ("conductivity", "temperature", "pressure"),
    [
        (0.3, 25.0, 0.0),
        (1.5, 12.0, 0.0),
        (9.1, 8.0, 0.0),
        (30.0, 4.0, 0.0),
        (53.0, 25.0, 0.0),
        (60.0, 28.0, 500.0),
    ],
)
def test_practical_salinity(conductivity: float, temperature: float, pressure: float) -> None:
    expected = gsw.SP_from_C(conductivity, temperature, pressure)  # gsw.SP_from_C, Hill extension included
    assert practical_salinity(conductivity, temperature, pressure) == pytest.approx(expected, abs=1e-6)


@pytest.mark.parametrize(
    ("practical", "temperature"),
    [(0.5, 20.0), (1.9, 15.0), (7.0, 10.0), (20.0, 5.0), (35.0, 25.0), (39.0, 28.0)],
)
def test_conductivity(practical: float, temperature: float) -> None:
    expected = gsw.C_from_SP(practical, temperature, 0.0)  # gsw.C_from_SP
    assert sea_water_conductivity(gsw.SR_from_SP(practical), temperature) == pytest.approx(expected, rel=1e-5)


def test_reference_salinity() -> None:
    expected = gsw.SR_from_SP(gsw.SP_from_C(46.0, 18.0, 0.0))  # gsw.SR_from_SP: reference composition
    assert sea_water_salinity(46.0, 18.0) == pytest.approx(expected, abs=1e-5)


@pytest.mark.parametrize(
    ("salinity", "temperature"),
    [(0.0, 4.0), (7.0, 15.0), (20.0, 10.0), (35.0, 20.0), (38.0, 28.0), (40.0, 5.0)],
)
def test_density(salinity: float, temperature: float) -> None:
    expected = gsw.rho_t_exact(salinity, temperature, 0.0)  # gsw.rho_t_exact at the surface
    assert sea_water_density(salinity, temperature) == pytest.approx(expected, abs=0.03)


def _osmotic_pressure_by_chemical_potential(salinity: float, temperature: float) -> float:
    """Return the pressure at which water in sea water has the chemical potential of pure water, bar."""
    pure = gsw.chem_potential_water_t_exact(0.0, temperature, 0.0)
    low, high = 0.0, 900.0
    for _ in range(50):
        middle = (low + high) / 2.0
        if gsw.chem_potential_water_t_exact(salinity, temperature, middle) < pure:
            low = middle
        else:
            high = middle
    return low / 10.0


@pytest.mark.parametrize(
    ("salinity", "temperature"),
    [
        (1.3, 3.3),
        (7.2, 15.0),
        (14.7, 8.8),
        (20.3, 25.4),
        (31.1, 11.7),
        (35.0, 25.0),
        (38.6, 31.2),
        (42.9, 6.1),
        (55.5, 21.3),
    ],
)
def test_osmotic_pressure(salinity: float, temperature: float) -> None:
    expected = _osmotic_pressure_by_chemical_potential(salinity, temperature)  # gsw, equal chemical potential
    assert osmotic_pressure(salinity, temperature) == pytest.approx(expected, rel=0.002)


def test_net_driving_pressure() -> None:
    # gsw: 55 bar less the mean osmotic pressure of 38 g/kg feed and its brine at 15 % recovery
    feed = _osmotic_pressure_by_chemical_potential(38.0, 22.0)
    brine = _osmotic_pressure_by_chemical_potential(38.0 / 0.85, 22.0)
    assert net_driving_pressure(55.0, 22.0, 38.0, 0.15) == pytest.approx(55.0 - (feed + brine) / 2, abs=0.05)


def test_out_of_range_is_refused() -> None:
    with pytest.raises(OutOfRange, match="temperature is 45"):
        practical_salinity(50.0, 45.0)
    with pytest.raises(OutOfRange, match="salinity is 3500"):
        osmotic_pressure(3500.0, 20.0)
