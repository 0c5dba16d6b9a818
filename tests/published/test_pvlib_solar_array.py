"""pvlib-python: the PVWatts power and loss models of NREL/TP-6A20-62641, and the daily yield of an array."""

from datetime import date

import pandas as pd  # type: ignore[import-untyped]
import pvlib
import pytest

from plangen.formulas.declare import OutOfRange
from plangen.formulas.solar_array import (
    array_daily_yield,
    array_power,
    cell_temperature,
    string_open_circuit_voltage,
)

#: Per cent that an unshaded array aboard loses, as PVWatts multiplies it.
LOSSES = pvlib.pvsystem.pvwatts_losses(
    soiling=2, shading=0, snow=0, mismatch=2, wiring=2, connections=0.5, lid=1.5, nameplate_rating=1, age=0,
    availability=0,
)  # fmt: skip


def expected_power(panel_power: float, irradiance: float, cell: float) -> float:
    """Return the power by pvlib, less its losses and 3 % in the tracking controller."""
    dc = pvlib.pvsystem.pvwatts_dc(irradiance, cell, panel_power, -0.0035)
    return float(dc * (1 - LOSSES / 100) * 0.97)


@pytest.mark.parametrize("irradiance", [100.0, 400.0, 779.0, 1000.0])
@pytest.mark.parametrize("air", [0.0, 15.0, 30.0])
def test_array_power(irradiance: float, air: float) -> None:
    for mounting in ("glued", "ventilated"):
        cell = cell_temperature(irradiance, air, mounting)
        expected = expected_power(400.0, irradiance, cell)
        assert array_power(400.0, irradiance, air, mounting) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("irradiance", [200.0, 800.0, 1000.0])
def test_ventilated_cell_temperature(irradiance: float) -> None:
    # The nominal-operating-cell-temperature rule is the Ross model: k = (45 - 20)/800 per W/m².
    expected = float(pvlib.temperature.ross(irradiance, 25.0, noct=45.0))
    assert cell_temperature(irradiance, 25.0, "ventilated") == pytest.approx(expected)


@pytest.mark.parametrize(
    ("latitude", "longitude", "day", "air"),
    [
        (17.0, -61.8, date(2026, 6, 21), 28.0),
        (39.5, 2.6, date(2026, 6, 21), 26.0),
        (50.8, -1.3, date(2026, 12, 21), 8.0),
    ],
)
def test_daily_yield_of_a_flat_array(latitude: float, longitude: float, day: date, air: float) -> None:
    start = pd.Timestamp(day, tz="UTC") - pd.Timedelta(hours=longitude / 15)
    times = pd.date_range(start + pd.Timedelta(seconds=150), periods=288, freq="5min")
    zenith = pvlib.solarposition.get_solarposition(times, latitude, longitude, altitude=0)["apparent_zenith"]
    ghi = pvlib.clearsky.ineichen(
        zenith,
        pvlib.atmosphere.get_relative_airmass(zenith),
        3.0,
        altitude=0,
        dni_extra=pvlib.irradiance.get_extra_radiation(times),
    )["ghi"].fillna(0.0)
    cells = pvlib.temperature.ross(ghi, air, noct=45.0) + 10 * ghi / 1000
    expected = sum(expected_power(400.0, float(g), float(c)) for g, c in zip(ghi, cells, strict=True)) / 12
    assert array_daily_yield(400.0, day, latitude, air) == pytest.approx(expected, rel=0.04)


def test_open_circuit_voltage_of_a_cold_string() -> None:
    # Linear coefficient, as the single-diode data sheets that pvlib's library holds define beta_oc.
    assert string_open_circuit_voltage(24.0, 2.0, 25.0) == 48
    assert string_open_circuit_voltage(24.0, 2.0, 0.0, -0.003) == pytest.approx(48 * 1.075)


@pytest.mark.parametrize(("irradiance", "mounting"), [(-1.0, "glued"), (2000.0, "glued"), (500.0, "taped")])
def test_unknown_conditions_are_refused(irradiance: float, mounting: str) -> None:
    with pytest.raises(OutOfRange):
        array_power(400.0, irradiance, 25.0, mounting)
