"""The sessions as a calendar (RFC 5545), for telephones and for those who only come along."""

from __future__ import annotations

import datetime
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from plangen.plan.day import Round, Session, clock
from plangen.plan.model import Plan
from plangen.spec.names import slug


def calendar_of(plan: Plan) -> bytes | None:
    """Return the sessions as an iCalendar file; nothing where the trial has no date.

    Times are of the place's time zone where it's known, otherwise those of whoever reads them. The stamp of each
    event is the day of the trial, so that the same plan gives the same bytes.
    """
    from icalendar import Calendar, Event

    dated = [session for session in plan.sessions if session.date]
    if not dated:
        return None
    calendar = Calendar()
    calendar.add("prodid", "-//plangen//trial plan//EN")
    calendar.add("version", "2.0")
    rounds = {one.id: one for one in plan.rounds}
    for session in dated:
        midnight = datetime.datetime.fromisoformat(f"{session.date}T00:00:00")
        event = Event()
        event.add("uid", f"{session.id}-{slug(plan.boat.name)}@plangen")
        event.add("dtstamp", midnight.replace(tzinfo=datetime.UTC))
        event.add("dtstart", _time(session, midnight, session.start))
        event.add("dtend", _time(session, midnight, session.end))
        days = len(plan.sessions)
        event.add(
            "summary", f"Trial of {plan.boat.name}" + (f", day {session.day} of {days}" if days > 1 else "")
        )
        if plan.boat.place:
            event.add("location", plan.boat.place)
        event.add("description", _description(plan, session, rounds))
        calendar.add_component(event)
    text: bytes = calendar.to_ical()
    return text


def _time(session: Session, midnight: datetime.datetime, minute: float) -> datetime.datetime:
    local = midnight + datetime.timedelta(minutes=minute)
    zone = session.daylight.zone if session.daylight else ""
    try:
        return local.replace(tzinfo=ZoneInfo(zone)).astimezone(datetime.UTC) if zone else local
    except (ValueError, ZoneInfoNotFoundError):
        return local


def _description(plan: Plan, session: Session, rounds: dict[str, Round]) -> str:
    lines = [f"Plan {plan.short_digest}. People: {', '.join(session.people)}."]
    for step in session.steps:
        if step.kind in ("round", "finish") and step.round is not None:
            number = rounds[step.round].number
            lines.append(f"{clock(step.start)} {number} {step.title} ({', '.join(step.people)})")
    return "\n".join(lines)
