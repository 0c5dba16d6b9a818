"""The names of the form fields, by which a filled PDF is read back.

Parts of a name are set off by slashes; a full stop would part a name in PDF itself (ISO 32000-1, 12.7.3.2).
A reading goes by its id, so that a sheet of another version of the plan never passes its value to another reading.
"""

from __future__ import annotations

import json
import re
from dataclasses import asdict

from plangen.plan.boat_identity import BoatIdentity, identity_of
from plangen.plan.model import Plan, PlannedCheck
from plangen.spec.names import slug


def plan_field(digest: str) -> str:
    """Return the field without room on the paper that says whose plan it is, and which."""
    return f"plan/{digest}"


def plan_value(plan: Plan) -> str:
    """Return what that field holds: the boat, the units in which numbers are typed, and the days that are printed."""
    days = sorted({session.date for session in plan.sessions if session.date})
    about = {"units": plan.units, **asdict(identity_of(plan.boat)), "days": days or None}
    return json.dumps({key: value for key, value in about.items() if value is not None}, ensure_ascii=False)


def read_plan_value(text: str) -> tuple[BoatIdentity, str | None]:
    """Return the boat and the units of a form; one that was printed before forms said so has only her name."""
    try:
        about = json.loads(text)
        identity = BoatIdentity(
            str(about["name"]),
            about.get("hull_id"),
            about.get("hull"),
            about.get("length_hull"),
            tuple(about.get("formerly", ())),
        )
        return identity, about.get("units")
    except (ValueError, TypeError, KeyError, AttributeError):
        return BoatIdentity(" ".join(text.split())), None


def printed_days(text: str) -> frozenset[str]:
    """Return the days that stand in a form before anybody has typed anything."""
    try:
        return frozenset(str(day) for day in json.loads(text).get("days", ()))
    except (ValueError, TypeError, AttributeError):
        return frozenset()


def reading_field(check: PlannedCheck, index: int, step: int | None = None) -> str:
    """Return the field of one reading of a check, or of one point of its series."""
    name = f"check/{check.id}/reading/{check.expect[index].id}"
    return name if step is None else f"{name}/{step + 1}"


def note_field(check: str) -> str:
    """Return the field for a remark on a check."""
    return f"check/{check}/note"


def by_field(check: str) -> str:
    """Return the field for the initials of who did a check."""
    return f"check/{check}/by"


def round_field(round: str, about: str) -> str:
    """Return a field at the head of a round: by, date, from, to or done."""
    return f"round/{round}/{about}"


def is_day(field: str) -> bool:
    """Tell whether a field is the date at the head of a round."""
    return field.startswith("round/") and field.endswith("/date")


def snag_field(row: int, column: str) -> str:
    """Return a field of the blank snag sheet."""
    return f"snag/{row}/{column}"


def also_field(id: str, about: str) -> str:
    """Return a field of the retest for something that belongs to no check: mended, day or remark."""
    return f"also/{id}/{about}"


def retest_field(about: str) -> str:
    """Return a field at the head of the retest: by or date."""
    return f"retest/{about}"


#: The field without room on the paper that says how often each check of a retest had been tried before.
ATTEMPTS_FIELD = "plan/attempts"


def read_attempts(text: str) -> dict[str, int] | None:
    """Return how often each check of a retest had been tried; nothing where the form doesn't say."""
    try:
        return {str(id): int(number) for id, number in json.loads(text).items()}
    except (ValueError, TypeError, AttributeError):
        return None


def question_field(key: str, of: str | None = None) -> str:
    """Return the field for the answer to an open question; an item goes by its name, not by its place in a list.

    >>> question_field("use.water_temperature"), question_field("engines[2].propeller.pitch", "Port engine")
    ('question/use:water_temperature', 'question/engines@port-engine:propeller:pitch')
    """
    named = re.sub(r"\[[0-9]+\]", f"@{slug(of)}", key) if of else key
    return f"question/{named.replace('.', ':')}"


def answered_field(about: str) -> str:
    """Return the field at the head of the questions: by, date, reply or remarks."""
    return f"answered/{about}"
