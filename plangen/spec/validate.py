"""Holding a spec's values against the models, and saying every fault of the file at once."""

from __future__ import annotations

from typing import Any

from pydantic import ValidationError

from plangen.spec.explain import Path, existing_path, problem_of
from plangen.spec.model import Spec
from plangen.spec.problems import Problem
from plangen.spec.yaml_source import Node

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
                path, location = existing_path(node, detail["loc"]), detail["loc"]
                missing = detail["type"] == "missing"
                if not missing or attempt == 0:
                    problem = problem_of(Spec, node, location if missing else path, detail)
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
