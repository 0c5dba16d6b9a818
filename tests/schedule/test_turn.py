"""Hulls of a series: which are in full, what is routine, and what comes back after a fail."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from plangen import api
from plangen.assess.assess import assess_findings
from plangen.earlier import hulls_before
from plangen.findings.read import read_findings
from plangen.folder import write_draft
from plangen.plan.draft import Draft, draft_plan
from plangen.plan.model import Plan
from plangen.print.assessed import assessment_files
from plangen.schedule.schedule import schedule
from plangen.schedule.turn import EarlierHull, Turn, turn_of
from plangen.spec.load import LoadedSpec
from tests.conftest import faults, shipped, spec_from

SPEC = """vessel: {name: Hull NUMBER, builder: Yard, model: Tern, hull_number: NUMBER, hull: motor-planing, length_hull: 7 m}
heads: 1
series: {first_hull: 10, full_every: 5, routine: {grades: [stop], systems: [waste]}}
"""


@cache
def hull(number: int) -> tuple[LoadedSpec, Draft]:
    loaded = spec_from(SPEC.replace("NUMBER", str(number)))
    return loaded, draft_plan(loaded, shipped())


def turn(number: int, *earlier: EarlierHull) -> Turn:
    loaded, draft = hull(number)
    return turn_of(draft.plan.checks, loaded, shipped(), earlier)


@pytest.mark.parametrize(
    ("number", "full"), [(9, True), (10, True), (11, False), (14, False), (15, True), (20, True)]
)
def test_the_first_hull_and_every_fifth_are_in_full(number: int, full: bool) -> None:
    found = turn(number)
    assert found.told is not None
    assert found.told.full is full
    assert bool(found.left_out) is not full
    assert f"hull {number}" in found.told.why


def test_a_routine_hull_has_what_is_routine_and_what_comes_before_it() -> None:
    checks = {check.id: check for check in hull(11)[1].plan.checks}
    left = {one.check for one in turn(11).left_out}
    assert left
    for id, check in checks.items():
        if check.grade == "stop" or check.system == "waste":
            assert id not in left
            assert not set(check.after) & left
    assert all("hull 15 has it again" in one.words for one in turn(11).left_out)


def test_a_check_that_failed_comes_back_until_three_hulls_pass_it() -> None:
    id = turn(11).left_out[0].check
    failed = EarlierHull(10, "Hull 10", {id: False})
    kept = turn(11, failed).told
    assert kept is not None
    assert kept.after_fails == {id: "failed on Hull 10; passed on 0 of 3 hulls since"}
    passed = [EarlierHull(number, f"Hull {number}", {id: True}) for number in (11, 12, 13)]
    assert id not in {one.check for one in turn(13, failed, *passed[:2]).left_out}
    assert id in {one.check for one in turn(14, failed, *passed).left_out}
    # a fail on a later hull counts anew, and what was found on hulls after her says nothing
    again = EarlierHull(12, "Hull 12", {id: False})
    assert id not in {one.check for one in turn(14, failed, passed[0], again, passed[2]).left_out}
    assert id in {one.check for one in turn(11, EarlierHull(12, "Hull 12", {id: False})).left_out}


def test_the_plan_says_what_isnt_done_and_why() -> None:
    loaded, draft = hull(11)
    plan = schedule(draft, loaded, shipped())
    left = {one.check for one in plan.left_out if one.why == "series"}
    assert left == {one.check for one in turn(11).left_out} - {one.check for one in plan.outside_scope}
    assert not left & {check.id for check in plan.checks}
    assert plan.turn is not None


def test_what_is_routine_has_to_be_there() -> None:
    text = SPEC.replace("NUMBER", "11").replace(
        "systems: [waste]", "systems: [wast], rules: [nothing-like-it]"
    )
    loaded = spec_from(text)
    found = faults(lambda: turn_of(draft_plan(loaded, shipped()).plan.checks, loaded, shipped(), ()))
    assert [(one.mark.line, one.nearest) for one in found] == [(3, "waste"), (3, "")]


def test_earlier_hulls_are_read_from_the_folders_beside_hers(tmp_path: Path) -> None:
    plan: Plan = hull(10)[1].plan
    check = next(one for one in plan.checks if one.grade == "by-date" and one.expect[0].text == "yes")
    text = f"boat: {plan.boat.name}\nplan: {plan.digest}\nchecks:\n  {check.id}:\n    - found: {{{check.expect[0].id}: no}}\n    - found: {{{', '.join(f'{e.id}: yes' for e in check.expect)}}}\n"
    folder = tmp_path / "hull-10"
    write_draft(plan, folder, {})
    (folder / "findings.yaml").write_text(text)
    assessment = assess_findings(plan, read_findings(text, "findings.yaml", plan))
    for name, content in assessment_files(plan, assessment).items():
        (folder / name).write_bytes(content)
    (found,) = hulls_before(tmp_path, hull(11)[0].spec.vessel)
    assert (found.number, found.name, found.passed[check.id]) == (10, "Hull 10", False)
    assert hulls_before(tmp_path, hull(10)[0].spec.vessel) == ()
    assert api.earlier_hulls(api.Boat(hull(11)[0], shipped()), tmp_path) == (found,)
