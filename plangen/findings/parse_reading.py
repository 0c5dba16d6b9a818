"""Numbers as people type them: `14,1`, `14.1v`, `~14`, `58 °F`; read where that can be done in one way only."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import Any

from plangen.spec.quantity import KINDS, registry, unit_from_label, us_label

_ABOUT = re.compile(r"^(~|≈|ca\.?|circa|approx\.?|about)\s*", re.IGNORECASE)
_NUMBER = re.compile(
    r"(?P<number>[+-]?(?:[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+))\s*(?P<unit>[^\s0-9].*)?", re.DOTALL
)
#: Readings in kelvin are differences of temperatures, which people write with the sign of a temperature.
_DIFFERENCES = {"degC": "delta_degC", "degF": "delta_degF"}
_THOUSANDS = re.compile(r"[+-]?[0-9]{1,3},[0-9]{3}")


@dataclass(frozen=True)
class TypedNumber:
    """What a typed reading comes to in the reading's own unit, or why it can't be read."""

    number: float | None
    about: bool = False
    fault: str = ""


def typed_number(typed: Any, label: str) -> TypedNumber:
    """Return the number that was typed, in the unit of the label.

    >>> typed_number("14,1", "V").number, typed_number("14.1v", "V").number, typed_number("58 °F", "°C").number
    (14.1, 14.1, 14.44...)
    >>> typed_number("1,200", "L").fault
    'the comma may part thousands or decimals'
    >>> typed_number("~14", "V").about
    True
    """
    if isinstance(typed, bool):
        return TypedNumber(None, fault="yes or no where a number is expected")
    if isinstance(typed, (int, float)):
        return TypedNumber(float(typed))
    if not isinstance(typed, str):
        return TypedNumber(None, fault="no number")
    text = typed.strip()
    bare = _ABOUT.sub("", text)
    about = bare != text
    match = _NUMBER.fullmatch(bare)
    if match is None:
        return TypedNumber(None, about, "no single number")
    if _THOUSANDS.fullmatch(match["number"]):
        return TypedNumber(None, about, "the comma may part thousands or decimals")
    number = float(match["number"].replace(",", "."))
    written = (match["unit"] or "").strip()
    if not written or written.casefold() == label.casefold():
        return TypedNumber(number, about)
    unit = _unit_of(written)
    if unit is None and any(character.isdigit() for character in written):
        return TypedNumber(None, about, "no single number")
    if unit is None:
        counted = unit_from_label(label) == "dimensionless" and label != "%"
        return (
            TypedNumber(number, about)
            if counted and written.isalpha()
            else TypedNumber(None, about, f"the unit {written!r} isn't known")
        )
    wanted = unit_from_label(label)
    if wanted == "kelvin" or wanted.startswith("delta_"):
        unit = _DIFFERENCES.get(unit, unit)
    if registry.Unit(unit).dimensionality != registry.Unit(wanted).dimensionality:
        return TypedNumber(None, about, f"{written} is no unit for a reading in {label or 'plain numbers'}")
    return TypedNumber(float(registry.Quantity(number, unit).to(wanted).magnitude), about)


def as_printed(typed: Any, label: str, units: str) -> Any:
    """Return what was typed with the unit beside which it was typed, where it has none and that isn't the reading's own.

    >>> as_printed(2.9, "L/min", "us"), as_printed([58, "14 °C"], "°C", "us"), as_printed(2.9, "L/min", "metric")
    ('2.9 gal/min', ['58 °F', '14 °C'], 2.9)
    """
    printed = us_label(label)
    if units != "us" or printed == label:
        return typed
    if isinstance(typed, list):
        return [as_printed(one, label, units) for one in typed]
    bare = typed_number(typed, "1").number is not None and not re.search(
        r"[^\W\d_]|[°%]", _ABOUT.sub("", str(typed))
    )
    return f"{typed} {printed}" if bare else typed


@cache
def _unit_of(written: str) -> str | None:
    folded: dict[str, set[str]] = {}
    for kind in KINDS.values():
        for label, unit in kind.units.items():
            if label == written:
                return unit
            folded.setdefault(label.casefold(), set()).add(unit)
    alike = folded.get(written.casefold(), set())
    return next(iter(alike)) if len(alike) == 1 else None


_YES = {"yes", "y", "true", "ok", "x", "1", "on"}
_NO = {"no", "n", "false", "0", "off"}


def typed_answer(typed: Any) -> bool | None:
    """Return yes or no as typed, or nothing where it's neither.

    >>> typed_answer("Yes"), typed_answer(False), typed_answer("maybe")
    (True, False, None)
    """
    if isinstance(typed, bool):
        return typed
    word = str(typed).strip().casefold()
    return True if word in _YES else False if word in _NO else None
