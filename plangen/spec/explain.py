"""Saying a fault that the models found so that a person can mend it."""

from __future__ import annotations

from pydantic import BaseModel
from pydantic_core import ErrorDetails

from plangen.spec.problems import Problem, name_list, nearest_name
from plangen.spec.shape import shapes
from plangen.spec.yaml_source import Node

Path = tuple[str | int, ...]


def key_text(path: Path) -> str:
    """Write a path as people read it: `engines[1].power`."""
    text = ""
    for step in path:
        text += f"[{step + 1}]" if isinstance(step, int) else f".{step}" if text else step
    return text


def existing_path(node: Node, location: Path) -> Path:
    """Return the part of a fault's location that is there in the file."""
    path: list[str | int] = []
    for step in location:
        if node.mapping is not None and step in node.mapping:
            node = node.mapping[str(step)]
        elif node.items is not None and isinstance(step, int) and step < len(node.items):
            node = node.items[step]
        else:
            break
        path.append(step)
    return tuple(path)


def _model_at(root: type[BaseModel], path: Path) -> type[BaseModel] | None:
    model: type[BaseModel] | None = root
    for step in path:
        if isinstance(step, int):
            continue
        shape = shapes(model).get(step) if model else None
        model = shape.model if shape else None
    return model


def problem_of(root: type[BaseModel], node: Node, path: Path, detail: ErrorDetails) -> Problem:
    """Say one fault that the models found, with its place, what is accepted and the nearest name."""
    kind, context = detail["type"], detail.get("ctx", {})
    mark, key = node.mark_at(path), key_text(path)
    value = detail.get("input")
    shown = (
        f"{value!r}"
        if not isinstance(value, (dict, list))
        else "a list"
        if isinstance(value, list)
        else "a section"
    )
    if len(shown) > 80:
        shown = shown[:77] + "…"
    if kind == "extra_forbidden":
        model = _model_at(root, path[:-1])
        keys = [f.alias or n for n, f in model.model_fields.items()] if model else []
        return Problem(
            mark, key, f"unknown key {path[-1]!r}", name_list(keys, 60), nearest_name(str(path[-1]), keys)
        )
    if kind == "missing":
        section = _model_at(root, path[:-1])
        field = section.model_fields.get(str(path[-1])) if section else None
        return Problem(mark, key, "missing", (field.description or "") if field else "")
    if "found" in context:
        accepted = "; ".join(part for part in (context["accepted"], context.get("hint", "")) if part)
        return Problem(mark, key, str(context["found"]), accepted)
    if kind == "literal_error":
        choices = [choice.strip("'") for choice in str(context["expected"]).replace(" or ", ", ").split(", ")]
        return Problem(mark, key, shown, name_list(choices, 40), nearest_name(str(value), choices))
    expectation = {
        "model_type": "a section of keys",
        "model_attributes_type": "a section of keys",
        "tuple_type": "a list, a number of items, or one item's keys",
        "string_type": "a text",
        "bool_type": "yes or no",
        "bool_parsing": "yes or no",
        "string_pattern_mismatch": f"text of the form {context.get('pattern')}",
        "date_from_datetime_parsing": "a date such as 2027-05-14",
        "date_type": "a date such as 2027-05-14",
    }.get(kind, detail["msg"][0].lower() + detail["msg"][1:])
    return Problem(mark, key, shown, expectation)
