"""Two plans side by side: only what differs, each reading once, changed words too."""

from __future__ import annotations

import pytest

from plangen.plan.compare import Difference, compare
from plangen.plan.day import LeftOut
from plangen.plan.draft import draft_plan
from plangen.plan.model import Plan
from plangen.terminal.comparison import say_comparison
from tests.conftest import drafted, shipped, spec_from

SPEC = "vessel: {{name: Tern, hull: motor-planing, length_hull: 7 m}}\nheads: [head]\nengines: {{count: 2, power: 100 kW, rated_speed: {} rpm}}\n"


def planned(speed: int = 3600) -> Plan:
    return draft_plan(spec_from(SPEC.format(speed)), shipped()).plan


def replaced(plan: Plan, at: str, **changes: object) -> Plan:
    checks = [check.model_copy(update=changes) if check.id == at else check for check in plan.checks]
    return plan.model_copy(update={"checks": tuple(checks)})


def test_the_same_plan_differs_in_nothing() -> None:
    assert compare(planned(), planned()).is_empty


def test_only_readings_that_differ_are_said_and_each_once() -> None:
    comparison = compare(drafted("yard/hull-101.yaml").plan, drafted("yard/hull-102.yaml").plan)
    before = {check.id: check for check in drafted("yard/hull-101.yaml").plan.checks}
    after = {check.id: check for check in drafted("yard/hull-102.yaml").plan.checks}
    changed = {id for change in comparison.changed for id in change.checks}
    for id in before.keys() & after.keys():
        old, new = ({e.id: e.shown for e in plan[id].expect} for plan in (before, after))
        lines = next((c.differences for c in comparison.changed if id in c.checks), ())
        assert len({(line.what, line.before) for line in lines}) == len(lines)
        for reading in after[id].expect:
            said = [line for line in lines if line.what == reading.reading]
            assert len(said) == (1 if old.get(reading.id, new[reading.id]) != new[reading.id] else 0), id
        assert (id in changed) == bool(lines)


def test_what_is_alike_in_both_engines_is_said_once() -> None:
    comparison = compare(planned(3600), planned(3800))
    pairs = [change.checks for change in comparison.changed if len(change.checks) > 1]
    assert ("engine-run-readings@port-engine", "engine-run-readings@starboard-engine") in pairs


def test_changed_words_are_said_with_a_few_words_around_them() -> None:
    plan = planned()
    check = next(check for check in plan.checks if len(check.procedure) > 1)
    step = "Pump the bilge dry with the hand pump and count the strokes until air comes for a whole minute."
    before = replaced(plan, check.id, procedure=(step, *check.procedure))
    after = replaced(plan, check.id, procedure=(step.replace("hand", "foot"), *check.procedure))
    (change,) = compare(before, after).changed
    assert change.checks == (check.id,)
    assert change.differences == (
        Difference("step", "… bilge dry with the hand pump and count the …", "… bilge dry with the foot pump and count the …"),
    )  # fmt: skip


def test_a_step_a_caution_and_a_reading_that_come_or_go_are_said() -> None:
    plan = planned()
    check = next(check for check in plan.checks if len(check.procedure) > 1 and check.cautions)
    after = replaced(
        plan, check.id, procedure=check.procedure[1:], cautions=(), expect=check.expect[1:], grade="remark"
    )
    (change,) = compare(plan, after).changed
    said = {(line.what, line.before, line.after) for line in change.differences}
    assert ("grade", check.grade, "remark") in said
    assert ("step", check.procedure[0], "") in said
    assert all(("caution", id, "") in said for id in check.cautions)
    assert ("reading", f"{check.expect[0].reading}: {check.expect[0].shown}", "") in said


def test_each_reading_takes_one_line_of_the_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    comparison = compare(drafted("yard/hull-101.yaml").plan, drafted("yard/hull-102.yaml").plan)
    say_comparison(comparison)
    lines = capsys.readouterr().out.splitlines()
    expected = len(comparison.added) + len(comparison.gone) + 1
    expected += sum(1 + len(change.differences) for change in comparison.changed)
    assert len(lines) == expected


def test_many_checks_that_only_the_hours_took_out_are_one_line_of_a_draft(
    capsys: pytest.CaptureFixture[str],
) -> None:
    plan = planned()
    gone = [check.id for check in plan.checks[:8]]
    kept = tuple(check for check in plan.checks if check.id not in gone)
    left = tuple(
        LeftOut(
            check=id,
            title="a check",
            priority=2,
            grade="snag",
            why="time" if number < 6 else "people",
            words="no time",
            minutes=5,
            unknown="whether it holds",
        )
        for number, id in enumerate(gone)
    )
    comparison = compare(plan, plan.model_copy(update={"checks": kept, "left_out": left}))
    say_comparison(comparison, choice_counted=True)
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].startswith("gone     6 checks  (left out: no time beside what is kept in hand); first ")
    assert [line.split()[1] for line in lines[1:3]] == gone[6:]
    assert lines[3:] == ["0 added, 8 gone, 0 changed"]
    say_comparison(comparison)
    assert len(capsys.readouterr().out.splitlines()) == 9
