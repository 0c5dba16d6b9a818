"""Practical salinity against the check values printed in the TEOS-10 toolbox's page of gsw_SP_from_C (v3.05)."""

import pytest

from plangen.formulas.sea_water import practical_salinity


@pytest.mark.parametrize(
    ("conductivity", "temperature", "pressure", "expected"),
    [  # gsw_SP_from_C page: conductivity in mS/cm, °C, dbar, practical salinity
        (34.5487, 28.7856, 10.0, 20.009869599086951),
        (34.7275, 28.4329, 50.0, 20.265511864874270),
        (34.8605, 22.8103, 125.0, 22.981513062527689),
        (34.6810, 10.2600, 250.0, 31.204503263727982),
        (34.5680, 6.8863, 600.0, 34.032315787432829),
        (34.5600, 4.4036, 1000.0, 36.400308494388170),
    ],
)
def test_check_value(conductivity: float, temperature: float, pressure: float, expected: float) -> None:
    assert practical_salinity(conductivity, temperature, pressure) == pytest.approx(expected, abs=1e-9)


def test_standard_sea_water() -> None:
    # gsw_C3515 page: 42.9140 mS/cm at salinity 35 and 15 °C IPTS-68
    assert practical_salinity(42.9140, 15.0 / 1.00024) == pytest.approx(35.0, abs=1e-6)
