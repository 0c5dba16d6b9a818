"""The library in a few calls."""

from __future__ import annotations

from pathlib import Path

import pytest

import plangen
from plangen import cli
from tests.conftest import SPECS, faults


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


SMALL = "vessel: {name: Tern, hull: motor-planing, length_hull: 7 m}\nheads: 1\n"
PACK = "pack: own\ntitle: Own\nedition: 2026\nchecks:\n  - {id: a, title: A, setting: nowhere, expect: [{id: r, reading: r, is: yes}]}\n"


def test_library_and_command_give_the_same_plan(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("tern.yaml").write_text(SMALL, encoding="utf-8")
    monkeypatch.setattr("sys.argv", ["plangen", "draft", "tern.yaml", "--no-pdf"])
    with pytest.raises(SystemExit) as ended:
        cli.main()
    assert ended.value.code == 0
    assert plangen.load_plan(tmp_path / "plans" / "tern") == plangen.draft(plangen.load_spec("tern.yaml"))


def test_a_bad_pack_is_said_with_its_place_by_the_library_too(tmp_path: Path) -> None:
    (tmp_path / "tern.yaml").write_text(SMALL, encoding="utf-8")
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "own.yaml").write_text(PACK, encoding="utf-8")
    (problem,) = faults(lambda: plangen.load_spec(tmp_path / "tern.yaml", [tmp_path / "mine"]))
    assert (problem.mark.line, "nowhere" in problem.found) == (5, True)


def test_a_check_that_is_not_in_the_plan_is_said_with_the_nearest(tmp_path: Path) -> None:
    (tmp_path / "tern.yaml").write_text(SMALL, encoding="utf-8")
    boat = plangen.load_spec(tmp_path / "tern.yaml")
    id = plangen.draft(boat).checks[0].id
    assert plangen.explain(boat, id).check.check.id == id
    (problem,) = faults(lambda: plangen.explain(boat, f"{id}x"))
    assert id in problem.nearest
