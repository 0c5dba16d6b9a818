"""Sea water against UNESCO Technical Papers in Marine Science 44 (1983), whose temperatures are IPTS-68."""

import pytest

from plangen.formulas.air_conditioning import cooling_water_rise
from plangen.formulas.sea_water import (
    REFERENCE_SALINITY_FACTOR,
    STANDARD_CONDUCTIVITY,
    practical_salinity,
    sea_water_conductivity,
    sea_water_density,
)


@pytest.mark.parametrize(
    ("ratio", "t68", "pressure", "expected"),
    [(1.0, 15.0, 0.0, 35.0), (1.2, 20.0, 2000.0, 37.245628), (0.65, 5.0, 1500.0, 27.995347)],  # page 9
)
def test_salinity(ratio: float, t68: float, pressure: float, expected: float) -> None:
    found = practical_salinity(ratio * STANDARD_CONDUCTIVITY, t68 / 1.00024, pressure)
    assert found == pytest.approx(expected, abs=1e-6)


@pytest.mark.parametrize(
    ("t68", "salinity", "expected"),
    [
        (10.0, 25.0, 0.654990),
        (10.0, 40.0, 1.000073),
        (30.0, 40.0, 1.529967),
    ],  # page 14
)
def test_conductivity_ratio(t68: float, salinity: float, expected: float) -> None:
    found = sea_water_conductivity(salinity * REFERENCE_SALINITY_FACTOR, t68 / 1.00024)
    assert found / STANDARD_CONDUCTIVITY == pytest.approx(expected, abs=2e-6)


@pytest.mark.parametrize(
    ("salinity", "t68", "expected"), [(0.0, 0.0, 2749.54), (0.0, 30.0, 3170.58), (35.0, 30.0, 607.14)]
)  # page 22, specific volume less that of salinity 35 at 0 °C, 1e-8 m3/kg
def test_specific_volume_anomaly(salinity: float, t68: float, expected: float) -> None:
    standard = sea_water_density(35.0 * REFERENCE_SALINITY_FACTOR, 0.0)
    density = sea_water_density(salinity * REFERENCE_SALINITY_FACTOR, t68 / 1.00024)
    assert (1.0 / density - 1.0 / standard) * 1e8 == pytest.approx(expected, abs=0.01)


def test_heat_taken_by_cooling_water() -> None:
    # page 37: specific heat 3993.9 J/(kg K) at salinity 35 and 20 °C
    kilogram_per_second = 12.0 / 60.0 * sea_water_density(35.0 * REFERENCE_SALINITY_FACTOR, 20.0) / 1000.0
    assert cooling_water_rise(3.0, 12.0, 1.3) == pytest.approx(
        3900.0 / 3993.9 / kilogram_per_second, rel=0.002
    )
