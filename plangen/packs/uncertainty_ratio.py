"""Whether an instrument is good enough to decide a reading: the test uncertainty ratio."""

from __future__ import annotations

from collections.abc import Mapping

from pint.errors import PintError

from plangen.formulas.uncertainty import uncertainty_ratio
from plangen.packs.model import CheckRule, Instrument, ReadingRule
from plangen.packs.values import literal
from plangen.spec.quantity import is_unit_label, registry, unit_from_label

#: Half of a tolerance over the instrument's greatest error: what metrology asks for, and what can decide at all.
USUAL_RATIO, LEAST_RATIO = 4.0, 1.0


def reads(reading: ReadingRule, rule: CheckRule, instruments: Mapping[str, Instrument]) -> str | None:
    """Return the instrument that reads a reading: the one named, or the rule's only one that measures its unit."""
    if reading.instrument is not None:
        return reading.instrument
    fitting = [
        name
        for name in rule.instruments
        if name in instruments
        and instruments[name].kind == "instrument"
        and _same_unit(instruments[name].unit, reading.unit)
    ]
    return fitting[0] if len(fitting) == 1 else None


def _same_unit(one: str, other: str) -> bool:
    if not one or not other:
        return False
    if one == other:
        return True
    if not (is_unit_label(one) and is_unit_label(other)):
        return False
    first, second = registry.Unit(unit_from_label(one)), registry.Unit(unit_from_label(other))
    return bool(first.dimensionality) and first.dimensionality == second.dimensionality


def error_limit(instrument: Instrument, reading: float, label: str) -> float | None:
    """Return the greatest error of an instrument at a reading, in the reading's unit; none where it isn't known."""
    if instrument.accuracy is None and instrument.accuracy_percent is None:
        return None
    share = (instrument.accuracy_percent or 0.0) / 100 * abs(reading)
    return share + fixed_error(instrument, label)


def fixed_error(instrument: Instrument, label: str) -> float:
    """Return the part of an instrument's greatest error that doesn't grow with the reading, in the unit of the label."""
    if instrument.accuracy is None:
        return 0.0
    quantity = literal(instrument.accuracy)
    if quantity is None:
        return float(instrument.accuracy)
    unit = unit_from_label(label)
    return float(quantity.to("delta_degC" if unit == "degC" else unit).magnitude)


def static_ratio(reading: ReadingRule, instrument: Instrument) -> float | None:
    """Return the test uncertainty ratio of a reading whose limits are plain numbers; none where it depends on the boat."""
    try:
        limits = _static_limits(reading)
        if limits is None:
            return None
        low, high = limits
        error = error_limit(instrument, max(abs(low), abs(high)), reading.unit)
    except PintError:
        return None  # units that don't fit are a fault of their own
    return None if not error or high <= low else uncertainty_ratio(low, high, error)


def _static_limits(reading: ReadingRule) -> tuple[float, float] | None:
    if reading.between is not None:
        low, high = (_number(text, reading.unit) for text in reading.between)
        return None if low is None or high is None else (low, high)
    if reading.at_least is not None and reading.at_most is not None:
        low, high = _number(reading.at_least, reading.unit), _number(reading.at_most, reading.unit)
        return None if low is None or high is None else (low, high)
    if reading.about is not None and reading.tolerance is not None:
        value, spread = _number(reading.about, reading.unit), literal(reading.tolerance)
        if value is None or spread is None:
            return None
        if str(spread.units) == "percent" and reading.unit != "%":
            half = abs(value) * float(spread.to("dimensionless").magnitude)
        else:
            unit = unit_from_label(reading.unit)
            half = float(spread.to("delta_degC" if unit == "degC" else unit).magnitude)
        return value - half, value + half
    return None


def _number(text: str, label: str) -> float | None:
    quantity = literal(text)
    if quantity is not None:
        return float(quantity.to(unit_from_label(label)).magnitude)
    try:
        return float(text)
    except ValueError:
        return None
