"""The README's walkthroughs are run as they stand."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.walkthroughs import walk, walked_yard


@pytest.mark.parametrize(
    ("heading", "made"),
    [
        ("A buyer of a new boat", ["mine.yaml", "builder.pdf", "plans/*/plan.yaml", "plans/*/plan.html"]),
        ("A surveyor of used boats", ["plans/second-wind/assessment.yaml", "plans/*/plan.yaml"]),
    ],
)
def test_walkthrough(heading: str, made: list[str], tmp_path: Path) -> None:
    walk(heading, tmp_path)
    for pattern in made:
        assert list(tmp_path.glob(pattern)), f"{pattern} wasn't made"


def test_walkthrough_of_the_yard() -> None:
    for pattern in (
        "plans/hull-106/plan.yaml",
        "plans/hull-101/as-built.yaml",
        "tally/*.csv",
        "change-note.txt",
    ):
        assert list(walked_yard().glob(pattern)), f"{pattern} wasn't made"
