"""How far a stage has come where one state turns into another: witnesses, and what was recorded before a release."""

from __future__ import annotations

import datetime

import pytest

from plangen.assess.assess import assess_findings
from plangen.assess.stages import _early, stages_of
from plangen.findings.model import Attempt, Findings, StageRecord
from plangen.plan.model import PlannedStage
from tests.assess.building import check, expectation, findings, plan

TIGHT = expectation("tight", text="yes")
STAGES = tuple(
    PlannedStage(id=id, title=id, hold=hold, witness="surveyor")
    for id, hold in (("a", "QM"), ("b", "QM"), ("c", None))
)


@pytest.mark.parametrize(
    ("witness", "said"),
    [
        ({}, "surveyor: nobody is noted as invited"),
        ({"invited": "2027-02-20"}, "surveyor: invited 2027-02-20; whether anybody came isn't noted"),
        ({"invited": "2027-02-20", "came": "J. Doe"}, "surveyor: invited 2027-02-20; came: J. Doe"),
        ({"came": "J. Doe"}, "surveyor: no invitation noted; came: J. Doe"),
        ({"came": "no"}, "surveyor: no invitation noted; nobody came, so work may go on"),
    ],
)
def test_whether_the_witness_came(witness: dict[str, str], said: str) -> None:
    of = plan().model_copy(update={"stages": STAGES})
    (first, *_) = stages_of(
        of,
        Findings(boat="T", plan="0" * 64, stages={"a": StageRecord.model_validate({"witness": witness})}),
        (),
        (),
    )
    assert first.witnessed == said


def test_a_stage_is_open_from_the_last_of_the_releases_before_it() -> None:
    checks = [check(f"{id}@x", TIGHT, stage=id) for id in "abc"]
    of = plan(*checks).model_copy(update={"stages": STAGES})
    released = {
        "a": StageRecord.model_validate({"released": "2027-03-09"}),
        "b": StageRecord.model_validate({"released": "2027-03-02"}),
    }
    on = {f"{id}@x": [{"found": {"tight": "yes"}, "when": "2027-03-05"}] for id in "abc"}
    found = assess_findings(of, findings(on, stages=released))
    assert [stage.early for stage in found.stages] == [(), ("b@x",), ("c@x",)]


@pytest.mark.parametrize(
    ("when", "closed", "opened", "early"),
    [
        ("2027-03-01", False, "2027-03-02", True), ("2027-03-02", False, "2027-03-02", False), (None, False, "2027-03-02", False),
        (None, True, None, True), ("2027-03-01", False, None, False),
    ],
)  # fmt: skip
def test_what_was_recorded_before_a_release_is_early(
    when: str | None, closed: bool, opened: str | None, early: bool
) -> None:
    attempt = Attempt.model_validate({"found": {"tight": "yes"}, "when": when})
    day = datetime.date.fromisoformat(opened) if opened else None
    assert _early([attempt], closed, day) is early
    assert _early([], closed, day) is False
