"""pvlib-python: clear-sky irradiance and daily energy from its own solar positions."""

from datetime import date

import pandas as pd  # type: ignore[import-untyped]
import pvlib
import pytest

from plangen.formulas.clear_sky import (
    declination,
    extraterrestrial_irradiance,
    hazy_sky_irradiance,
    noon_sun_height,
)

DAYS = [date(2026, 3, 20), date(2026, 6, 21), date(2026, 9, 1), date(2026, 12, 21)]
PLACES = [(17.0, -61.8), (39.5, 2.6), (50.8, -1.3), (-33.9, 151.2)]


@pytest.mark.parametrize("turbidity", [2.0, 3.0, 5.0])
@pytest.mark.parametrize("height", [5.0, 20.0, 50.0, 85.0])
def test_ineichen(height: float, turbidity: float) -> None:
    day = date(2026, 8, 1)
    expected = pvlib.clearsky.ineichen(
        90.0 - height,
        pvlib.atmosphere.get_relative_airmass(90.0 - height),
        turbidity,
        altitude=0,
        dni_extra=float(pvlib.irradiance.get_extra_radiation(pd.Timestamp(day))),
    )["ghi"]
    assert hazy_sky_irradiance(height, day, turbidity) == pytest.approx(float(expected), rel=0.002)


@pytest.mark.parametrize("day", DAYS)
def test_sun_by_date(day: date) -> None:
    # NREL's algorithm; at the pole the sun's height is its declination.
    noon = pd.DatetimeIndex([pd.Timestamp(day, tz="UTC") + pd.Timedelta(hours=12)])
    sun = pvlib.solarposition.get_solarposition(noon, 90.0, 0.0)
    assert declination(day) == pytest.approx(float(sun["elevation"].iloc[0]), abs=0.02)
    irradiance = float(pvlib.irradiance.get_extra_radiation(noon, solar_constant=1366.1).iloc[0])
    assert extraterrestrial_irradiance(day) == pytest.approx(irradiance, rel=0.001)


@pytest.mark.parametrize("day", DAYS)
@pytest.mark.parametrize(("latitude", "longitude"), PLACES)
def test_height_of_the_noon_sun(day: date, latitude: float, longitude: float) -> None:
    # A mean solar day in steps of five minutes, positions by the NREL algorithm.
    start = pd.Timestamp(day, tz="UTC") - pd.Timedelta(hours=longitude / 15)
    times = pd.date_range(start + pd.Timedelta(seconds=150), periods=288, freq="5min")
    position = pvlib.solarposition.get_solarposition(times, latitude, longitude, altitude=0)
    # Ours is for noon at Greenwich; ten hours of longitude change the declination by up to 0.16 degree.
    assert noon_sun_height(day, latitude) == pytest.approx(float(position["elevation"].max()), abs=0.2)
