"""A plan is read back as it was written: by its text, or by what is kept of a text that was written or read already."""

from __future__ import annotations

from pathlib import Path

import pytest

from plangen.plan.read import keep_plan, read_plan
from plangen.plan.yaml_text import yaml_text
from plangen.spec.problems import InputProblems
from tests.collect.forms import small_plan
from tests.conftest import drafted


@pytest.fixture
def kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    drafted("monohull.yaml")  # beforehand, so that the folder holds only what a test keeps in it
    monkeypatch.setenv("PLANGEN_CACHE", str(tmp_path / "kept"))
    return tmp_path / "kept"


def test_what_is_kept_says_what_the_text_says(
    kept: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    plan = drafted("monohull.yaml").plan
    text = yaml_text(plan.plain())
    path = tmp_path / "plan.yaml"
    path.write_text(text, encoding="utf-8")
    keep_plan(plan, text)
    (file,) = kept.iterdir()
    assert read_plan(path) == plan
    monkeypatch.setenv("PLANGEN_CACHE", "")
    assert read_plan(path) == plan
    assert file.exists()


def test_a_file_that_was_changed_by_hand_is_read_from_its_text(kept: Path, tmp_path: Path) -> None:
    plan = small_plan()
    text = yaml_text(plan.plain())
    keep_plan(plan, text)
    path = tmp_path / "plan.yaml"
    path.write_text(text.replace(f"name: {plan.boat.name}", "name: Other", 1), encoding="utf-8")
    assert read_plan(path).boat.name == "Other"
    path.write_text(text + "more: 1\n", encoding="utf-8")
    with pytest.raises(InputProblems):
        read_plan(path)


@pytest.mark.parametrize("damage", [b"", b"{", b'{"boat": 1}'])
def test_what_is_damaged_in_the_folder_does_no_harm(kept: Path, tmp_path: Path, damage: bytes) -> None:
    from plangen.kept import Kept

    plan = small_plan()
    text = yaml_text(plan.plain())
    keep_plan(plan, text)
    (file,) = kept.iterdir()
    path = tmp_path / "plan.yaml"
    path.write_text(text, encoding="utf-8")
    Kept(kept).put(file.name, damage)
    assert read_plan(path) == plan
    file.write_bytes(damage)
    assert read_plan(path) == plan
