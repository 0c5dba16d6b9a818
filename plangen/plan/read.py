"""Reading a plan back from the file that the program wrote."""

from __future__ import annotations

from pathlib import Path

from pydantic import ValidationError

from plangen.plan.model import Boat, Plan
from plangen.spec.ordinary_files import read_some
from plangen.spec.problems import InputProblems, Mark, Problem
from plangen.spec.yaml_source import LARGEST_DERIVED_FILE, read_yaml, read_yaml_file


def read_plan(path: Path) -> Plan:
    """Read plan.yaml.

    Raises `InputProblems` where the file isn't one that this program wrote; a plan is made again by drafting.
    """
    node = read_yaml_file(path, str(path), LARGEST_DERIVED_FILE)
    try:
        return Plan.model_validate(node.plain())
    except ValidationError as error:
        found = f"no plan of this version of the program ({error.error_count()} differences)"
        raise InputProblems(
            [Problem(Mark(str(path)), "", found, "a plan.yaml; draft it again from the spec")]
        ) from error


#: The boat stands in the first lines of a plan.
_HEAD = 20_000


def read_boat(path: Path) -> Boat | None:
    """Return whose plan a plan.yaml is, from its first lines; nothing where they don't say it."""
    try:
        lines = read_some(path, _HEAD).decode(errors="replace").splitlines()
        start = lines.index("boat:")
        end = next(number for number in range(start + 1, len(lines)) if not lines[number].startswith(" "))
        node = read_yaml("\n".join(lines[start:end]), str(path))
        return Boat.model_validate((node.mapping or {})["boat"].plain())
    except (OSError, ValueError, StopIteration, KeyError, InputProblems):
        return None
