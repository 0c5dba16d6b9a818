"""The commissioning sheet: each check once, in its stage, with the lines in which two people and the releaser sign."""

from __future__ import annotations

import re

from plangen.cli.draft import documents_of
from plangen.print.commissioning import commissioning_document
from tests.conftest import drafted


def test_each_check_stands_once_in_its_stage_with_its_release_below() -> None:
    plan = drafted("yard/hull-101.yaml").plan
    html = commissioning_document(plan).html
    sections = html.split("<section")[1:]
    assert [re.search("<h1>(.*?): ([0-9]+) checks", part)[1] for part in sections] == [  # type: ignore[index]
        stage.title for stage in plan.stages
    ]
    for stage, part in zip(plan.stages, sections, strict=True):
        own = [check for check in plan.checks if check.stage == stage.id]
        assert part.count('<td class="code">') == len(own)
        assert f"Released by: {stage.hold}" in part
    assert html.count('<td class="plate asked">') >= 28
    assert "Specimen Marine Diesel / SMD 235 / 235-1189" in html
    assert re.search(f'name="keywords" content="[^"]*{plan.digest}"', html)  # by which an old sheet is told


def test_only_a_commissioning_has_the_sheet() -> None:
    names = {
        name: set(documents_of(drafted(name).plan, "A4")) for name in ("yard/hull-101.yaml", "monohull.yaml")
    }
    assert names["yard/hull-101.yaml"] - names["monohull.yaml"] == {"commissioning.pdf"}
