"""Saying a fault that the models found so that a person can mend it."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

from pydantic import BaseModel
from pydantic_core import ErrorDetails

from plangen.spec.other_words import NO_OTHER_WORDS, OtherWords
from plangen.spec.problems import Mark, Problem, name_list, nearest_name
from plangen.spec.quantity import KINDS, QuantityError, parse_quantity
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


def shape_at(root: type[BaseModel], path: Path) -> Shape | None:
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
        if nm := _NM.fullmatch(str(value)):
            hint = _what_nm_means(nm[1], shape)
    return "; ".join(part for part in (accepted, hint) if part)


_NM = re.compile(r"\s*([0-9.,]+)\s*nm\s*", re.IGNORECASE)


def _what_nm_means(number: str, shape: Shape) -> str:
    """Ask what `nm` stands for, naming what it can be at this key."""
    words = {"nmi": "nautical miles", "mm": "millimetres"}
    own = shape.example.partition(" ")[2]
    units = [unit for unit in words if unit in KINDS[shape.kind].units and _lies_within(number, unit, shape)]
    units = [own] if own in units else units
    meant = ", ".join(f"{number} {unit} for {words[unit]}" for unit in units)
    said = "nm may be nautical miles, newton metres or nanometres"
    return f"{said}: write {meant}" if meant else said


def _lies_within(number: str, unit: str, shape: Shape) -> bool:
    try:
        value = parse_quantity(f"{number} {unit}", shape.kind)
        return shape.within is None or all(
            parse_quantity(low) <= value <= parse_quantity(high) for low, high in [shape.within]
        )
    except QuantityError:
        return False


#: What people answer in their own language, and the word that is read.
_YES_OR_NO = {
    **dict.fromkeys(("true", "ja", "oui", "si", "sí", "sì", "da", "j", "y", "x", "1", "on", "fitted"), "yes"),
    **dict.fromkeys(
        ("false", "nee", "nein", "non", "no!", "ne", "nej", "n", "0", "off", "none", "geen"), "no"
    ),
}


def yes_or_no(written: str) -> str:
    """Return yes or no, where somebody wrote one of them in whichever language; otherwise nothing."""
    word = written.strip().casefold()
    return word if word in ("yes", "no") else _YES_OR_NO.get(word, "")


def _key_before(node: Node, path: Path) -> str:
    """Return the number that stands before a key that a decimal comma made, or one for an example."""
    for step in path[:-1]:
        inner = (node.items or [])[step] if isinstance(step, int) else (node.mapping or {})[step]
        node = inner
    keys = list(node.mapping or {})
    place = keys.index(str(path[-1])) if path[-1] in keys else 0
    value = (node.mapping or {})[keys[place - 1]].value if place else None
    return str(value) if isinstance(value, int) and not isinstance(value, bool) else "2"


def _unknown_key(
    root: type[BaseModel], node: Node, mark: Mark, path: Path, value: object, words: OtherWords
) -> Problem:
    model = _model_at(root, path[:-1])
    keys = [f.alias or n for n, f in model.model_fields.items()] if model else []
    key, name = key_text(path), str(path[-1])
    if value is None and re.fullmatch(r"[0-9]+(\s*\S+)?", name):
        found = f"{name!r} after a comma: inside braces a comma parts two keys"
        whole = _key_before(node, path)
        return Problem(
            mark, key_text(path[:-1]) or key, found, f"a point for decimals, such as {whole}.{name}"
        )
    meant = _as_value(model, path, name, words) or words.key_for(name, keys) or nearest_name(name, keys)
    return Problem(mark, key, f"unknown key {name!r}", name_list(keys, 60), meant)


def _as_value(model: type[BaseModel] | None, path: Path, name: str, words: OtherWords) -> str:
    """Return the key and value where a value was written for a key: `fuel: 400 L` of a tank that holds fuel."""
    known = shapes(model) if model else {}
    for key, shape in known.items():
        choices = choices_of(shape)
        pattern = ".".join(step for step in (*path[:-1], key) if isinstance(step, str))
        value = name if name in choices else words.value_for(pattern, name, choices)
        if value and " or " not in value:
            return f"{key}: {value}"
    return ""


def problem_of(
    root: type[BaseModel], node: Node, path: Path, detail: ErrorDetails, words: OtherWords = NO_OTHER_WORDS
) -> Problem:
    """Say one fault that the models found, with its place, what is accepted and the nearest name."""
    kind, context = detail["type"], detail.get("ctx", {})
    mark, key = node.mark_at(path), key_text(path)
    value, shape = detail.get("input"), shape_at(root, path)
    shown = _shown(value)
    if kind == "extra_forbidden":
        return _unknown_key(root, node, mark, path, value, words)
    if kind == "missing":
        return _missing(node, mark, path, shape, words)
    if "found" in context:
        return Problem(mark, key, str(context["found"]), _quantity_accepted(context, shape, value))
    if kind == "literal_error":
        choices = [choice.strip("'") for choice in str(context["expected"]).replace(" or ", ", ").split(", ")]
        return Problem(
            mark, key, shown, name_list(choices, 40), _choice_meant(path, str(value), choices, words)
        )
    if kind in ("bool_type", "bool_parsing"):
        return Problem(mark, key, shown, "yes or no", yes_or_no(str(value)))
    if kind.startswith("model") and shape and shape.model:
        meant = yes_or_no(str(value)) if len(str(value)) > 1 else ""
        return Problem(mark, key, shown, f"{accepted_texts(shape.model)}, or yes or no", meant)
    if kind in ("date_from_datetime_parsing", "date_type", "date_parsing"):
        return Problem(mark, key, shown, "a date such as 2027-05-14", day_meant(str(value)))
    return Problem(
        mark, key, shown, _expected(kind, context, shape) or detail["msg"][0].lower() + detail["msg"][1:]
    )


def _shown(value: object) -> str:
    if isinstance(value, (dict, list)):
        return "a list" if isinstance(value, list) else "a section"
    shown = f"{value!r}"
    return shown if len(shown) <= 80 else shown[:77] + "…"


def _expected(kind: str, context: Mapping[str, Any], shape: Shape | None) -> str:
    """Return what is accepted where a plain value is of the wrong kind or lies outside."""
    what = f": {shape.description}" if shape is not None and shape.description else ""
    limits = {
        "greater_than_equal": "at least {ge}", "less_than_equal": "at most {le}", "greater_than": "more than {gt}",
        "less_than": "less than {lt}", "string_too_short": "at least {min_length} characters", "string_too_long": "at most {max_length} characters",
        "too_long": "at most {max_length} of them", "too_short": "at least {min_length}",
    }  # fmt: skip
    if kind in limits:
        return limits[kind].format(**context) + what
    return {
        "model_type": "a section of keys",
        "tuple_type": "a list, a number of items, or one item's keys",
        "dict_type": "a section of keys",
        "string_type": f"a text{what}",
        "float_parsing": f"a plain number, such as 2.6{what}",
        "float_type": f"a plain number, such as 2.6{what}",
        "int_type": f"a whole number{what}",
        "int_parsing": f"a whole number{what}",
        "int_from_float": f"a whole number{what}",
        "string_pattern_mismatch": _what(shape) or "a text of another form",
    }.get(kind, "")


def _choice_meant(path: Path, written: str, choices: Sequence[str], words: OtherWords) -> str:
    pattern = ".".join(step for step in path if isinstance(step, str))
    return words.value_for(pattern, written, choices) or nearest_name(written, choices)


def _missing(node: Node, mark: Mark, path: Path, shape: Shape | None, words: OtherWords) -> Problem:
    """Say what is missing; a text that was taken as the item's name may be a choice misspelt."""
    item = node.at(path[:-1])
    name = (item.mapping or {}).get("name") if item is not None else None
    written = str(name.value) if name is not None and name.mark == mark else ""
    choices = choices_of(shape) if shape is not None else ()
    meant = _choice_meant(path, written, choices, words) if written and choices else ""
    found = f"missing; {written!r} was taken as the name" if meant else "missing"
    return Problem(mark, key_text(path), found, _what(shape), meant)


def day_meant(written: str) -> str:
    """Return a day that is written otherwise as the spec writes it; where day and month can be mistaken, both."""
    parts = re.fullmatch(r"\s*([0-9]{1,2})([./-])([0-9]{1,2})[./-]([0-9]{4})\s*", written)
    if parts is None:
        return ""
    first, second, year = int(parts[1]), int(parts[3]), int(parts[4])
    orders = [(second, first)] if parts[2] == "." else [(second, first), (first, second)]
    days = dict.fromkeys(
        f"{year}-{month:02d}-{day:02d}" for month, day in orders if month <= 12 and day <= 31
    )
    return " or ".join(days)
