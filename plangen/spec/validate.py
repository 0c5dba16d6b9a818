"""Holding a spec's values against the models, and saying every fault of the file at once."""

from __future__ import annotations

from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from plangen.spec.model import Spec, SpecModel
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


#: What stands in for a faulty key without which nothing could be checked.
_STAND_INS: dict[Path, str] = {
    ("vessel", "name"): "?",
    ("vessel", "hull"): "sailing-monohull",
    ("vessel", "length_hull"): "12 m",
}


def validate(node: Node) -> tuple[Spec | None, list[Problem]]:
    """Return the spec, with what is faulty left out, and all the faults.

    What is left out is there only so that the rest of the file can be checked in the same go.
    """
    problems: list[Problem] = []
    data = node.plain()
    for attempt in range(6):
        try:
            return Spec.model_validate(data), problems
        except ValidationError as error:
            paths: set[Path] = set()
            for detail in error.errors(include_url=False):
                path, location = _existing(node, detail["loc"]), detail["loc"]
                missing = detail["type"] == "missing"
                if not missing or attempt == 0:
                    problem = _problem(node, location if missing else path, detail)
                    if not any(p.mark == problem.mark and p.key == problem.key for p in problems):
                        problems.append(problem)
                paths.add(location if location in _STAND_INS else _item_of(path) if missing else path)
            for path in sorted(paths, key=_deepest_first):
                _take_away(data, path)
    return None, problems


def _item_of(path: Path) -> Path:
    """Return the path of the list item that holds the path."""
    last = max((index for index, step in enumerate(path) if isinstance(step, int)), default=len(path) - 1)
    return path[: last + 1]


def _deepest_first(path: Path) -> tuple[int, list[tuple[int, str]]]:
    return -len(path), [(-step, "") if isinstance(step, int) else (0, step) for step in path]


def _existing(node: Node, location: Path) -> Path:
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


def _take_away(data: Any, path: Path) -> None:
    for step in path[:-1]:
        try:
            data = data[step]
        except (KeyError, IndexError, TypeError):
            return
    if isinstance(data, dict) and path:
        data.pop(path[-1], None)
        if path in _STAND_INS:
            data[path[-1]] = _STAND_INS[path]
        elif path == ("vessel",):
            data["vessel"] = {key[1]: value for key, value in _STAND_INS.items()}
    elif isinstance(data, list) and path and isinstance(path[-1], int) and path[-1] < len(data):
        data.pop(path[-1])


def model_at(path: Path) -> type[SpecModel] | None:
    """Return the section's model at the path."""
    model: type[SpecModel] | None = Spec
    for step in path:
        if isinstance(step, int):
            continue
        shape = shapes(model).get(step) if model else None
        model = shape.model if shape else None
    return model


def _problem(node: Node, path: Path, detail: ErrorDetails) -> Problem:
    kind, context = detail["type"], detail.get("ctx", {})
    mark, key = node.mark_at(path), key_text(path)
    if kind == "missing" and path == ("vessel",):
        return Problem(node.mark, "vessel", "missing", "a section with name, hull and length_hull")
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
        model = model_at(path[:-1])
        keys = list(model.model_fields) if model else []
        return Problem(
            mark, key, f"unknown key {path[-1]!r}", name_list(keys, 60), nearest_name(str(path[-1]), keys)
        )
    if kind == "missing":
        section = model_at(path[:-1])
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
