"""The library in a few calls."""

from __future__ import annotations

import plangen
from tests.conftest import SPECS


def test_spec_to_plan_to_assessment_and_two_plans_compared() -> None:
    plan = plangen.draft(plangen.load_spec(SPECS / "monohull.yaml"), units="us")
    assessment = plangen.assess_findings(plan, SPECS / "monohull-trial" / "findings.yaml")
    assert {check.id for check in assessment.checks} == {check.id for check in plan.checks}
    assert assessment.handover.forbidding
    one, other = (
        plangen.draft(plangen.load_spec(SPECS / "yard" / f"hull-{number}.yaml")) for number in (101, 102)
    )
    comparison = plangen.compare(one, other)
    assert any(check.system == "tender" for check in comparison.added)
    assert plangen.compare(one, one).is_empty
