"""`plangen collect`, as a user runs it: messages, exit codes, and refusals that write nothing."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from plangen.findings.blank import findings_text
from plangen.findings.read import read_findings
from plangen.plan.yaml_text import yaml_text
from tests.collect.forms import filled_by_command_line, filled_by_pypdf, printed, small_plan

VOLTS = "check/rest@house/reading/resting-voltage"
BY = "round/alongside/by"


def collect(folder: Path, *files: object) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "plangen", "collect", str(folder), *map(str, files)],
        capture_output=True, text=True, check=False, env={**os.environ, "COLUMNS": "160"},
    )  # fmt: skip


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    plan = small_plan()
    (tmp_path / "plan.yaml").write_text(yaml_text(plan.plain()), encoding="utf-8")
    (tmp_path / "findings.yaml").write_text(findings_text(plan), encoding="utf-8")
    (tmp_path / "al.pdf").write_bytes(filled_by_pypdf(printed(), {VOLTS: "12.7", BY: "AL"}))
    (tmp_path / "bk.pdf").write_bytes(filled_by_command_line(printed(), {VOLTS: "12.1", BY: "BK"}))
    return tmp_path


def test_help_has_an_example(tmp_path: Path) -> None:
    done = collect(tmp_path, "--help")
    assert done.returncode == 0
    assert "Example: plangen collect" in done.stdout


def test_two_forms_are_collected_and_the_disagreement_is_said(folder: Path) -> None:
    done = collect(folder, folder / "al.pdf", folder / "bk.pdf")
    assert done.returncode == 1, done.stderr
    assert "12.7 (AL) or 12.1 (BK)" in done.stdout
    text = (folder / "findings.yaml").read_text(encoding="utf-8")
    assert len(read_findings(text, "x", small_plan()).attempts("rest@house")) == 2
    again = collect(folder, folder / "bk.pdf")
    assert "nothing new in these files" in again.stdout
    assert (folder / "findings.yaml").read_text(encoding="utf-8") == text


def test_findings_are_made_where_there_are_none(folder: Path) -> None:
    (folder / "findings.yaml").unlink()
    assert collect(folder, folder / "al.pdf").returncode == 0
    text = (folder / "findings.yaml").read_text(encoding="utf-8")
    assert read_findings(text, "x", small_plan()).attempts("rest@house")


def test_one_bad_file_among_good_ones_stops_all(folder: Path) -> None:
    before = (folder / "findings.yaml").read_bytes()
    (folder / "cut.pdf").write_bytes((folder / "al.pdf").read_bytes()[:9000])
    (folder / "note.pdf").write_text("see other mail")
    done = collect(folder, folder / "al.pdf", folder / "cut.pdf", folder / "note.pdf", folder / "gone.pdf")
    assert done.returncode == 2
    for words in ("cut short", "not a PDF", "can't be read", "nothing was written"):
        assert words in done.stderr
    assert (folder / "findings.yaml").read_bytes() == before
    assert not list(folder.glob(".*"))


def test_a_form_of_another_boat_is_refused(folder: Path) -> None:
    before = (folder / "findings.yaml").read_bytes()
    skua = small_plan(name="Skua", digest="b" * 64)
    (folder / "plan.yaml").write_text(yaml_text(skua.plain()), encoding="utf-8")
    done = collect(folder, folder / "al.pdf")
    assert done.returncode == 2
    assert "another boat" in done.stderr
    assert (folder / "findings.yaml").read_bytes() == before


def test_a_form_of_another_version_is_taken_with_a_warning(folder: Path) -> None:
    plan = small_plan(digest="b" * 64)
    (folder / "plan.yaml").write_text(yaml_text(plan.plain()), encoding="utf-8")
    done = collect(folder, folder / "al.pdf")
    assert done.returncode == 0
    assert "warning: filled on plan aaaaaaaa, another version" in done.stdout
    assert read_findings((folder / "findings.yaml").read_text(), "x", plan).second_look == ("rest@house",)


def test_a_folder_without_a_plan_is_a_fault(tmp_path: Path) -> None:
    (tmp_path / "al.txt").write_text("1.1 ok")
    done = collect(tmp_path, tmp_path / "al.txt")
    assert done.returncode == 2
    assert "plan.yaml" in done.stderr


def test_a_list_comes_by_standard_input(folder: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "plangen", "collect", str(folder), "-"],
        input="by AM\nthe sun shone\nfound: loose rail, bow, stop\n", capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    findings = read_findings((folder / "findings.yaml").read_text(encoding="utf-8"), "x", small_plan())
    assert [(one.what, one.by) for one in findings.also_found] == [("loose rail", "AM")]
    assert findings.remarks == ("standard input, line 2: the sun shone",)
