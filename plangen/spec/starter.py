"""A commented spec to start from, written out of the models for one hull type."""

from __future__ import annotations

from datetime import date
from typing import Any, get_args

from pydantic import BaseModel

from plangen.spec.model import Spec
from plangen.spec.quantity import KINDS
from plangen.spec.shape import Shape, shapes
from plangen.spec.short_words import choices_of, own_first

SCHEMA_FILE = "spec.schema.json"


def starter_text(hull: str, fitted: dict[str, Any]) -> str:
    """Return a starter spec for a hull type, with what such a boat usually has in short form.

    Everything else stands in comments, to be filled in where she has it.
    """
    lines = [
        f"# yaml-language-server: $schema={SCHEMA_FILE}",
        "# A spec to start from. Remove the # for equipment fitted, and write your own values with their units.",
        "# A short form is always enough (heads: 3, watermaker: 60 L/h, engines: {count: 2, power: 42 kW}).",
        "# What every such boat has is assumed where it is left out, marked so in the plan, and asked of the builder;",
        "# what else is left out is listed as not in the plan. false says that she hasn't got it (gas: false).",
        "",
    ]
    for name, shape in shapes(Spec).items():
        field = Spec.model_fields[name]
        lines.append(f"# {field.description or name}")
        if name == "vessel":
            lines += _vessel(hull)
        elif name in fitted:
            lines += [f"{name}: {_flow(fitted[name])}", *_comment(_body(name, shape))]
        else:
            lines += _comment(_body(name, shape))
        lines.append("")
    return "\n".join(lines)


def _vessel(hull: str) -> list[str]:
    stated = {"name": "My boat", "hull": hull, "condition": "new", "length_hull": "12 m"}
    lines = ["vessel:"]
    for key, shape in shapes(shapes(Spec)["vessel"].model or Spec).items():
        model = shapes(Spec)["vessel"].model
        assert model is not None
        description = model.model_fields[key].description or ""
        if key in stated:
            lines.append(f"  {key}: {stated[key]}  # {description}")
        else:
            lines.append(f"  # {key}: {_example(shape)}  # {description}")
    return lines


def _body(name: str, shape: Shape) -> list[str]:
    if shape.model is None:
        return [f"{name}: {_example(shape)}"]
    lines = [f"{name}:"]
    first = "  - " if shape.is_list else "  "
    for key, inner in shapes(shape.model).items():
        description = shape.model.model_fields[key].description or ""
        shown = shape.singular.replace("_", " ") if key == "name" and shape.singular else _example(inner)
        lines.append(f"{first}{key}: {shown}  # {description}")
        first = "    " if shape.is_list else "  "
    return lines


def _comment(lines: list[str]) -> list[str]:
    return [f"# {line}" for line in lines]


def _example(shape: Shape) -> str:
    if shape.model is not None:
        name = {"name": shape.singular.replace("_", " ")} if shape.named and shape.singular else {}
        inside = name | {key: _example(inner) for key, inner in _few(shape.model)}
        return f"[{_flow(inside)}]" if shape.is_list else _flow(inside)
    if shape.example:
        return shape.example
    if shape.kind:
        return KINDS[shape.kind].example.split(" or ")[0]
    if shape.is_list:
        return "[]"
    choices = get_args(shape.scalar) if not isinstance(shape.scalar, (tuple, type)) else ()
    if choices:
        return "|".join(str(choice) for choice in choices)
    if isinstance(shape.scalar, tuple):
        return "2026" if date in shape.scalar else "2"
    if shape.scalar is date:
        return "2026-05-14"
    return {bool: "yes", int: "2", float: "1.5"}.get(shape.scalar, "…")


def _few(model: type[BaseModel]) -> list[tuple[str, Shape]]:
    """Return a few keys that tell most of a thing: its own, first those that have to be there, then what is measured."""
    own = [(key, shape) for key, shape in own_first(model).items() if key in model.__annotations__]
    single = [(key, shape) for key, shape in own if shape.model is None and not shape.is_list]
    needed = [one for one in single if model.model_fields[one[0]].is_required()]
    told = [one for one in single if one not in needed and (one[1].kind or choices_of(one[1]))]
    return [*needed, *told][:4] or single[:4]


def _flow(value: Any) -> str:
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {_flow(item)}" for key, item in value.items()) + "}"
    if isinstance(value, bool):
        return "true" if value else "false"
    return str(value)
