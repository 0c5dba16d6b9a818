"""What kinds of value there are: a type for each key of the spec, and which types go together."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache
from typing import Any, Literal, get_args, get_origin

from pydantic import BaseModel

from plangen.packs.syntax import ExpressionError
from plangen.packs.usage import is_noting, note_key
from plangen.spec.model import Spec
from plangen.spec.problems import name_list, nearest_name
from plangen.spec.quantity import (
    KINDS,
    registry,
    unit_from_label,
)
from plangen.spec.shape import Shape, shapes

Word = Literal["number", "quantity", "text", "flag", "date", "date-or-year", "section", "list", "any"]


@dataclass(frozen=True, slots=True)
class Type:
    """The kind of a value."""

    word: Word
    dimension: Any = None
    section: type[BaseModel] | None = None
    element: Type | None = None
    choices: tuple[str, ...] = ()

    def __str__(self) -> str:
        if self.word == "quantity":
            return f"a quantity of {_dimension_name(self.dimension)}"
        if self.word == "list":
            return f"a list of {str(self.element).removeprefix('a ')}s"
        return {
            "number": "a plain number",
            "text": "a text",
            "flag": "yes or no",
            "date": "a date",
            "date-or-year": "a date or a year, which `year(…)` makes a number",
            "section": "a section of the spec",
            "any": "any value",
        }[self.word]


NUMBER, TEXT_TYPE, FLAG, DAY, ANY = Type("number"), Type("text"), Type("flag"), Type("date"), Type("any")
MOMENT = Type("date-or-year")


class TypeFault(ExpressionError):
    """An expression that can't be right for any boat."""

    def __init__(self, found: str, accepted: str = "", nearest: str = "") -> None:
        super().__init__(found)
        self.found, self.accepted, self.nearest = found, accepted, nearest


@cache
def quantity_type(unit: str) -> Type:
    """Return the type of quantities that can be given in the unit; a plain number where it has no dimension."""
    dimension = registry.Unit(unit).dimensionality
    return Type("quantity", dimension=dimension) if dimension else NUMBER


def _dimension_name(dimension: Any) -> str:
    for kind in KINDS.values():
        if registry.Unit(kind.unit).dimensionality == dimension:
            return kind.name
    return str(dimension)


@cache
def type_of_shape(shape: Shape) -> Type:
    """Return the type of a key of the spec."""
    if shape.refers_to:
        target = type_at(shape.refers_to)
        assert target.element is not None
        return target if shape.is_list else target.element
    if shape.model is not None:
        one = Type("section", section=shape.model)
    elif shape.kind:
        one = quantity_type(KINDS[shape.kind].unit)
    else:
        one = _scalar_type(shape.scalar)
    return Type("list", element=one) if shape.is_list else one


def _scalar_type(annotation: Any) -> Type:
    if isinstance(annotation, tuple):
        return MOMENT if datetime.date in annotation else ANY
    if get_origin(annotation) is Literal:
        return replace(TEXT_TYPE, choices=tuple(str(choice) for choice in get_args(annotation)))
    if annotation is bool:
        return FLAG
    if annotation in (int, float):
        return NUMBER
    if isinstance(annotation, type) and issubclass(annotation, datetime.date):
        return DAY
    return TEXT_TYPE


def type_at(key_path: str) -> Type:
    """Return the type at a dotted key path of the spec."""
    if is_noting():
        _type_at.__wrapped__(key_path)  # what is looked up counts each time
    return _type_at(key_path)


@cache
def _type_at(key_path: str) -> Type:
    current = Type("section", section=Spec)
    for step in key_path.split("."):
        current = attribute_type(current, step)
    return current


def attribute_type(owner: Type, name: str) -> Type:
    """Return the type of one key of a section."""
    if owner.word == "any":
        return ANY
    if owner.word == "date" and name in ("year", "month", "day"):
        return NUMBER
    if owner.word != "section" or owner.section is None:
        raise TypeFault(f"{name!r} can't be looked up in {owner}")
    known = shapes(owner.section)
    if name not in known:
        raise TypeFault(
            f"there is no key {name!r} here", name_list(sorted(known), 40), nearest_name(name, known)
        )
    note_key(owner.section.__name__, name)
    return type_of_shape(known[name])


Names = Mapping[str, Type]


def same_kind(left: Type, right: Type) -> bool:
    """Tell whether two types can be compared, added or put in each other's place."""
    if "any" in (left.word, right.word):
        return True
    if left.word == right.word == "list":
        assert left.element is not None
        assert right.element is not None
        return same_kind(left.element, right.element)
    if {left.word, right.word} == {"section", "text"}:
        return True
    return left.word == right.word and (left.word != "quantity" or left.dimension == right.dimension)


def require_unit(found: Type, label: str) -> None:
    """Raise `TypeFault` unless a value of the type can be given in a reading's unit."""
    wanted = quantity_type(unit_from_label(label))
    one = found.element if found.word == "list" and found.element is not None else found
    if one.word == "any" or one.word == "number" or same_kind(wanted, one):
        return
    raise TypeFault(f"{one} for a reading in {label or 'plain numbers'}", f"{wanted}")
