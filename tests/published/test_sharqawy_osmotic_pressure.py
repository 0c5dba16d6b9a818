"""Osmotic pressure against the correlation of Sharqawy, Lienhard and Zubair, Desalination and Water Treatment 16
(2010) 354, equation 49 for the osmotic coefficient of sea water, valid from 10 g/kg; its stated error is 2.6 %."""

import pytest

from plangen.formulas.sea_water import osmotic_pressure, sea_water_density

GAS_CONSTANT = 8.314462618
MOLAR_MASS_OF_SEA_SALT = 31.4038218


def _osmotic_coefficient(salinity: float, t: float) -> float:
    s = salinity / 1000.0
    return (
        8.9453e-1 + 4.1561e-4 * t - 4.6262e-6 * t**2 + 2.2211e-11 * t**4
        - 1.1445e-1 * s - 1.4783e-3 * s * t - 1.3526e-8 * s * t**3
        + 7.0132 * s**2 + 5.696e-2 * s**2 * t - 2.8624e-4 * s**2 * t**2
    )  # fmt: skip


@pytest.mark.parametrize(
    ("salinity", "temperature"), [(12.0, 10.0), (20.0, 25.0), (35.0, 5.0), (35.0, 25.0), (40.0, 30.0)]
)
def test_osmotic_pressure(salinity: float, temperature: float) -> None:
    molality = salinity / MOLAR_MASS_OF_SEA_SALT / (1.0 - salinity / 1000.0)
    concentration = (
        _osmotic_coefficient(salinity, temperature) * molality * sea_water_density(0.0, temperature)
    )
    expected = concentration * GAS_CONSTANT * (temperature + 273.15) / 1e5  # equation 49
    assert osmotic_pressure(salinity, temperature) == pytest.approx(expected, rel=0.01)
