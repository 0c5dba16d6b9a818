"""The names of the form fields, by which a filled PDF is read back.

Parts of a name are set off by slashes; a full stop would part a name in PDF itself (ISO 32000-1, 12.7.3.2).
A reading goes by its words and not by its place, so that a sheet of another version of the plan never
passes its value to another reading.
"""

from __future__ import annotations

from plangen.plan.model import PlannedCheck
from plangen.spec.names import slug


def plan_field(digest: str) -> str:
    """Return the field without room on the paper that says whose plan it is, and which."""
    return f"plan/{digest}"


def reading_field(check: PlannedCheck, index: int, step: int | None = None) -> str:
    """Return the field of one reading of a check, or of one point of its series."""
    name = f"check/{check.id}/reading/{reading_names(check)[index]}"
    return name if step is None else f"{name}/{step + 1}"


def reading_names(check: PlannedCheck) -> tuple[str, ...]:
    """Return the name of each reading of a check as its fields have it."""
    names: list[str] = []
    for expected in check.expect:
        name = slug(expected.reading)
        alike = sum(other == name or other.startswith(f"{name}~") for other in names)
        names.append(f"{name}~{alike + 1}" if alike else name)
    return tuple(names)


def note_field(check: str) -> str:
    """Return the field for a remark on a check."""
    return f"check/{check}/note"


def by_field(check: str) -> str:
    """Return the field for the initials of who did a check."""
    return f"check/{check}/by"


def round_field(round: str, about: str) -> str:
    """Return a field at the head of a round: by, date, from, to or done."""
    return f"round/{round}/{about}"


def snag_field(row: int, column: str) -> str:
    """Return a field of the blank snag sheet."""
    return f"snag/{row}/{column}"


def question_field(key: str) -> str:
    """Return the field for the answer to an open question.

    >>> question_field("use.water_temperature")
    'question/use:water_temperature'
    """
    return f"question/{key.replace('.', ':')}"
