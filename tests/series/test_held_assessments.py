"""An assessment that lies in a hull's folder counts as long as nothing that it was made of is another by now."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from plangen import folder as folders
from plangen.findings.blank import findings_text
from plangen.hulls import ASSESSMENT, assessment_in
from plangen.plan.yaml_text import yaml_text
from tests.collect.forms import small_plan


@pytest.fixture
def hull(tmp_path: Path) -> Path:
    """A hull's folder whose assessment.yaml says that it was made of what lies there, and bears a remark that nothing else has."""
    plan = small_plan()
    (tmp_path / "plan.yaml").write_text(yaml_text(plan.plain(), "plan"), encoding="utf-8")
    (tmp_path / "findings.yaml").write_text(findings_text(plan), encoding="utf-8")
    held = assessment_in(tmp_path).model_copy(
        update={"made_of": folders.digest_of_files(tmp_path, None), "remarks": ("from the file",)}
    )
    (tmp_path / ASSESSMENT).write_text(yaml_text(held.plain(), "assessment"), encoding="utf-8")
    return tmp_path


def is_held(hull: Path) -> bool:
    return assessment_in(hull).remarks == ("from the file",)


def test_it_is_taken_as_it_is(hull: Path) -> None:
    assert is_held(hull)


def other_plan(hull: Path) -> None:
    text = yaml_text(small_plan(digest="b" * 64).plain(), "plan")
    (hull / "plan.yaml").write_text(text, encoding="utf-8")


def other_findings(hull: Path) -> None:
    path = hull / "findings.yaml"
    path.write_text(
        path.read_text("utf-8").replace("resting-voltage:", "resting-voltage: 12.7"), encoding="utf-8"
    )


def damaged(hull: Path) -> None:
    (hull / ASSESSMENT).write_text("checks: [", encoding="utf-8")


@pytest.mark.parametrize("change", [other_plan, other_findings, damaged])
def test_it_is_made_anew_where_a_file_is_another(hull: Path, change: Callable[[Path], None]) -> None:
    change(hull)
    assert not is_held(hull)


def test_an_instrument_register_is_a_part_of_what_it_is_made_of(hull: Path) -> None:
    register = hull / "instruments.yaml"
    register.write_text("instruments: []\n", encoding="utf-8")
    assert folders.digest_of_files(hull, register) != folders.digest_of_files(hull, None)


def test_it_is_made_anew_where_a_formula_is_another(
    hull: Path, tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Else hulls that were assessed by an earlier version would be counted by its verdicts beside those of this one."""
    program = tmp_path_factory.mktemp("program")
    formula = program / "formulas" / "one.py"
    formula.parent.mkdir()

    def digest(text: str) -> str:
        formula.write_text(text, encoding="utf-8")
        folders._what_judges.cache_clear()
        return folders.digest_of_files(hull, None)

    with monkeypatch.context() as patch:
        patch.setattr(folders, "__file__", str(program / "folder.py"))
        assert digest("PEUKERT = 1.25") != digest("PEUKERT = 1.24")
        assert not is_held(hull)
    folders._what_judges.cache_clear()
    assert is_held(hull)
