"""Moist air against PsychroLib, the open library of the ASHRAE psychrometric relations (psychrometrics on GitHub)."""

import psychrolib
import pytest

from plangen.formulas import OutOfRange
from plangen.formulas.moist_air import dew_point, saturation_vapour_pressure


@pytest.fixture(autouse=True)
def _si_units() -> None:
    psychrolib.SetUnitSystem(psychrolib.SI)


@pytest.mark.parametrize("temperature", [2.0, 16.0, 27.0, 45.0])
def test_saturation_vapour_pressure(temperature: float) -> None:
    expected = psychrolib.GetSatVapPres(temperature)  # PsychroLib GetSatVapPres
    assert saturation_vapour_pressure(temperature) == pytest.approx(expected, rel=1e-4)


@pytest.mark.parametrize(
    ("temperature", "humidity"), [(24.0, 50.0), (25.0, 50.0), (27.0, 60.0), (30.0, 60.0), (20.0, 100.0)]
)
def test_dew_point(temperature: float, humidity: float) -> None:
    expected = psychrolib.GetTDewPointFromRelHum(temperature, humidity / 100.0)  # PsychroLib
    assert dew_point(temperature, humidity) == pytest.approx(expected, abs=0.02)


def test_out_of_range_is_refused() -> None:
    with pytest.raises(OutOfRange, match="relative humidity is 120"):
        dew_point(20.0, 120.0)
