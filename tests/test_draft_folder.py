"""`plangen draft FOLDER`: which specs are hulls, several at a time, and one with faults beside the others."""

from __future__ import annotations

from pathlib import Path

from plangen.spec.hulls import hull_specs
from tests.conftest import SPECS
from tests.test_cli import run

MODEL = "vessel: {name: Model, hull: motor-planing, length_hull: 7 m}\nheads: 1\n"


def series(folder: Path) -> None:
    """Write a model, an option, three hulls of which one has a fault, and files that are no hulls."""
    folder.mkdir()
    (folder / "model.yaml").write_text(MODEL)
    (folder / "option-a.yaml").write_text("tanks: [{name: fuel, holds: fuel, capacity: 80 L}]\nvessel: {}\n")
    (folder / "option-b.yaml").write_text("vessel: {persons: 4}\n")
    (folder / "house.yaml").write_text("letterhead: {name: The yard}\n")
    for number, extends in ((1, "model.yaml"), (2, "[model.yaml, option-a.yaml]")):
        (folder / f"hull-{number}.yaml").write_text(f"extends: {extends}\nvessel: {{name: Hull {number}}}\n")
    (folder / "hull-3.yaml").write_text("extends: model.yaml\nvessel: {name: Hull 3}\nhedas: 2\n")


def test_a_hull_is_what_no_other_spec_extends_and_that_tells_of_a_whole_boat(tmp_path: Path) -> None:
    series(tmp_path / "specs")
    (tmp_path / "specs" / "alone.yml").write_text(MODEL.replace("Model", "Alone"))
    (tmp_path / "specs" / "model-2.yaml").write_text(MODEL + "issue: {number: 2}\n")
    found = hull_specs(tmp_path / "specs")
    assert [path.name for path in found.hulls] == ["alone.yml", "hull-1.yaml", "hull-2.yaml", "hull-3.yaml"]
    assert [path.name for path, _ in found.passed_over] == ["option-b.yaml"]
    assert found.problems == ()
    assert [path.name for path in hull_specs(SPECS / "yard").hulls] == [
        f"hull-{number}.yaml" for number in range(101, 107)
    ]


def test_one_bad_spec_stops_no_other_and_the_files_are_those_of_a_draft_alone(tmp_path: Path) -> None:
    series(tmp_path / "specs")
    done = run("draft", "specs", "--no-pdf", cwd=tmp_path)
    assert done.returncode == 2
    assert done.stdout.count("  plan ") == 2
    assert "formerly" not in done.stdout  # alike as they are, neither was renamed
    assert "hull-3.yaml:3:1: hedas: unknown key 'hedas'" in done.stderr
    assert "1 fault; not drafted: hull-3.yaml; drafted: 2 of 3 hulls." in done.stderr
    assert "passed over: specs/option-b.yaml" in done.stderr
    assert sorted(path.name for path in (tmp_path / "plans").iterdir()) == ["hull-1", "hull-2"]
    alone = run("draft", "specs/hull-1.yaml", "specs/hull-2.yaml", "--no-pdf", "--out", "alone", cwd=tmp_path)
    assert alone.returncode == 0, alone.stderr
    names = sorted(path.relative_to(tmp_path / "alone") for path in (tmp_path / "alone").glob("*/[a-z]*"))
    assert len(names) >= 6
    for name in names:
        assert (tmp_path / "alone" / name).read_bytes() == (tmp_path / "plans" / name).read_bytes(), name


def test_two_hulls_of_one_name_are_both_refused_and_the_third_is_drafted(tmp_path: Path) -> None:
    series(tmp_path / "specs")
    (tmp_path / "specs" / "hull-3.yaml").write_text("extends: model.yaml\nvessel: {name: hull 2}\n")
    done = run("draft", "specs", "--no-pdf", cwd=tmp_path)
    assert done.returncode == 2
    assert "'hull 2', which is the name in hull-2.yaml too" in done.stderr
    assert [path.name for path in (tmp_path / "plans").iterdir()] == ["hull-1"]


def test_a_folder_without_hulls_is_said(tmp_path: Path) -> None:
    (tmp_path / "specs").mkdir()
    done = run("draft", "specs", cwd=tmp_path)
    assert done.returncode == 2
    assert "no spec of a hull in this folder" in done.stderr
    assert run("draft", "specs", "other.yaml", cwd=tmp_path).returncode == 2
