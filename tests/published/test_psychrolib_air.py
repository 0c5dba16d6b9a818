"""Moist air against PsychroLib, the open library of the ASHRAE psychrometric relations, at 101,325 Pa."""

import psychrolib
import pytest

from plangen.formulas import OutOfRange
from plangen.formulas.air_conditioning import condensate_rate, cooling_capacity
from plangen.formulas.moist_air import (
    dew_point,
    humidity_ratio,
    moist_air_enthalpy,
    moist_air_volume,
    saturation_vapour_pressure,
    wet_bulb_temperature,
)

PRESSURE = 101325.0


@pytest.fixture(autouse=True)
def _si_units() -> None:
    psychrolib.SetUnitSystem(psychrolib.SI)


@pytest.mark.parametrize("temperature", [2.0, 16.0, 27.0, 45.0])
def test_saturation_vapour_pressure(temperature: float) -> None:
    expected = psychrolib.GetSatVapPres(temperature)  # PsychroLib GetSatVapPres
    assert saturation_vapour_pressure(temperature) == pytest.approx(expected, rel=1e-4)


@pytest.mark.parametrize(
    ("temperature", "humidity"), [(16.0, 90.0), (25.0, 50.0), (27.0, 60.0), (35.0, 40.0)]
)
def test_state_of_air(temperature: float, humidity: float) -> None:
    ratio = psychrolib.GetHumRatioFromRelHum(temperature, humidity / 100.0, PRESSURE)  # PsychroLib
    assert humidity_ratio(temperature, humidity) == pytest.approx(ratio, rel=1e-3)
    enthalpy = psychrolib.GetMoistAirEnthalpy(temperature, ratio) / 1000.0  # PsychroLib
    assert moist_air_enthalpy(temperature, ratio) == pytest.approx(enthalpy, rel=1e-4)
    volume = psychrolib.GetMoistAirVolume(temperature, ratio, PRESSURE)  # PsychroLib
    assert moist_air_volume(temperature, ratio) == pytest.approx(volume, rel=1e-4)


@pytest.mark.parametrize(
    ("temperature", "humidity"), [(24.0, 50.0), (25.0, 50.0), (27.0, 60.0), (30.0, 60.0), (20.0, 100.0)]
)
def test_dew_point(temperature: float, humidity: float) -> None:
    expected = psychrolib.GetTDewPointFromRelHum(temperature, humidity / 100.0)  # PsychroLib
    assert dew_point(temperature, humidity) == pytest.approx(expected, abs=0.02)


@pytest.mark.parametrize(
    ("temperature", "humidity"), [(25.0, 50.0), (27.0, 60.0), (30.0, 60.0), (35.0, 25.0)]
)
def test_wet_bulb(temperature: float, humidity: float) -> None:
    expected = psychrolib.GetTWetBulbFromRelHum(temperature, humidity / 100.0, PRESSURE)  # PsychroLib
    assert wet_bulb_temperature(temperature, humidity) == pytest.approx(expected, abs=0.02)


def _air(temperature: float, humidity: float) -> tuple[float, float, float]:
    """Return PsychroLib's humidity ratio, enthalpy (kJ/kg) and volume (m3/kg)."""
    ratio = psychrolib.GetHumRatioFromRelHum(temperature, humidity / 100.0, PRESSURE)
    enthalpy = psychrolib.GetMoistAirEnthalpy(temperature, ratio) / 1000.0
    return ratio, enthalpy, psychrolib.GetMoistAirVolume(temperature, ratio, PRESSURE)


@pytest.mark.parametrize(("warm", "cool"), [((27.0, 60.0), (16.0, 90.0)), ((30.0, 55.0), (17.0, 92.0))])
def test_cooling_and_condensate(warm: tuple[float, float], cool: tuple[float, float]) -> None:
    ratio_in, enthalpy_in, _ = _air(*warm)
    ratio_out, enthalpy_out, volume_out = _air(*cool)
    dry_air = 0.20 / volume_out
    kilowatt = dry_air * (enthalpy_in - enthalpy_out)  # PsychroLib enthalpies
    assert cooling_capacity(720.0, *warm, *cool) == pytest.approx(kilowatt, rel=0.002)
    litres = dry_air * 3600.0 * (ratio_in - ratio_out)  # PsychroLib humidity ratios
    assert condensate_rate(720.0, *warm, *cool) == pytest.approx(litres, rel=0.002)


def test_dry_coil_makes_no_condensate() -> None:
    ratio_in, _, _ = _air(25.0, 20.0)
    ratio_out, _, _ = _air(16.0, 50.0)
    assert ratio_in < ratio_out  # PsychroLib: the supply isn't drier than the return
    assert condensate_rate(720.0, 25.0, 20.0, 16.0, 50.0) == 0.0


def test_out_of_range_is_refused() -> None:
    with pytest.raises(OutOfRange, match="relative humidity is 120"):
        dew_point(20.0, 120.0)
    with pytest.raises(OutOfRange, match="airflow is 0"):
        cooling_capacity(0.0, 27.0, 60.0, 16.0, 90.0)
