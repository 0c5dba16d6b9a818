"""Daylight on the day of the trial."""

from __future__ import annotations

import datetime
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError


def daylight_text(day: datetime.date, latitude: float, longitude: float, zone: str | None) -> str | None:
    """Return first light, sunrise, sunset and last light (civil twilight) in the zone's time, UTC without one.

    Returns nothing where the sun doesn't rise or set on the day, or the zone isn't known.
    """
    from astral import Observer
    from astral.sun import sun

    try:
        clock = ZoneInfo(zone) if zone else datetime.UTC
        times = sun(Observer(latitude, longitude), date=day, tzinfo=clock)
    except (ValueError, ZoneInfoNotFoundError):
        return None
    shown = {name: times[name].strftime("%H:%M") for name in ("dawn", "sunrise", "sunset", "dusk")}
    text = "first light {dawn}, sunrise {sunrise}, sunset {sunset}, last light {dusk}".format(**shown)
    return f"{text} ({zone or 'UTC'})"
