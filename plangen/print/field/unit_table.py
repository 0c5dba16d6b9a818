"""Units and accuracies as the field page needs them, so that it has no table of its own to drift from ours."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from plangen.assess.accuracy import error_limits
from plangen.findings.parse_reading import DIFFERENCES, units_known
from plangen.plan.model import KitItem
from plangen.spec.quantity import scale_of


def unit_table() -> dict[str, Any]:
    """Return what people may write behind a number, and how each unit's numbers are turned into base units."""
    known = units_known()
    units = sorted({*known.labels.values(), *DIFFERENCES.values(), "dimensionless"})
    scales = {unit: scale_of(unit) for unit in units}
    return {
        "labels": dict(known.labels),
        "folded": dict(known.folded),
        "spelt": dict(known.spelt),
        "differences": dict(DIFFERENCES),
        "scales": {unit: [one.base, one.factor, one.offset] for unit, one in scales.items()},
    }


def instrument_table(kit: Iterable[KitItem], labels: Iterable[str]) -> Mapping[str, Any]:
    """Return the instruments by id, with their error limits, per cent and fixed, for readings in each unit."""
    own = sorted(set(labels))
    table: dict[str, Any] = {}
    for item in kit:
        limits = {label: one for label in own if (one := error_limits(item, label)) is not None}
        entry: dict[str, Any] = {"title": item.title}
        if item.accuracy:
            entry["accuracy"] = item.accuracy
        if limits:
            entry["limits"] = {label: [one.percent, one.fixed] for label, one in limits.items()}
        table[item.id] = entry
    return table
