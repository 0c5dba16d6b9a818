"""The functions that every expression may call beside the trade formulas."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from plangen.packs.facts import Facts, Missing, Subject
from plangen.packs.syntax import ExpressionError
from plangen.spec.quantity import (
    Quantity,
    QuantityError,
    is_quantity,
    parse_quantity,
    quantity_text,
    registry,
)


class MissingInput(ExpressionError):
    """A value that the expression needs and that the spec doesn't give."""

    def __init__(self, missing: Missing) -> None:
        super().__init__(f"{missing.path}")
        self.missing = missing


@dataclass(frozen=True)
class Function:
    """One function: what it is called with, and what it does."""

    call: Callable[..., Any]
    fewest: int
    most: int
    summary: str
    needs_facts: bool = False


def need(value: Any) -> Any:
    """Return the value, or say that it is missing."""
    if isinstance(value, Missing):
        raise MissingInput(value)
    return value


#: What is written in a pack is written there once and used for many items.
_read_once = cache(parse_quantity)


def _q(text: Any) -> Quantity:
    try:
        return _read_once(text) if isinstance(text, str) else parse_quantity(text)
    except QuantityError as error:
        raise ExpressionError(str(error)) from error


def _listed(value: Any) -> list[Any]:
    if isinstance(value, Missing):
        return []
    if not isinstance(value, list):
        raise ExpressionError("a list is wanted here")
    return value


def _key(facts: Facts, item: Any, key: str) -> Any:
    for step in key.split("."):
        if isinstance(item, Missing):
            return item
        if not isinstance(item, Subject):
            raise ExpressionError(f"{key!r} can't be looked up here")
        item = facts.get(item, step)
    return item


def _where(facts: Facts, items: Any, key: str, *wanted: Any) -> list[Any]:
    found = []
    for item in _listed(items):
        value = _key(facts, item, key)
        if isinstance(value, Subject) and wanted:
            value = value.name
        if value in wanted if wanted else bool(value) and not isinstance(value, Missing):
            found.append(item)
    return found


def _total(facts: Facts, items: Any, key: str) -> Any:
    values = [need(_key(facts, item, key)) for item in _listed(items)]
    if not values:
        return 0
    result = values[0]
    for value in values[1:]:
        result = result + value
    return result


def _each(facts: Facts, items: Any, key: str) -> list[Any]:
    return [need(_key(facts, item, key)) for item in _listed(items)]


def _different(facts: Facts, items: Any, key: str) -> int:
    """Count the different values of a key; each item that doesn't tell it counts as one more."""
    values = [_key(facts, item, key) for item in _listed(items)]
    told = {
        value.name if isinstance(value, Subject) else value
        for value in values
        if not isinstance(value, Missing)
    }
    return len(told) + sum(isinstance(value, Missing) for value in values)


def _first(items: Any) -> Any:
    listed = _listed(items)
    return listed[0] if listed else Missing(("nothing",))


def _extreme(choose: Callable[..., Any], values: tuple[Any, ...]) -> Any:
    listed = values[0] if len(values) == 1 and isinstance(values[0], list) else list(values)
    if not listed:
        raise ExpressionError("the least or greatest of nothing")
    return choose(need(value) for value in listed)


def _age(facts: Facts, date: Any) -> Quantity:
    date = need(date)
    day = need(facts.at("trial.date"))
    if isinstance(date, int):
        years = day.year - date
        return registry.Quantity(years, "year")
    if not isinstance(date, datetime.date):
        raise ExpressionError("the age of something that is no date")
    return registry.Quantity((day - date).days / 365.25, "year")


def _year(date: Any) -> int:
    date = need(date)
    if isinstance(date, int):
        return date
    if not isinstance(date, datetime.date):
        raise ExpressionError("the year of something that is no date")
    return date.year


def _rounded(value: Any, step: Any = 1) -> Any:
    value, step = need(value), need(step)
    if not (step.magnitude if is_quantity(step) else step) > 0:
        raise ExpressionError("rounded to a step that isn't more than nothing")
    ratio = (value / step).to("dimensionless").magnitude if is_quantity(value / step) else value / step
    return round(ratio) * step


def _up(value: Any) -> int:
    from math import ceil

    value = need(value)
    number = float(value.to("dimensionless").magnitude if is_quantity(value) else value)
    return ceil(round(number, 9))


def _whole(value: Any) -> int:
    from math import floor

    value = need(value)
    number = float(value.to("dimensionless").magnitude if is_quantity(value) else value)
    return floor(round(number, 9))


def _number(value: Any, unit: str) -> float:
    from plangen.spec.quantity import unit_from_label

    value = need(value)
    if not is_quantity(value):
        raise ExpressionError("`number` wants a quantity and the unit in which it is counted")
    return float(value.to(unit_from_label(unit)).magnitude)


def _text(value: Any) -> str:
    value = need(value)
    return quantity_text(value) if is_quantity(value) else str(value)


FUNCTIONS: Mapping[str, Function] = {
    "q": Function(_q, 1, 1, 'a quantity with its unit: q("50 kW")'),
    "where": Function(
        _where, 2, 12, 'the items whose key has one of the values: where(tanks, "holds", "black")', True
    ),
    "total": Function(_total, 2, 2, 'the sum over items of one key: total(engines, "power")', True),
    "each": Function(_each, 2, 2, 'a list of one key of each item: each(tanks, "capacity")', True),
    "count": Function(lambda items: len(_listed(items)), 1, 1, "how many items a list has"),
    "different": Function(
        _different, 2, 2, 'how many different values a key has: different(engines, "zone")', True
    ),
    "first": Function(_first, 1, 1, "the first item of a list"),
    "least": Function(
        lambda *values: _extreme(min, values), 1, 12, "the least of several values, or of a list"
    ),
    "greatest": Function(
        lambda *values: _extreme(max, values), 1, 12, "the greatest of several values, or of a list"
    ),
    "age": Function(_age, 1, 1, "years from a date, or from a year, to the day of trial", True),
    "year": Function(_year, 1, 1, "the year of a date; a year is itself"),
    "rounded": Function(_rounded, 1, 2, 'rounded to a step: rounded(x, q("10 rpm"))'),
    "rounded_up": Function(_up, 1, 1, "the next whole number above"),
    "rounded_down": Function(_whole, 1, 1, "the next whole number below"),
    "number": Function(_number, 2, 2, 'the plain number of a quantity in a unit: number(vessel.beam, "m")'),
    "stated": Function(
        lambda value: value, 1, 1, "the value where the spec states it, nothing where it is only assumed"
    ),
    "text": Function(_text, 1, 1, "a value as text"),
}
