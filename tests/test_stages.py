"""Stages: each check in one of them, hold points that close what comes later, witnesses, and the sheet that is signed.

Hold and witness points as inspection and test plans use them: at a hold point the work stops until the named party has
released it in writing; to a witness point that party is invited, and the work may go on if it doesn't come (so, for
example, "Hold Point vs Witness Point in an ITP", NWE Group, https://nwegroup.no/hold-point-vs-witness-point, read 2026).
"""

from __future__ import annotations

from pathlib import Path

import pytest

from plangen import api
from plangen.assess.assess import assess_findings
from plangen.assess.model import Assessment
from plangen.findings.blank import findings_text
from plangen.findings.carry import carry
from plangen.findings.read import read_findings
from plangen.plan.draft import draft_plan
from plangen.plan.model import Plan, PlannedStage
from plangen.print.stages import stages_document
from tests.assess.building import check, expectation, plan
from tests.conftest import drafted, faults, shipped, spec_from

SPEC = "vessel: {name: Tern, hull: motor-planing, length_hull: 7 m}\nheads: 1\n"
STAGES = (
    PlannedStage(id="fit-out", title="Fit-out", hold="quality manager", witness="surveyor"),
    PlannedStage(id="afloat", title="Afloat", hold="yard manager"),
    PlannedStage(id="at-sea", title="At sea"),
)
DRY, WET, SEA = "dry@boat", "wet@boat", "sea@boat"


def staged() -> Plan:
    """A plan with a check in each of three stages."""
    checks = (
        check(id, expectation("tight", text="yes"), stage=stage.id, grade="before-handover")
        for id, stage in zip((DRY, WET, SEA), STAGES, strict=True)
    )
    return plan(*checks).model_copy(update={"stages": STAGES})


def assessed(found: dict[str, str], stages: str) -> Assessment:
    """Assess findings, an answer for each check, and what stands under `stages:`."""
    one = staged()
    entries = "".join(f"  {id}:\n    - {text}\n" for id, text in found.items())
    text = f"boat: {one.boat.name}\nplan: {one.digest}\nchecks:\n{entries}stages:\n{stages}"
    return assess_findings(one, read_findings(text, "findings.yaml", one))


def states(assessment: Assessment) -> list[str]:
    return [stage.state for stage in assessment.stages]


GOOD = "{found: {tight: yes}, when: 2027-03-01}"


def test_nothing_released_leaves_the_first_stage_open_and_closes_the_others() -> None:
    found = assessed({DRY: GOOD}, "")
    assert states(found) == ["open", "closed", "closed"]
    assert found.stages[0].why == "all done; not yet released by quality manager"
    assert found.stages[1].why == "until quality manager releases Fit-out"
    assert found.stages[0].witnessed == "surveyor: nobody is noted as invited"


def test_a_release_opens_the_next_stage_and_says_what_is_left() -> None:
    stages = "  fit-out: {released: 2027-03-02, by: Q. Manager, witness: {invited: 2027-02-20, came: no}}\n"
    found = assessed({DRY: GOOD, WET: "{found: {tight: no}, when: 2027-03-03}"}, stages)
    assert states(found) == ["released", "open", "closed"]
    assert found.stages[0].why == "2027-03-02 by Q. Manager (quality manager)"
    assert found.stages[0].witnessed == "surveyor: invited 2027-02-20; nobody came, so work may go on"
    assert found.stages[1].why == "1 failed, of 1 checks; not yet released by yard manager"
    assert found.stages[1].failed == (WET,)


def test_a_stage_may_be_released_with_something_left_and_that_is_said() -> None:
    found = assessed({}, "  fit-out: {released: 2027-03-02}\n")
    assert found.stages[0].why == "2027-03-02 by nobody named (quality manager), though 1 to do, of 1 checks"


def test_a_stage_without_a_hold_point_closes_nothing_and_is_complete_when_all_is_done() -> None:
    stages = "  fit-out: {released: 2027-03-02, by: Q}\n  afloat: {released: 2027-03-09, by: Y}\n"
    assert states(assessed({}, stages))[2] == "open"
    done = assessed(dict.fromkeys((DRY, WET, SEA), "{found: {tight: yes}, when: 2027-03-10}"), stages)
    assert states(done) == ["released", "released", "complete"]
    assert [stage.early for stage in done.stages] == [(), (), ()]


def test_results_of_a_closed_stage_count_and_are_named() -> None:
    found = assessed({WET: "{found: {tight: no}}"}, "")
    assert found.stages[1].early == (WET,)
    assert [snag.check for snag in found.snags] == [WET]
    late = assessed({WET: GOOD}, "  fit-out: {released: 2027-03-02, by: Q}\n")
    assert late.stages[1].early == (WET,)


def test_a_release_out_of_turn_doesnt_count_yet() -> None:
    found = assessed({}, "  afloat: {released: 2027-03-09, by: Y}\n")
    assert states(found) == ["open", "closed", "closed"]
    assert "its own release of 2027-03-09 doesn't count" in found.stages[1].why


def test_a_settled_failure_holds_no_stage() -> None:
    one = staged()
    text = f"boat: {one.boat.name}\nplan: {one.digest}\nchecks:\n  {DRY}:\n    - found: {{tight: no}}\nsnags:\n  {DRY}: {{settlement: accepted}}\n"
    found = assess_findings(one, read_findings(text, "findings.yaml", one))
    assert found.stages[0].failed == ()


def test_an_unknown_stage_in_the_findings_is_a_fault_with_the_nearest() -> None:
    one = staged()
    text = f"boat: {one.boat.name}\nplan: {one.digest}\nstages:\n  fitout: {{by: Q}}\n  afloat: {{released: soon}}\n"
    unknown, day = faults(lambda: read_findings(text, "findings.yaml", one))
    assert (unknown.mark.line, unknown.nearest) == (4, "fit-out")
    assert day.mark.line == 5


def test_blank_findings_ask_for_the_releases_and_what_is_filled_in_stays_word_for_word() -> None:
    one = staged()
    blank = findings_text(one)
    assert read_findings(blank, "x", one).stages["fit-out"].released is None
    assert carry(blank, "x", one, one).text == blank
    filled = blank.replace("    released:", "    released: 2027-03-02  # on paper", 1)
    assert read_findings(filled, "x", one).stages["fit-out"].released is not None
    less = one.model_copy(update={"stages": STAGES[:2], "digest": "c" * 64})
    more = carry(filled, "x", less, one).text
    assert "    released: 2027-03-02  # on paper" in more.splitlines()
    assert carry(more, "x", one, one).text == more


def test_a_stage_that_is_new_is_added_blank_to_those_that_are_filled_in() -> None:
    one = staged()
    less = one.model_copy(update={"stages": STAGES[:2]})
    filled = findings_text(less).replace("    released:", "    released: 2027-03-02", 1)
    new = carry(filled, "x", less, one).text
    assert list(read_findings(new, "x", one).stages) == ["fit-out", "afloat", "at-sea"]


def test_each_check_belongs_to_the_stage_that_names_it_most_exactly() -> None:
    found = spec_from(
        SPEC
        + "stages: [{id: rest, title: Rest}, {id: sea, title: Sea, settings: [under-way], hold: yard}, "
        + "{id: water, title: Water, systems: [waste], rules: [hull-identification]}]"
    )
    checks = draft_plan(found, shipped()).plan.checks
    for one in checks:
        if one.rule.endswith("/hull-identification"):
            assert one.stage == "water"
        elif one.setting == "under-way":
            assert one.stage == "sea"
        else:
            assert one.stage == ("water" if one.system == "waste" else "rest")
    assert {one.stage for one in checks} == {"rest", "sea", "water"}


@pytest.mark.parametrize(
    ("stages", "said", "nearest"),
    [
        ("{id: a, title: A, rules: [hull-identificaton]}", "there is no such rule", "hull-identification"),
        ("{id: a, title: A, settings: [underway]}", "there is no such setting", "under-way"),
        ("{id: a, title: A, systems: [wast]}", "there is no such system", "waste"),
        ("{id: a, title: A}, {id: b, title: B}", "'a' takes the rest already", ""),
        ("{id: a, title: A}, {id: a, title: B, systems: [waste]}", "another stage has this id", ""),
        (
            "{id: a, title: A, systems: [waste]}, {id: b, title: B, systems: [waste]}",
            "stage 'a' has it already",
            "",
        ),
        ("{id: a, title: A, systems: [waste]}", "no stage takes", ""),
    ],
)
def test_what_a_stage_names_wrongly_is_said_with_its_place(stages: str, said: str, nearest: str) -> None:
    found = faults(lambda: draft_plan(spec_from(SPEC + f"stages: [{stages}]"), shipped()))
    assert any(said in problem.found and problem.nearest == nearest for problem in found)
    assert all(problem.mark.line == 3 for problem in found)


def test_the_yards_model_has_three_stages_and_a_page_for_each() -> None:
    one = drafted("yard/hull-101.yaml").plan
    assert [stage.id for stage in one.stages] == ["fit-out", "launching", "sea-trial"]
    found = assess_findings(one, read_findings(findings_text(one), "findings.yaml", one))
    html = stages_document(one, found).html
    for stage in one.stages:
        assert f"Released by: {stage.hold}" in html
    assert html.count("<section") == 3


def test_stages_may_stand_in_the_house_file_and_a_fault_is_said_with_its_line_there(write) -> None:
    house = "stages:\n  - {id: rest, title: Rest, hold: foreman}\n  - {id: sea, title: Sea, settings: [SETTING]}\n"
    path = write("tern.yaml", SPEC)
    write("house.yaml", house.replace("SETTING", "under-way"))
    plan = api.draft_whole(api.load_spec(path))
    assert [(stage.id, stage.hold) for stage in plan.stages] == [("rest", "foreman"), ("sea", None)]
    assert {check.stage for check in plan.checks} == {"rest", "sea"}
    write("house.yaml", house.replace("SETTING", "underway"))
    (fault,) = faults(lambda: api.draft_whole(api.load_spec(path)))
    assert (Path(fault.mark.file).name, fault.mark.line, fault.nearest) == ("house.yaml", 3, "under-way")
    write("tern.yaml", SPEC + "stages: [{id: only, title: Only}]\n")
    assert [stage.id for stage in api.draft_whole(api.load_spec(path)).stages] == ["only"]
