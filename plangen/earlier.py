"""What was found on the hulls before one in a series, by the assessments in the folders beside hers."""

from __future__ import annotations

import re
from pathlib import Path

from plangen.assess.model import Assessment
from plangen.assess.read import read_assessment
from plangen.schedule.turn import EarlierHull
from plangen.spec.model.vessel import Vessel
from plangen.spec.ordinary_files import read_some
from plangen.spec.problems import InputProblems

_NUMBER = re.compile(rb"^  hull_number: ([0-9]+)$", re.MULTILINE)
#: The boat stands in so many bytes at the head of her assessment.
_HEAD = 8192
_FAILING = ("fail", "leaning-fail")


def hulls_before(folder: Path, vessel: Vessel) -> tuple[EarlierHull, ...]:
    """Return the hulls of the same builder and model with a smaller number that are assessed, in their order."""
    number = vessel.hull_number
    found: list[EarlierHull] = []
    for path in sorted(folder.glob("*/assessment.yaml")):
        head = _NUMBER.search(read_some(path, _HEAD))
        if head is None or number is None or int(head[1]) >= number:
            continue
        try:
            assessment = read_assessment(path)
        except InputProblems:
            continue  # of an older version of the program: as if she weren't assessed
        boat = assessment.vessel
        if boat is not None and (boat.builder, boat.model) == (vessel.builder, vessel.model):
            found.append(EarlierHull(int(head[1]), boat.name, _passed(assessment)))
    return tuple(sorted(found, key=lambda hull: hull.number))


def _passed(assessment: Assessment) -> dict[str, bool]:
    """Return by check whether it passed; one that failed in any attempt didn't, and one that decides nothing isn't there."""
    found: dict[str, bool] = {}
    for check in assessment.checks:
        if any(attempt.verdict in _FAILING for attempt in check.attempts):
            found[check.id] = False
        elif check.verdict in ("pass", "recorded"):
            found[check.id] = True
    return found
