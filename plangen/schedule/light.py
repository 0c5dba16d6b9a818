"""Light and dark on the days of the trial, where date and place are known."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from plangen.plan.day import Daylight
from plangen.spec.model.vessel import Trial

DAY = 1440


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
    from astral.sun import dawn, dusk, sunrise, sunset

    clock, name = _clock(zone, longitude)
    observer = Observer(latitude, longitude)

    def minute(event: Callable[..., datetime.datetime]) -> float | None:
        try:
            time = event(observer, date=day, tzinfo=clock)
        except ValueError:
            return None
        return (time.date() - day).days * DAY + time.hour * 60.0 + time.minute

    return Daylight(
        zone=name,
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
    return (
        light is not None
        and light.last_light is None
        and light.first_light is None
        and light.sunrise is not None
    )


def windows(light: Daylight | None) -> tuple[tuple[int, int] | None, tuple[tuple[int, int], ...] | None]:
    """Return the hours of light and those of dark on a day, in minutes from its midnight; nothing where unknown.

    Where first or last light is missing but the sun rises, it never gets dark.
    """
    if light is None:
        return None, None
    if light.first_light is None or light.last_light is None:
        if light.sunrise is None and light.sunset is None:
            return None, None
        return (0, 2 * DAY), ()
    first, last = round(light.first_light), round(light.last_light)
    if last < first:
        last += DAY
    return (first, last), ((0, first), (last, first + DAY))
