"""The shape of each key of a file, read from its models: a list, a section or a single value."""

from __future__ import annotations

import types
from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic import BaseModel

from plangen.spec.model.base import Item, OfKind, RefersTo, Singular


@dataclass(frozen=True)
class Shape:
    """What one key of a section holds."""

    model: type[BaseModel] | None = None
    is_list: bool = False
    singular: str = ""
    paired: bool = False
    kind: str = ""
    refers_to: str = ""
    scalar: Any = None
    description: str = ""
    example: str = ""
    within: tuple[str, str] | None = None

    @property
    def named(self) -> bool:
        """Tell whether the value is a list of items with names."""
        return self.is_list and self.model is not None and issubclass(self.model, Item)


def _strip(annotation: Any, markers: list[Any]) -> Any:
    while True:
        origin = get_origin(annotation)
        if origin is Annotated:
            annotation, *found = get_args(annotation)
            markers.extend(found)
        elif origin in (Union, types.UnionType):
            choices = tuple(choice for choice in get_args(annotation) if choice is not type(None))
            if len(choices) > 1:
                return choices
            annotation = choices[0]
        else:
            return annotation


@cache
def shapes(model: type[BaseModel]) -> dict[str, Shape]:
    """Return the shape of every key of the model."""
    found: dict[str, Shape] = {}
    for name, field in model.model_fields.items():
        markers = list(field.metadata)
        inner = _strip(field.annotation, markers)
        is_list = get_origin(inner) in (tuple, list)
        if is_list:
            inner = _strip(get_args(inner)[0], markers)
        singular = next((m for m in markers if isinstance(m, Singular)), None)
        kind = next((m.kind for m in markers if isinstance(m, OfKind)), "")
        target = next((m.target for m in markers if isinstance(m, RefersTo)), "")
        is_model = isinstance(inner, type) and issubclass(inner, BaseModel)
        found[name] = Shape(
            model=inner if is_model else None,
            is_list=is_list,
            singular=singular.name if singular else "",
            paired=singular.paired if singular else False,
            kind=kind,
            refers_to=target,
            scalar=None if is_model else inner,
            description=field.description or "",
            example=str(field.examples[0]) if field.examples else "",
            within=_within(field.json_schema_extra),
        )
    return found


def _within(extra: Any) -> tuple[str, str] | None:
    limits = extra.get("within") if isinstance(extra, dict) else None
    return (str(limits[0]), str(limits[1])) if isinstance(limits, list) else None


@cache
def item_lists(model: type[BaseModel], prefix: str = "") -> dict[str, Shape]:
    """Return every list of named items below the model by its key path, such as `dc.banks`."""
    found: dict[str, Shape] = {}
    for name, shape in shapes(model).items():
        path = f"{prefix}{name}"
        if shape.named:
            found[path] = shape
        elif shape.model is not None and not shape.is_list:
            found.update(item_lists(shape.model, f"{path}."))
    return found
