"""A reading in years takes the date on the tag: its age on the day of the trial is judged."""

from __future__ import annotations

import pytest

from plangen.assess.assess import assess_findings
from plangen.findings.read import read_findings
from plangen.plan.draft import draft_plan
from tests.conftest import shipped, spec_from

PLAN = draft_plan(
    spec_from("""vessel: {name: X, hull: sailing-monohull, length_hull: 11 m, condition: used, built: 2010}
trial: {date: 2027-05-01}
fire_protection: {extinguishers: [{name: galley, refillable: true, mass: 2 kg, serviced: 2025-06-01}]}
"""),
    shipped(),
).plan


@pytest.mark.parametrize(
    ("typed", "wanted"),
    [("2025-06-01", "pass"), ("2025-04-01", "fail"), ("06/2025", "pass"), ("2024", "fail"), ("1.5", "pass"), ("2.5", "fail")],
)  # fmt: skip
def test_an_extinguisher_is_judged_by_the_date_of_its_service(typed: str, wanted: str) -> None:
    check = "extinguisher-condition@galley"
    text = f"boat: X\nplan: {PLAN.digest}\nunits: metric\nchecks:\n  {check}:\n    - found: {{since-service: {typed}}}\n"
    judged = assess_findings(PLAN, read_findings(text, "findings.yaml", PLAN))
    readings = next(one for one in judged.checks if one.id == check).attempts[-1].readings
    assert next(one.verdict for one in readings if one.id == "since-service") == wanted


def test_the_sheet_says_what_the_list_says() -> None:
    check = PLAN.check("extinguisher-condition@galley")
    assert check is not None
    assert "2025-06-01" in next(one.note or "" for one in check.expect if one.id == "since-service")
