"""Which boat a plan, a folder or a form is of."""

from __future__ import annotations

from dataclasses import dataclass

from plangen.plan.model import Boat
from plangen.spec.names import slug
from plangen.spec.quantity import QuantityError, parse_quantity

#: Lengths that differ by no more are of one boat: the same one, measured again or rounded in another unit.
_ALIKE = 0.01


@dataclass(frozen=True)
class BoatIdentity:
    """By what a boat is known: her name or a former one, and what tells her from another boat of that name."""

    name: str
    hull_id: str | None = None
    hull: str | None = None
    length_hull: float | None = None
    formerly: tuple[str, ...] = ()
    hull_number: int | None = None


def identity_of(boat: Boat) -> BoatIdentity:
    """Return the identity of a plan's boat."""
    return BoatIdentity(
        " ".join(boat.name.split()),
        boat.hull_id,
        boat.hull,
        _metres(boat.length_hull),
        boat.formerly,
        boat.hull_number,
    )


def _metres(length: str) -> float | None:
    try:
        return round(float(parse_quantity(length.partition(" (")[0], "length").to("metre").magnitude), 2)
    except QuantityError:
        return None


def differences(one: BoatIdentity, other: BoatIdentity) -> tuple[str, ...]:
    """Say in what two boats differ that can't be the same one; nothing where they may be.

    Two that state the same hull identification number are one boat, whatever else was corrected since.

    >>> differences(BoatIdentity("Tern", None, "motor-planing", 15.0), BoatIdentity("Tern", None, "motor-planing", 12.0))
    ('hull length 15 m and 12 m',)
    """
    if one.hull_id and other.hull_id:
        same = _folded(one.hull_id) == _folded(other.hull_id)
        return () if same else (f"hull id {one.hull_id} and {other.hull_id}",)
    found = []
    if one.hull_number and other.hull_number and one.hull_number != other.hull_number:
        found.append(f"hull number {one.hull_number} and {other.hull_number}")
    if one.hull and other.hull and one.hull != other.hull:
        found.append(f"hull {one.hull} and {other.hull}")
    if one.length_hull and other.length_hull:
        longer = max(one.length_hull, other.length_hull)
        if abs(one.length_hull - other.length_hull) > _ALIKE * longer:
            found.append(f"hull length {one.length_hull:g} m and {other.length_hull:g} m")
    return tuple(found)


def may_be_same(one: BoatIdentity, other: BoatIdentity) -> bool:
    """Tell whether two boats may be the same one: of one hull id, or of one name, today's or a former one."""
    if differences(one, other):
        return False
    if one.hull_id and other.hull_id:
        return True
    names = [{slug(name) for name in (boat.name, *boat.formerly)} for boat in (one, other)]
    return bool(names[0] & names[1])


def alike_but_for_name(one: BoatIdentity, other: BoatIdentity) -> bool:
    """Tell whether nothing but the name speaks against two boats being one: neither has a hull number, all else is alike."""
    unnumbered = one.hull_id is None and other.hull_id is None
    return unnumbered and one.length_hull is not None and not differences(one, other)


def _folded(hull_id: str) -> str:
    return "".join(character for character in hull_id.casefold() if character.isalnum())
