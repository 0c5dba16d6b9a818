"""Light and dark on the days of the trial, where date and place are known."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from typing import Literal
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from plangen.plan.day import Daylight
from plangen.spec.model.vessel import Trial

DAY = 1440
#: The height of the sun, in degrees, below which it is dark: the end of civil twilight.
TWILIGHT = -6.0


def daylight_of(trial: Trial, number: int) -> Daylight | None:
    """Return the light on a day of the trial, counted from 0; nothing without date or place.

    Without a time zone that of the longitude is taken.
    """
    place = trial.place
    if trial.date is None or place.latitude is None or place.longitude is None:
        return None
    latitude, longitude = (float(angle.to("degree").magnitude) for angle in (place.latitude, place.longitude))
    return daylight_at(trial.date + datetime.timedelta(days=number), latitude, longitude, trial.time_zone)


def daylight_at(day: datetime.date, latitude: float, longitude: float, zone: str | None) -> Daylight:
    """Return the light on a day at a place."""
    from astral import Observer
    from astral.sun import dawn, dusk, elevation, sunrise, sunset

    clock, name = _clock(zone, longitude)
    observer = Observer(latitude, longitude)

    def minute(event: Callable[..., datetime.datetime]) -> float | None:
        try:
            time = event(observer, date=day, tzinfo=clock)
        except ValueError:
            return None
        return (time.date() - day).days * DAY + time.hour * 60.0 + time.minute

    always: Literal["light", "dark"] | None = None
    if minute(dawn) is None and minute(dusk) is None:
        noon = datetime.datetime.combine(day, datetime.time(12), tzinfo=datetime.UTC)
        always = (
            "light"
            if elevation(observer, noon - datetime.timedelta(hours=longitude / 15)) > TWILIGHT
            else "dark"
        )
    return Daylight(
        zone=name,
        always=always,
        first_light=minute(dawn),
        sunrise=minute(sunrise),
        sunset=minute(sunset),
        last_light=minute(dusk),
    )


def _clock(zone: str | None, longitude: float) -> tuple[datetime.tzinfo, str]:
    try:
        if zone:
            return ZoneInfo(zone), zone
    except (ValueError, ZoneInfoNotFoundError):
        pass
    hours = round(longitude / 15)
    return datetime.timezone(datetime.timedelta(hours=hours)), f"UTC{hours:+d} by the longitude"


def never_dark(light: Daylight | None) -> bool:
    """Tell whether it's known that the sky never gets dark on the day."""
    return light is not None and light.always == "light"


def windows(light: Daylight | None) -> tuple[tuple[int, int] | None, tuple[tuple[int, int], ...] | None]:
    """Return the hours of light and those of dark on a day, in minutes from its midnight; nothing where unknown."""
    if light is None:
        return None, None
    if light.always is not None:
        whole = (0, 2 * DAY)
        return (whole, ()) if light.always == "light" else ((0, 0), (whole,))
    if light.first_light is None or light.last_light is None:
        return None, None
    first, last = round(light.first_light), round(light.last_light)
    if last < first:
        last += DAY
    return (first, last), ((0, first), (last, first + DAY))
