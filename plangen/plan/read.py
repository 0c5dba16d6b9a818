"""Reading a plan back from the file that the program wrote."""

from __future__ import annotations

from pathlib import Path

from pydantic import ValidationError

from plangen.plan.model import Plan
from plangen.spec.problems import InputProblems, Mark, Problem
from plangen.spec.yaml_source import LARGEST_DERIVED_FILE, read_yaml_file


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
