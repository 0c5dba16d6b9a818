"""What a reading should be on this boat: limits in the reading's unit, with where they come from."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from plangen.formulas import OutOfRange
from plangen.packs.base import Source, SourceReference
from plangen.packs.evaluate import Scope, holds, number_in, render, show
from plangen.packs.facts import Missing, Subject
from plangen.packs.functions import MissingInput
from plangen.packs.library import Library
from plangen.packs.model import Basis, CheckRule, ReadingRule
from plangen.packs.syntax import ExpressionError
from plangen.packs.uncertainty_ratio import reads
from plangen.packs.values import literal, value_of
from plangen.plan.drafted import Drafted
from plangen.plan.format import Limits, decimals_of, limits_text, series_text
from plangen.plan.model import Cited, Expectation, SeriesPoint
from plangen.plan.plates import plate_of, plate_shown
from plangen.spec.explain import key_text
from plangen.spec.quantity import is_quantity, unit_from_label

_IDENTIFY = {
    "plate": "write down the plate",
    "serial-number": "record the serial number",
    "date": "record the date",
    "service-date": "record the date of the last service",
    "expiry-date": "record the date; not before the trial",
    "text": "record",
    "count": "record the number",
}


def cited(source: SourceReference, sources: Mapping[str, Source]) -> Cited:
    """Return a source reference as the plan gives it."""
    return Cited(id=source.id, clause=source.clause, known_by=source.known_by or sources[source.id].known_by)


def draft_reading(reading: ReadingRule, rule: CheckRule, scope: Scope, library: Library) -> Drafted | None:
    """Return what is expected of one reading, or nothing where it doesn't apply to the boat."""
    facts = scope.facts
    facts.start_notes()
    if not holds(reading.when, scope):
        return None
    source = reading.source or rule.source
    fields: dict[str, Any] = {
        "id": reading.id,
        "reading": render(reading.reading, scope),
        "formerly": tuple(render(text, scope) for text in reading.formerly),
        "parts": tuple(render(part.part, scope) for part in reading.parts if holds(part.when, scope)),
        "condition": reading.condition,
        "valid_if": reading.valid_if,
        "one_of": reading.one_of,
        "way": reading.way,
        "any_point": reading.any_point,
        "unit": reading.unit,
        "instrument": reads(reading, rule, library.instruments),
        "source": cited(source, library.sources),
        "basis": reading.basis or _basis_of(library.sources[source.id]),
        "note": render(reading.note, scope) if reading.note else None,
        "plate": {},
        "inputs": {},
    }
    scope.calls.clear()
    if reading.is_ is not None:
        text = render(reading.is_, scope)
        fields |= {"text": text, "shown": text}
    elif reading.record == "plate":
        subject = next((one for one in scope.bound.values() if isinstance(one, Subject)), None)
        stated = plate_of(subject.section) if subject is not None else {}
        fields |= {"record": "plate", "plate": stated, "shown": plate_shown(stated)}
    elif reading.record is not None and reading.series is None:
        fields |= {"record": reading.record, "shown": _IDENTIFY[reading.record]}
    else:
        try:
            fields |= _series(reading, scope) if reading.series is not None else _single(reading, scope)
        except MissingInput as error:
            fields |= _without_value(fields, f"the spec doesn't give {key_text(error.missing.path)}")
        except OutOfRange as error:
            fields |= _without_value(fields, str(error))
        except ExpressionError as error:
            fields |= _without_value(fields, str(error))
        if reading.record is not None:
            fields |= {"record": reading.record, "shown": _IDENTIFY[reading.record]}
        if scope.calls:
            call = scope.calls[-1]
            fields |= {
                "formula": call.name,
                "inputs": {name: show(value, scope.units) for name, value in call.inputs.items()},
            }
            if reading.basis is None and fields["basis"] == "common-practice":
                fields["basis"] = "computed"
    return Drafted(Expectation(**fields), facts.notes())


def _basis_of(source: Source) -> Basis:
    """Return the basis of a value whose reading doesn't say one: what its source is."""
    if source.kind == "law":
        return "law"
    return "standard" if source.is_standard else "common-practice"


def _without_value(fields: dict[str, Any], why: str) -> dict[str, Any]:
    reason = f"no expected value: {why}"
    note = f"{fields['note']} ({reason})" if fields.get("note") else reason
    return {"note": note, "shown": "record the reading"}


def _number(text: str, unit: str, scope: Scope) -> float:
    value = value_of(text, scope)
    if isinstance(value, Missing):
        raise MissingInput(value)
    return number_in(value, unit)


def _spread(text: str, value: float, reading: ReadingRule, scope: Scope) -> float:
    tolerance = value_of(text, scope)
    if isinstance(tolerance, Missing):
        raise MissingInput(tolerance)
    unit = unit_from_label(reading.unit)
    if not is_quantity(tolerance):
        return float(tolerance)
    relative = not tolerance.dimensionality and str(tolerance.units) in ("percent", "dimensionless")
    if relative and not (unit == "percent" and str(tolerance.units) == "percent"):
        return abs(value) * float(tolerance.to("dimensionless").magnitude)
    return float(tolerance.to(unit.replace("degC", "delta_degC") if unit == "degC" else unit).magnitude)


def _limits(reading: ReadingRule, scope: Scope) -> tuple[Limits, float | None, Basis | None]:
    """Return the limits, the computed value where a promise takes its place, and the promise's basis."""
    unit = unit_from_label(reading.unit)
    beaten: float | None = None
    basis: Basis | None = None
    low = high = value = None
    promise, promised_by = _promise(reading, scope, unit)
    if reading.about is not None:
        value = (
            _number(reading.about, unit, scope) if promise is None else _attempt(reading.about, unit, scope)
        )
    elif reading.between is not None:
        low, high = (_number(text, unit, scope) for text in reading.between)
    else:
        low = _number(reading.at_least, unit, scope) if reading.at_least is not None else None
        high = _number(reading.at_most, unit, scope) if reading.at_most is not None else None
    if promise is not None:
        basis = promised_by
        if reading.about is not None:
            beaten, value = value, promise
        elif low is not None and high is None:
            beaten, low = low, promise
        elif high is not None and low is None:
            beaten, high = high, promise
        else:
            value = promise
    if reading.about is not None and value is not None:
        spread = _spread(reading.tolerance or "0", value, reading, scope)
        low, high = value - spread, value + spread
        if unit != "degC" and value > 0:
            low = max(low, 0.0)
    return Limits(low, value, high), beaten, basis


def _attempt(text: str, unit: str, scope: Scope) -> float | None:
    try:
        return _number(text, unit, scope)
    except (MissingInput, OutOfRange, ExpressionError):
        return None


def _promise(reading: ReadingRule, scope: Scope, unit: str) -> tuple[float | None, Basis | None]:
    choices: tuple[tuple[str | None, Basis], ...] = (
        (reading.contract_value, "contract"),
        (reading.maker, "maker"),
    )
    for text, basis in choices:
        if text is None:
            continue
        before = dict(scope.facts.reads)
        scope.facts.reads = {}
        value = _attempt(text, unit, scope)
        assumed = any(read.origin == "assumed" for read in scope.facts.reads.values())
        scope.facts.reads = before | scope.facts.reads
        if value is not None:
            return value, "assumed" if assumed else basis
    return None, None


def _texts(reading: ReadingRule) -> list[str]:
    return [
        text
        for text in (reading.about, reading.at_least, reading.at_most, *(reading.between or ()))
        if text is not None
    ]


def _decimals(reading: ReadingRule, limits: list[Limits]) -> int:
    if reading.decimals is not None:
        return reading.decimals
    values = [x for one in limits for x in (one.low, one.value, one.high) if x is not None]
    if all(literal(text) is not None or _plain_number(text) for text in _texts(reading)):
        return max(decimals_of(x) for x in values) if values else 0
    return max((_own_decimals(one) for one in limits), default=0)


def _plain_number(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return True


def _own_decimals(limits: Limits) -> int:
    from plangen.spec.quantity import decimals_for

    return decimals_for([x for x in (limits.low, limits.value, limits.high) if x is not None])


def _rounded(limits: Limits, decimals: int) -> Limits:
    return Limits(
        *(None if x is None else round(x, decimals) + 0.0 for x in (limits.low, limits.value, limits.high))
    )


def _single(reading: ReadingRule, scope: Scope) -> dict[str, Any]:
    limits, beaten, basis = _limits(reading, scope)
    decimals = _decimals(reading, [limits])
    shown = limits_text(limits, reading.unit, decimals, scope.units)
    limits = _rounded(limits, decimals)
    fields: dict[str, Any] = {
        "value": limits.value,
        "low": limits.low,
        "high": limits.high,
        "shown": shown,
    }
    if basis is not None:
        fields |= {"basis": basis}
        promised = next((x for x in (limits.value, limits.low, limits.high) if x is not None), None)
        if beaten is not None and round(beaten, decimals) != promised:
            fields["computed"] = round(beaten, decimals)
    return fields


def _series(reading: ReadingRule, scope: Scope) -> dict[str, Any]:
    assert reading.series is not None
    points = value_of(reading.series, scope)
    if isinstance(points, Missing):
        raise MissingInput(points)
    unit = unit_from_label(reading.series_unit)
    rows: list[tuple[float, Limits]] = []
    for point in points:
        if isinstance(point, Missing):
            raise MissingInput(point)
        at_point = scope.with_bound(point=point)
        limits = _limits(reading, at_point)[0]
        rows.append((number_in(point, unit), limits))
    decimals = _decimals(reading, [limits for _, limits in rows])
    points_decimals = max((decimals_of(round(point, 2)) for point, _ in rows), default=0)
    rounded = [(round(point, points_decimals), _rounded(limits, decimals)) for point, limits in rows]
    series = tuple(
        SeriesPoint(
            point=point,
            value=one.value,
            low=one.low,
            high=one.high,
            shown=""
            if one == Limits(None, None, None)
            else limits_text(row[1], reading.unit, decimals, scope.units),
        )
        for (point, one), row in zip(rounded, rows, strict=True)
    )
    return {
        "series": series,
        "series_unit": reading.series_unit,
        "shown": series_text(
            [(round(point, points_decimals), limits) for point, limits in rows],
            reading.unit,
            reading.series_unit,
            decimals,
            scope.units,
        ),
    }
