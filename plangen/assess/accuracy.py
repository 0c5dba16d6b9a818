"""How good the instrument was with which a reading was taken."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from plangen.findings.parse_reading import typed_number
from plangen.formulas.uncertainty import expanded_uncertainty
from plangen.plan.model import Expectation, KitItem
from plangen.spec.quantity import is_unit_label, scale_of, unit_from_label

_STATED = re.compile(r"(?:±|\+/-|\+-)\s*(?P<amount>[0-9.,]+)\s*(?P<unit>%|[^\s0-9,;]+)?")


class OwnItem(KitItem):
    """An instrument of the register, whose accuracy is its own and not only the usual one of its kind."""


@dataclass(frozen=True)
class Accuracy:
    """The instrument, its expanded uncertainty at a reading, and whether that is only the usual one of its kind."""

    instrument: str
    uncertainty: float | None
    typical: bool


def accuracy_of(
    expected: Expectation, reading: float, used: str | None, kit: Mapping[str, KitItem]
) -> Accuracy | None:
    """Return the accuracy of the instrument that was used, or of the one that the plan names.

    `used` is what the user wrote under `with:`; an accuracy in it, as `± 0.5 %` or `± 0.1 V`, beats the
    catalogue's. Returns nothing where neither the user nor the plan names an instrument.
    """
    planned = kit.get(expected.instrument or "")
    item = _named(used, kit) if used else planned
    stated = _stated(used, reading, expected.unit) if used else None
    if stated is not None:
        return Accuracy(used or "", expanded_uncertainty(stated) if stated else 0.0, typical=False)
    item = item or planned
    if item is None:
        return Accuracy(used, None, typical=False) if used else None
    error = _catalogue_error(item, reading, expected.unit)
    uncertainty = None if error is None else expanded_uncertainty(error) if error else 0.0
    own = isinstance(item, OwnItem)
    return Accuracy(item.title if own else used or item.title, uncertainty, typical=not own)


def states_accuracy(written: str) -> bool:
    """Tell whether somebody wrote an accuracy behind the instrument, as `multimeter ± 0.5 %`."""
    return _STATED.search(written) is not None


def _named(used: str, kit: Mapping[str, KitItem]) -> KitItem | None:
    folded = used.casefold()
    return next((item for id, item in kit.items() if folded in (id, item.title.casefold())), None)


def _stated(used: str, reading: float, label: str) -> float | None:
    match = _STATED.search(used)
    if match is None:
        return None
    unit = match["unit"] or ""
    amount = typed_number(match["amount"], "").number
    if amount is None:
        return None
    if unit == "%" and label != "%":
        return abs(reading) * amount / 100
    if label == "°C" and unit in ("K", "°C", "°F"):
        return amount * (5 / 9 if unit == "°F" else 1)
    converted = typed_number(f"{match['amount']} {unit}".strip(), label)
    return converted.number


def _catalogue_error(item: KitItem, reading: float, label: str) -> float | None:
    limits = error_limits(item, label)
    return abs(reading) * limits.percent / 100 + limits.fixed if limits is not None else None


class ErrorLimits(NamedTuple):
    """What an instrument may be off by: so many per cent of a reading, and as much again in the reading's unit."""

    percent: float
    fixed: float


def error_limits(item: KitItem, label: str) -> ErrorLimits | None:
    """Return an instrument's error limits for readings in a unit; nothing where they aren't known in it."""
    if item.accuracy_fixed is None and item.accuracy_percent is None:
        return None
    fixed = item.accuracy_fixed or 0.0
    if item.unit and label and item.unit != label:
        if not (is_unit_label(item.unit) and is_unit_label(label)):
            return None
        own, other = scale_of(unit_from_label(item.unit)), scale_of(unit_from_label(label))
        if own.base != other.base:
            return None
        fixed = fixed * own.factor / other.factor
    return ErrorLimits(item.accuracy_percent or 0.0, fixed)
