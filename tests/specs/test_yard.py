"""The yard's worked example: its hulls drafted from one folder, the first as far as she has come, a new issue from the second on."""

from __future__ import annotations

import shutil
from pathlib import Path

from plangen import api
from plangen.findings.blank import findings_text
from tests.conftest import SPECS
from tests.test_cli import run
from tests.walkthroughs import said_by_the_yard, walked_yard


def test_six_hulls_are_drafted_from_one_folder() -> None:
    drafted = [line.split("  ")[0] for line in said_by_the_yard("draft").splitlines() if "  plan " in line]
    assert drafted == [f"Hull {number}" for number in range(101, 107)]


def test_the_terminal_says_which_stage_is_open_and_why() -> None:
    said = said_by_the_yard("assess")
    assert "stage Fit-out complete: released, 2027-03-05 by A. Lind (quality manager)" in said
    assert "surveyor of the notified body: invited 2027-02-24; came: J. Moreau" in said
    assert "stage Launched and lying afloat: open, " in said
    assert "stage Sea trial: closed, until commissioning manager releases Launched and lying afloat" in said
    assert "recorded while it was closed: windlass-clutch-and-brake@windlass" in said


def test_the_first_hull_is_in_full_and_the_second_has_the_routine_and_what_failed() -> None:
    yard = walked_yard()
    first = api.load_plan(yard / "plans" / "hull-101")
    assert (first.turn is not None and first.turn.full, first.boat.hull_number) == (True, 101)
    said = said_by_the_yard("draft", 2)
    assert "series: hull 102 has the routine checks; hull 106 is in full again" in said
    assert "engine-plate@starboard-engine is done: failed on Hull 101; passed on 0 of 3 hulls since" in said
    second = api.load_plan(yard / "plans" / "hull-102")
    assert {one.words for one in second.left_out if one.why == "series"} == {
        "not routine; hull 106 has it again"
    }
    assert [one.words for one in second.boat.drafted_from] == ["model.yaml issue 2 of 2027-03-08"]


def test_what_is_routine_covers_what_was_read_on_the_later_hulls() -> None:
    yard = walked_yard()
    for number in range(102, 107):
        plan = api.load_plan(yard / "plans" / f"hull-{number}")
        findings = api.load_findings(SPECS / "yard-trial" / f"hull-{number}" / "findings.yaml", plan)
        assert set(findings.checks) <= {check.id for check in plan.checks}


def test_the_change_note_says_what_changed_and_who_is_checked_again(tmp_path: Path) -> None:
    specs, hull = tmp_path / "specs", tmp_path / "plans" / "hull-102"
    shutil.copytree(SPECS / "yard", specs)
    for number in range(103, 107):
        (specs / f"hull-{number}.yaml").unlink()
    for name in ("hull-101", "hull-102"):
        shutil.copytree(walked_yard() / "plans" / name, tmp_path / "plans" / name)
    id = "charger-plate@shore-charger"
    plan = api.load_plan(hull)
    text = findings_text(plan)
    at = text.index("plate:", text.index(f"  {id}:")) + len("plate:")
    (hull / "findings.yaml").write_text(
        f"{text[:at]} Sample Power / SP 40-12 / K1{text[at:]}", encoding="utf-8"
    )
    done = run("change-note", "specs/model-1.yaml", "specs/model.yaml", "specs", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    note = (tmp_path / "change-note.txt").read_text()
    assert note.strip() in done.stdout
    assert "model-1.yaml, issue 1 of 2026-11-16 to model.yaml, issue 2 of 2027-03-08" in note
    assert "Sample Power / SP 40-12 / ? -> Sample Power / SP 60-12 / ?" in note
    applies, keeps = note.split("Hulls that it applies to")[1].split("Hulls that keep the issue before")
    assert "Hull 102 (hull 102)" in applies
    assert f"check again: {id}" in applies
    assert "Hull 101 (hull 101)" in keeps
    assert f"done by the issue before; decide whether she is checked again: {id}" in keeps
