"""Readings as people type them: `14,1`, `~14`, `>20`, `12-13`, `1 200`, `8.2 knots`, `n/a`; read where that can be done in one way only."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

from plangen.spec.quantity import (
    KINDS,
    is_unit_label,
    rescaled,
    scale_of,
    unit_from_label,
    us_label,
)

_ABOUT = re.compile(r"^(~|≈|ca\.?|circa|approx\.?|about)\s*", re.IGNORECASE)
_BOUND = re.compile(r"^(?P<sign>[<>≤≥]=?|more than|over|at least|less than|under|at most)\s*", re.IGNORECASE)
_BELOW = ("<", "≤", "less than", "under", "at most")
_AMOUNT = r"(?:[0-9][0-9.,' \u00a0\u2009\u202f]*[0-9]|[0-9]|[.,][0-9]+)"
_NUMBER = re.compile(
    rf"(?P<first>[+-]?{_AMOUNT})(?:\s*(?:-|–|\bto\b|\.\.)\s*(?P<last>[+-]?{_AMOUNT}))?\s*(?P<unit>[^\s0-9].*)?",
    re.DOTALL,
)
_PARTED = re.compile(r"[0-9]{1,3}(?:(?P<part>[.,' \u00a0\u2009\u202f])[0-9]{3})(?:(?P=part)[0-9]{3})*")
#: Readings in kelvin are differences of temperatures, which people write with the sign of a temperature.
DIFFERENCES = {"degC": "delta_degC", "degF": "delta_degF"}
#: Units as people spell them out.
_SPELT = {
    "knot": "kn", "knots": "kn", "kts": "kn", "volt": "V", "volts": "V", "amp": "A", "amps": "A", "ampere": "A", "amperes": "A",
    "watt": "W", "watts": "W", "second": "s", "seconds": "s", "sec": "s", "secs": "s", "minute": "min", "minutes": "min", "mins": "min",
    "hour": "h", "hours": "h", "hr": "h", "hrs": "h", "litre": "L", "litres": "L", "liter": "L", "liters": "L", "ltr": "L",
    "gallon": "gal", "gallons": "gal", "metre": "m", "metres": "m", "meter": "m", "meters": "m", "foot": "ft", "feet": "ft",
    "inch": "in", "inches": "in", "kilo": "kg", "kilos": "kg", "pound": "lb", "pounds": "lb", "tonne": "t", "tonnes": "t",
    "ohms": "ohm", "percent": "%", "per cent": "%", "deg c": "°C", "deg f": "°F", "rev/min": "rpm", "hertz": "Hz", "degrees": "°",
}  # fmt: skip
_NOT_APPLICABLE = ("n/a", "n.a.", "not applicable", "does not apply", "doesn't apply")


@dataclass(frozen=True)
class TypedNumber:
    """What a typed reading comes to in the reading's own unit, or why it can't be read.

    `number` is the one number that was typed. Of a range it is the middle, with `low` and `high` as its ends; where
    only a bound was typed (`> 20`) there is no number, and one end.
    """

    number: float | None
    about: bool = False
    fault: str = ""
    low: float | None = None
    high: float | None = None

    @property
    def is_single(self) -> bool:
        """Tell whether one number was typed, and no range or bound."""
        return self.number is not None and self.low is None


@dataclass(frozen=True)
class _Parsed:
    """A reading taken apart: its numbers, the sign of a bound, and the unit as it was written."""

    first: float
    last: float | None
    bound: Literal["", "above", "below"]
    about: bool
    unit: str


def typed_number(typed: Any, label: str) -> TypedNumber:
    """Return the number that was typed, in the unit of the label.

    >>> typed_number("14,1", "V").number, typed_number("14.1v", "V").number, typed_number("58 °F", "°C").number
    (14.1, 14.1, 14.44...)
    >>> typed_number("1,200", "L").fault
    'the comma may part thousands or decimals'
    >>> typed_number("~14", "V").about, typed_number("1 200", "L").number, typed_number("1.200,5 L", "L").number
    (True, 1200.0, 1200.5)
    >>> typed_number(">20", "A").low, typed_number("12-13 V", "V").high, typed_number("10 min.", "min").number
    (20.0, 13.0, 10.0)
    """
    if isinstance(typed, bool):
        return TypedNumber(None, fault="yes or no where a number is expected")
    if isinstance(typed, (int, float)):
        return (
            TypedNumber(float(typed)) if abs(typed) < 1e300 else TypedNumber(None, fault="no finite number")
        )
    if not isinstance(typed, str):
        return TypedNumber(None, fault="no number")
    parsed = _parse(typed)
    if isinstance(parsed, str):
        return TypedNumber(None, bool(_ABOUT.match(typed.strip())), parsed)
    unit = _unit_meant(parsed, label)
    if isinstance(unit, TypedNumber):
        return unit

    def converted(number: float) -> float:
        return number if unit is None else rescaled(number, unit, unit_from_label(label))

    first = converted(parsed.first)
    if parsed.bound:
        low, high = (first, None) if parsed.bound == "above" else (None, first)
        return TypedNumber(None, parsed.about, low=low, high=high)
    if parsed.last is None:
        return TypedNumber(first, parsed.about)
    low, high = sorted((first, converted(parsed.last)))
    return TypedNumber((low + high) / 2, parsed.about, low=low, high=high)


def _parse(typed: str) -> _Parsed | str:
    """Take a typed reading apart, or say why that can't be done in one way."""
    text = typed.strip()
    if len(text) > 60:
        return "no single number"
    bare = _ABOUT.sub("", text)
    about = bare != text
    sign = _BOUND.match(bare)
    match = _NUMBER.fullmatch(bare[sign.end() :] if sign else bare)
    if match is None or (sign and match["last"]):
        return "no single number"
    first = _amount(match["first"])
    last = _amount(match["last"]) if match["last"] else None
    for amount in (first, last):
        if isinstance(amount, str):
            return amount
    below = sign is not None and sign["sign"].casefold().rstrip("=") in _BELOW
    unit = (match["unit"] or "").strip().rstrip(".").strip()
    assert isinstance(first, float)
    return _Parsed(
        first,
        last if isinstance(last, float) else None,
        "" if sign is None else "below" if below else "above",
        about,
        unit,
    )


def _amount(written: str) -> float | str:
    """Return a number whose thousands may be parted, or why it may be one or another.

    >>> _amount("1 200"), _amount("1.200,5"), _amount("1,200.5"), _amount("1.200"), _amount("1'200'000"), _amount("1 20")
    (1200.0, 1200.5, 1200.5, 1.2, 1200000.0, 'no single number')
    """
    sign, digits = (written[0], written[1:]) if written[0] in "+-" else ("", written)
    whole, decimals = digits, ""
    for mark in ",.":
        head, found, tail = digits.rpartition(mark)
        if found and tail.isdigit() and mark not in head:
            whole, decimals = head, tail
            break
    if (
        _last_mark(digits) == ","
        and len(decimals) == 3
        and whole.isdigit()
        and 0 < len(whole) <= 3
        and whole[0] != "0"
    ):
        return "the comma may part thousands or decimals"
    plain = re.sub(r"[^0-9]", "", whole) if _PARTED.fullmatch(whole) else whole
    if (plain and not plain.isdigit()) or not (plain or decimals):
        return "no single number"
    return float(f"{sign}{plain or '0'}.{decimals or '0'}")


def _last_mark(digits: str) -> str:
    """Return the last mark in a number that may part its decimals."""
    return next((c for c in reversed(digits) if c in ",."), "")


def _unit_meant(parsed: _Parsed, label: str) -> str | TypedNumber | None:
    """Return the unit to convert from, nothing where the number is in the reading's own, or what is wrong with it."""
    written = parsed.unit
    if not written or written.casefold() == label.casefold():
        return None
    unit = unit_written(written)
    if unit is None and any(character.isdigit() for character in written):
        return TypedNumber(None, parsed.about, "no single number")
    if unit is None:
        counted = unit_from_label(label) == "dimensionless" and label != "%"
        if counted and written.replace(" ", "").isalpha() and len(written.split()) == 1:
            return None
        return TypedNumber(None, parsed.about, f"the unit {written!r} isn't known")
    wanted = unit_from_label(label)
    if wanted == "kelvin" or wanted.startswith("delta_"):
        unit = DIFFERENCES.get(unit, unit)
    if scale_of(unit).base != scale_of(wanted).base:
        return TypedNumber(
            None, parsed.about, f"{written} is no unit for a reading in {label or 'plain numbers'}"
        )
    return unit


def printed_label(label: str, units: str) -> str:
    """Return the unit that is printed beside a reading: what a bare number is taken to be in."""
    return us_label(label) if units == "us" else label


def with_unit(typed: Any, label: str) -> Any:
    """Return what was typed with a unit behind it, where it is a number without one and the label is a unit of measure.

    >>> with_unit(2.9, "gal/min"), with_unit("14 °C", "°F"), with_unit("yes", "V"), with_unit(4, "flushes")
    ('2.9 gal/min', '14 °C', 'yes', 4)
    """
    if not is_unit_label(label) or isinstance(typed, bool):
        return typed
    if isinstance(typed, str):
        parsed = _parse(typed)
        return typed if isinstance(parsed, str) or parsed.unit else f"{typed} {label}"
    return f"{typed} {label}" if isinstance(typed, (int, float)) else typed


def as_printed(typed: Any, label: str, units: str) -> Any:
    """Return what was typed with the unit beside which it was typed, where it has none and that isn't the reading's own.

    >>> as_printed(2.9, "L/min", "us"), as_printed([58, "14 °C"], "°C", "us"), as_printed(2.9, "L/min", "metric")
    ('2.9 gal/min', ['58 °F', '14 °C'], 2.9)
    """
    printed = printed_label(label, units)
    if printed == label:
        return typed
    return (
        [with_unit(one, printed) for one in typed] if isinstance(typed, list) else with_unit(typed, printed)
    )


def unit_written(written: str) -> str | None:
    """Return the unit that somebody wrote: by its label, as it is spelt out, or in other letters where only one is meant.

    >>> unit_written("Knots"), unit_written("kw"), unit_written("mw") is None
    ('knot', 'kilowatt', True)
    """
    known = units_known()
    label = known.spelt.get(" ".join(written.casefold().split()), written)
    return known.labels.get(label) or known.folded.get(label.casefold())


@dataclass(frozen=True)
class UnitsKnown:
    """The units that may stand behind a reading: by label, by label in other letters, and the labels of spelt-out ones."""

    labels: Mapping[str, str]
    folded: Mapping[str, str]
    spelt: Mapping[str, str]


@cache
def units_known() -> UnitsKnown:
    """Return the units by what people write; what may be two in other letters is left out there."""
    labels: dict[str, str] = {}
    alike: dict[str, set[str]] = {}
    for kind in KINDS.values():
        for label, unit in kind.units.items():
            labels.setdefault(label, unit)
            alike.setdefault(label.casefold(), set()).add(unit)
    folded = {label: next(iter(units)) for label, units in alike.items() if len(units) == 1}
    return UnitsKnown(labels, folded, _SPELT)


_YES = {"yes", "y", "true", "ok", "x", "1", "on"}
_NO = {"no", "n", "false", "0", "off"}
#: What says that something is as it should be, or isn't, whatever was asked.
_GOOD = {"ok", "okay", "o.k.", "good", "pass", "passed", "fine", "✓", "✔"}
_BAD = {"not ok", "nok", "n.ok", "not okay", "not", "not good", "bad", "fail", "failed", "✗", "✘"}


def typed_answer(typed: Any) -> bool | None:
    """Return yes or no as typed, or nothing where it's neither.

    >>> typed_answer("Yes"), typed_answer(False), typed_answer("maybe")
    (True, False, None)
    """
    if isinstance(typed, bool):
        return typed
    word = str(typed).strip().casefold()
    return True if word in _YES else False if word in _NO else None


def typed_judgement(typed: Any) -> bool | None:
    """Tell whether somebody typed that the thing is as it should be, or isn't; nothing for any other answer.

    >>> typed_judgement("OK"), typed_judgement("not ok"), typed_judgement("no")
    (True, False, None)
    """
    word = " ".join(str(typed).casefold().split()).rstrip(".!") if isinstance(typed, str) else ""
    return True if word in _GOOD else False if word in _BAD else None


def says_not_applicable(typed: Any) -> bool:
    """Tell whether somebody typed that the reading doesn't concern the boat.

    >>> says_not_applicable("N/A"), says_not_applicable("none")
    (True, False)
    """
    return isinstance(typed, str) and " ".join(typed.casefold().split()) in _NOT_APPLICABLE
