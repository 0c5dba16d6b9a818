"""Saying a fault that the models found so that a person can mend it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from pydantic import BaseModel
from pydantic_core import ErrorDetails

from plangen.spec.other_words import other_word
from plangen.spec.problems import Mark, Problem, name_list, nearest_name
from plangen.spec.quantity import KINDS
from plangen.spec.shape import Shape, shapes
from plangen.spec.short_words import accepted_texts, choices_of
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


def _shape_at(root: type[BaseModel], path: Path) -> Shape | None:
    """Return the shape of the key at the path, or of the list that an item at the path is in."""
    keys = [step for step in path if isinstance(step, str)]
    model = _model_at(root, tuple(keys[:-1])) if keys else None
    return shapes(model).get(keys[-1]) if model else None


def _what(shape: Shape | None) -> str:
    """Return what a key holds: its description, its choices, an example."""
    if shape is None:
        return ""
    text = shape.description
    if choices := choices_of(shape):
        text += f": {name_list(choices, 40)}"
    return f"{text}, as {shape.example}" if shape.example and shape.example not in text else text


def _quantity_accepted(context: Mapping[str, Any], shape: Shape | None, value: object) -> str:
    """Return what is accepted, with an example and a hint that suit the key rather than any quantity of the kind."""
    accepted, hint = str(context["accepted"]), str(context.get("hint", ""))
    if shape is not None and shape.kind and shape.example:
        accepted = KINDS[shape.kind].accepted_like(shape.example)
        if hint.startswith("write for instance"):
            number = str(value).strip()
            hint = f"write for instance {number} {shape.example.partition(' ')[2]}"
    return "; ".join(part for part in (accepted, hint) if part)


#: What people answer in their own language, and the word that is read.
_YES_OR_NO = {
    **dict.fromkeys(("ja", "oui", "si", "sí", "sì", "da", "j", "y", "x", "1", "on", "fitted"), "yes"),
    **dict.fromkeys(("nee", "nein", "non", "no!", "ne", "nej", "n", "0", "off", "none", "geen"), "no"),
}


def _key_before(node: Node, path: Path) -> str:
    """Return the number that stands before a key that a decimal comma made, or one for an example."""
    for step in path[:-1]:
        inner = (node.items or [])[step] if isinstance(step, int) else (node.mapping or {})[step]
        node = inner
    keys = list(node.mapping or {})
    place = keys.index(str(path[-1])) if path[-1] in keys else 0
    value = (node.mapping or {})[keys[place - 1]].value if place else None
    return str(value) if isinstance(value, int) and not isinstance(value, bool) else "2"


def _unknown_key(root: type[BaseModel], node: Node, mark: Mark, path: Path, value: object) -> Problem:
    model = _model_at(root, path[:-1])
    keys = [f.alias or n for n, f in model.model_fields.items()] if model else []
    key, name = key_text(path), str(path[-1])
    if value is None and re.fullmatch(r"[0-9]+(\s*\S+)?", name):
        found = f"{name!r} after a comma: inside braces a comma parts two keys"
        whole = _key_before(node, path)
        return Problem(
            mark, key_text(path[:-1]) or key, found, f"a point for decimals, such as {whole}.{name}"
        )
    if other := other_word(name, keys):
        return Problem(mark, key, f"unknown key {name!r}", name_list(keys, 60), other)
    return Problem(mark, key, f"unknown key {name!r}", name_list(keys, 60), nearest_name(name, keys))


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
    shape = _shape_at(root, path)
    if kind == "extra_forbidden":
        return _unknown_key(root, node, mark, path, value)
    if kind == "missing":
        return Problem(mark, key, "missing", _what(shape))
    if "found" in context:
        return Problem(mark, key, str(context["found"]), _quantity_accepted(context, shape, value))
    if kind == "literal_error":
        choices = [choice.strip("'") for choice in str(context["expected"]).replace(" or ", ", ").split(", ")]
        return Problem(mark, key, shown, name_list(choices, 40), nearest_name(str(value), choices))
    if kind in ("bool_type", "bool_parsing"):
        return Problem(mark, key, shown, "yes or no", _YES_OR_NO.get(str(value).casefold(), ""))
    if kind.startswith("model") and shape and shape.model:
        return Problem(mark, key, shown, f"{accepted_texts(shape.model)}, or yes or no")
    expectation = {
        "model_type": "a section of keys",
        "tuple_type": "a list, a number of items, or one item's keys",
        "string_type": "a text",
        "float_parsing": "a plain number, such as 2.6",
        "float_type": "a plain number, such as 2.6",
        "string_pattern_mismatch": _what(shape) or "a text of another form",
        "date_from_datetime_parsing": "a date such as 2027-05-14",
        "date_type": "a date such as 2027-05-14",
    }.get(kind, detail["msg"][0].lower() + detail["msg"][1:])
    return Problem(mark, key, shown, expectation)
