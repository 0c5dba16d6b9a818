"""Sunrise and sunset against pvlib's implementation of the solar position algorithm (NREL/TP-560-34302)."""

import datetime
import re

import pandas as pd
import pytest
from pvlib.solarposition import sun_rise_set_transit_spa

from plangen.plan.daylight import daylight_text


@pytest.mark.parametrize(
    ("day", "latitude", "longitude", "zone"),
    [
        ("2027-05-10", 46.15, -1.17, "Europe/Paris"),
        ("2027-04-06", 41.49, -71.33, "America/New_York"),
        ("2027-12-21", -33.9, 18.4, "Africa/Johannesburg"),
    ],
)
def test_sunrise_and_sunset(day: str, latitude: float, longitude: float, zone: str) -> None:
    text = daylight_text(datetime.date.fromisoformat(day), latitude, longitude, zone) or ""
    ours = [
        int(hour) * 60 + int(minute) for hour, minute in re.findall(r"sun(?:rise|set) (\d\d):(\d\d)", text)
    ]
    times = sun_rise_set_transit_spa(pd.DatetimeIndex([f"{day} 00:00"], tz=zone), latitude, longitude).iloc[0]
    theirs = [
        moment.hour * 60 + moment.minute + moment.second / 60
        for moment in (times["sunrise"], times["sunset"])
    ]
    assert ours == pytest.approx(theirs, abs=2)


def test_no_sunset_in_the_polar_summer() -> None:
    assert daylight_text(datetime.date(2027, 6, 21), 75.0, 20.0, "Europe/Oslo") is None


def test_an_unknown_zone_gives_nothing() -> None:
    assert daylight_text(datetime.date(2027, 6, 21), 45.0, 0.0, "Atlantis/Harbour") is None
