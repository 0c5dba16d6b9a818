"""The as-built register as the plan has it: every thing aboard that has a plate, and the readings that ask for it."""

from __future__ import annotations

from collections.abc import Sequence

from plangen.packs.library import Library
from plangen.plan.drafted import DraftedCheck
from plangen.plan.left_open import section_title
from plangen.plan.model import Expectation, PlateReading, RegisterItem
from plangen.plan.plates import plate_of
from plangen.spec.model import Spec
from plangen.spec.model.base import Item
from plangen.spec.references import walk

_ASKS = ("plate", "serial-number")


def register_of(spec: Spec, drafted: Sequence[DraftedCheck], library: Library) -> tuple[RegisterItem, ...]:
    """Return the things whose maker, model, serial number or firmware the spec states or a check asks for."""
    places: dict[tuple[str | int, ...], list[PlateReading]] = {}
    for one in drafted:
        if one.subject is not None:
            places.setdefault(one.subject.path, []).extend(
                PlateReading(check=one.check.id, reading=expected.id, whole=expected.record == "plate")
                for expected in one.check.expect
                if _asks(expected)
            )
    found: list[RegisterItem] = []
    for path, section in walk(spec):
        stated = plate_of(section)
        readings = sorted(places.get(path, []), key=lambda place: not place.whole)
        if (
            not path
            or path[0] == "vessel"
            or not (stated or readings)
            or "serial" not in type(section).model_fields
        ):
            continue
        key = ".".join(str(step) for step in path if isinstance(step, str))
        name = getattr(section, "name", None) or key.rpartition(".")[2].replace("_", " ")
        zone = section.zone if isinstance(section, Item) else None
        found.append(
            RegisterItem(
                item=str(name),
                group=section_title(key, library),
                zone=zone,
                stated=stated,
                readings=tuple(readings),
            )
        )
    return tuple(found)


def _asks(expected: Expectation) -> bool:
    """Tell whether a reading asks for a plate; one that expects the serial number of the spec goes by that id."""
    return expected.record in _ASKS or (expected.id == "serial-number" and expected.text is not None)
