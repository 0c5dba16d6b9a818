"""Holding a spec's values against the models, and saying every fault of the file at once."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from pydantic import ValidationError

from plangen.spec.explain import Path, existing_path, problem_of, shape_at
from plangen.spec.model import Spec
from plangen.spec.other_words import OtherWords
from plangen.spec.problems import Problem
from plangen.spec.short_words import choices_of
from plangen.spec.yaml_source import Node

#: What stands in for a faulty key without which nothing could be checked.
_STAND_INS: dict[Path, str] = {
    ("vessel", "name"): "?",
    ("vessel", "hull"): "sailing-monohull",
    ("vessel", "length_hull"): "12 m",
}


@dataclass
class Validated:
    """The spec, with what is faulty left out, all the faults, and the keys that others stand in for.

    What is left out is there only so that the rest of the file can be checked in the same go.
    """

    spec: Spec | None
    problems: list[Problem]
    stood_in: frozenset[Path]


def validate(node: Node, words: OtherWords) -> Validated:
    """Hold the values of a spec against the models, again and again until nothing faulty is left in it."""
    problems: list[Problem] = []
    stood_in: dict[Path, str] = {}
    data = node.plain()
    for attempt in range(6):
        try:
            return Validated(Spec.model_validate(data), _alike_together(problems), frozenset(stood_in))
        except ValidationError as error:
            paths: set[Path] = set()
            for detail in error.errors(include_url=False):
                path, location = existing_path(node, detail["loc"]), detail["loc"]
                missing = detail["type"] == "missing"
                if not missing or attempt == 0:
                    problem = problem_of(Spec, node, location if missing else path, detail, words)
                    if not any(p.mark == problem.mark and p.key == problem.key for p in problems):
                        problems.append(problem)
                stand_in = _stand_in(location) if missing else None
                if stand_in is not None:
                    stood_in[location] = stand_in
                paths.add(location if stand_in is not None else _item_of(path) if missing else path)
            for path in sorted(paths, key=_deepest_first):
                _take_away(data, path, stood_in)
    return Validated(None, _alike_together(problems), frozenset(stood_in))


def _stand_in(path: Path) -> str | None:
    """Return what stands in for a required key that is missing or faulty: one of its choices, or a believable value."""
    if path in _STAND_INS:
        return _STAND_INS[path]
    shape = shape_at(Spec, path)
    if shape is None or shape.model is not None or shape.is_list:
        return None
    choices = choices_of(shape)
    return choices[0] if choices else shape.example if shape.kind and shape.example else None


def _alike_together(problems: list[Problem]) -> list[Problem]:
    """Say once what is missing in each of several items that stand in one short form: `tanks: 3`."""
    groups: dict[Problem, list[str]] = {}
    for problem in problems:
        groups.setdefault(replace(problem, key=re.sub(r"\[[0-9]+\]", "[]", problem.key)), []).append(
            problem.key
        )
    said: list[Problem] = []
    for alike, keys in groups.items():
        if len(keys) == 1 or alike.found != "missing":
            said += [replace(alike, key=key) for key in keys]
            continue
        place, _, key = alike.key.rpartition("[].")
        example = alike.accepted.partition(": ")[2].partition(",")[0].removeprefix("as ")
        items = ", ".join([f"{{{key}: {example}}}"] * min(len(keys), 3)) + (", …" if len(keys) > 3 else "")
        accepted = f"{alike.accepted}; a list that says it of each: {place.rpartition('.')[2]}: [{items}]"
        said.append(
            replace(alike, key=f"{place}.{key}", found=f"missing in {len(keys)} of them", accepted=accepted)
        )
    return said


def _item_of(path: Path) -> Path:
    """Return the path of the list item that holds the path."""
    last = max((index for index, step in enumerate(path) if isinstance(step, int)), default=len(path) - 1)
    return path[: last + 1]


def _deepest_first(path: Path) -> tuple[int, list[tuple[int, str]]]:
    return -len(path), [(-step, "") if isinstance(step, int) else (0, step) for step in path]


def _take_away(data: Any, path: Path, stood_in: Mapping[Path, str]) -> None:
    for step in path[:-1]:
        try:
            data = data[step]
        except (KeyError, IndexError, TypeError):
            return
    if isinstance(data, dict) and path:
        data.pop(path[-1], None)
        if path in stood_in:
            data[path[-1]] = stood_in[path]
        elif path == ("vessel",):
            data["vessel"] = {key[1]: value for key, value in _STAND_INS.items()}
    elif isinstance(data, list) and path and isinstance(path[-1], int) and path[-1] < len(data):
        data.pop(path[-1])
