"""The ids of checks: rule and item, the boat herself always under the same word, so that hulls compare."""

from __future__ import annotations

from collections.abc import Iterable

from plangen.packs.facts import Subject
from plangen.spec.model.vessel import Vessel
from plangen.spec.names import slug

BOAT = "boat"


def item_id(subject: Subject | None) -> str:
    """Return the part of an id that names the item; what is about the vessel as a whole is `boat`."""
    return BOAT if subject is None or _is_vessel(subject) else slug(subject.name)


def former_check_ids(rules: Iterable[str], subject: Subject | None, vessel: Vessel) -> tuple[str, ...]:
    """Return the ids that a check had under earlier names of its item or its rule; the first rule is today's.

    What is about the boat as a whole once went by her name.
    """
    if subject is None or _is_vessel(subject):
        names: Iterable[str] = (vessel.name, *vessel.formerly)
    else:
        names = getattr(subject.section, "formerly", ())
    items = (item_id(subject), *(slug(name) for name in names))
    every = [f"{rule}@{item}" for rule in rules for item in items]
    return tuple(dict.fromkeys(id for id in every if id != every[0]))


def _is_vessel(subject: Subject) -> bool:
    return subject.path == ("vessel",)
