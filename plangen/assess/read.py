"""Reading an assessment back from the file that the program wrote."""

from __future__ import annotations

from pathlib import Path

from pydantic import ValidationError

from plangen.assess.model import Assessment
from plangen.spec.problems import InputProblems, Mark, Problem
from plangen.spec.yaml_source import LARGEST_DERIVED_FILE, read_yaml_file


def read_assessment(path: Path) -> Assessment:
    """Read assessment.yaml.

    Raises `InputProblems` where the file isn't one that this version of the program wrote.
    """
    node = read_yaml_file(path, str(path), LARGEST_DERIVED_FILE)
    try:
        return Assessment.model_validate(node.plain())
    except ValidationError as error:
        found = f"no assessment of this version of the program ({error.error_count()} differences)"
        raise InputProblems(
            [Problem(Mark(str(path)), "", found, "an assessment.yaml; assess her again")]
        ) from error
