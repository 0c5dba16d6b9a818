"""Expected values as people read them, in metric, US or both units."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from plangen.spec.quantity import UnitSystem, convert_number, decimals_for, is_unit_label, us_label


@dataclass(frozen=True)
class Limits:
    """The lowest, the expected and the highest reading that count as good; any may be absent."""

    low: float | None
    value: float | None
    high: float | None

    def converted(self, label: str, to_label: str) -> Limits:
        """Return the limits in another unit."""
        return Limits(
            *(
                None if x is None else convert_number(x, label, to_label)
                for x in (self.low, self.value, self.high)
            )
        )


def decimals_of(value: float) -> int:
    """Return how many decimals a number needs, at most four.

    >>> decimals_of(12.65), decimals_of(50.0)
    (2, 0)
    """
    text = f"{value:.4f}".rstrip("0")
    return len(text.partition(".")[2])


def limits_text(limits: Limits, label: str, decimals: int, units: UnitSystem) -> str:
    """Write limits with their unit.

    >>> limits_text(Limits(12.65, None, None), "V", 2, "metric")
    '≥ 12.65 V'
    >>> limits_text(Limits(34, 40, 46), "flushes", 0, "metric")
    '40 flushes (34–46)'
    """
    other = us_label(label)
    metric = _one(limits, label, decimals)
    if units == "metric" or other == label:
        return metric
    changed = limits.converted(label, other)
    us = _one(changed, other, _decimals(changed))
    return us if units == "us" else f"{metric} [{us}]"


def _decimals(limits: Limits) -> int:
    return decimals_for([x for x in (limits.low, limits.value, limits.high) if x is not None])


def _one(limits: Limits, label: str, decimals: int) -> str:
    low, value, high = limits.low, limits.value, limits.high

    def number(value: float) -> str:
        return f"{value:.{decimals}f}"

    last = next((one for one in (high, low, value) if one is not None), 0.0)
    unit = f" {unit_words(label, last)}" if label else ""
    if low is not None and low == high:
        return f"{number(low)}{unit}"
    if value is not None and low is not None and high is not None:
        return f"{number(value)}{unit} ({number(low)}–{number(high)})"
    if low is not None and high is not None:
        return f"{number(low)}–{number(high)}{unit}" if low >= 0 else f"{number(low)} to {number(high)}{unit}"
    if low is not None:
        return f"≥ {number(low)}{unit}"
    if high is not None:
        return f"≤ {number(high)}{unit}" if high != 0 or is_unit_label(label) else f"{number(high)}{unit}"
    return f"{number(value)}{unit}" if value is not None else "record the reading"


def unit_words(label: str, number: float) -> str:
    """Return a unit as it stands behind a number; of a thing that is counted, one is singular.

    >>> [unit_words(label, 1) for label in ("starts", "batteries", "flushes", "places", "ms", "Δ°F")]
    ['start', 'battery', 'flush', 'place', 'ms', '°F']
    >>> unit_words("starts", 2)
    'starts'
    """
    label = label.removeprefix("Δ")
    if number != 1 or is_unit_label(label):
        return label
    for ending, singular in (("ies", "y"), ("ches", "ch"), ("shes", "sh"), ("xes", "x"), ("s", "")):
        if label.endswith(ending):
            return label.removesuffix(ending) + singular
    return label


def series_text(
    rows: Sequence[tuple[float, Limits]], label: str, point_label: str, decimals: int, units: UnitSystem
) -> str:
    """Write what is expected at each point of a series."""
    parts = []
    for point, limits in rows:
        shown = f"{point:.{decimals_of(point)}f}"
        parts.append(
            f"at {shown}{f' {unit_words(point_label, point)}' if point_label else ''}: {limits_text(limits, label, decimals, units)}"
        )
    return "; ".join(parts)
