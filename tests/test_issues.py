"""Issues of a model: which one a hull is drafted from, what stays as it was, and the note on what a new one changes."""

from __future__ import annotations

from pathlib import Path

import pytest

from plangen.spec.layers import read_layers
from plangen.spec.load import LoadedSpec, load_spec_file
from tests.conftest import SPECS, faults
from tests.test_cli import run

MODEL = "vessel: {name: Model, hull: motor-planing, length_hull: 7 m, persons: 5}\nheads: 1\n"


def series(folder: Path, hull: str) -> Path:
    """Write a model of three issues, each with another number of persons, and a hull; the hull's file."""
    folder.mkdir(exist_ok=True)
    (folder / "model-1.yaml").write_text(MODEL + "issue: {number: 1, date: 2027-01-10}\n")
    second = "issue: {number: 2, from_hull: 10, replaces: model-1.yaml}\n"
    (folder / "model-2.yaml").write_text(MODEL.replace("persons: 5", "persons: 6") + second)
    third = "extends: model-2.yaml\nvessel: {persons: 7}\nissue: {number: 3, from_hull: 20, replaces: model-2.yaml, note: More room}\n"
    (folder / "model.yaml").write_text(third)
    path = folder / "hull.yaml"
    path.write_text(hull)
    return path


def loaded(tmp_path: Path, hull: str) -> LoadedSpec:
    return load_spec_file(series(tmp_path / "specs", hull), {})


@pytest.mark.parametrize(
    ("says", "persons", "issue"),
    [
        ("vessel: {name: Hull, hull_number: 1}", 5, 1),
        ("vessel: {name: Hull, hull_number: 9}", 5, 1),
        ("vessel: {name: Hull, hull_number: 10}", 6, 2),
        ("vessel: {name: Hull, hull_number: 20}", 7, 3),
        ("vessel: {name: Hull, hull_number: 44}\ndrafted_from: {model.yaml: 1}", 5, 1),
        ("vessel: {name: Hull}\ndrafted_from: {model.yaml: 3}", 7, 3),
    ],
)
def test_a_hull_is_drafted_from_the_issue_of_her_number_or_the_one_she_states(
    tmp_path: Path, says: str, persons: int, issue: int
) -> None:
    found = loaded(tmp_path, f"extends: model.yaml\n{says}\n")
    assert found.spec.vessel.persons == persons
    assert (found.issues[-1].spec, found.issues[-1].number) == ("model.yaml", issue)
    assert found.layers == ("model",)


@pytest.mark.parametrize(
    ("says", "key", "nearest"),
    [
        ("vessel: {name: Hull}", "vessel.hull_number", ""),
        ("vessel: {name: Hull}\ndrafted_from: {model.yaml: 4}", "drafted_from", ""),
        ("vessel: {name: Hull, hull_number: 3}\ndrafted_from: {modle.yaml: 1}", "drafted_from", "model.yaml"),
    ],
)
def test_a_hull_whose_issue_cant_be_known_is_a_fault(
    tmp_path: Path, says: str, key: str, nearest: str
) -> None:
    path = series(tmp_path / "specs", f"extends: model.yaml\n{says}\n")
    (fault,) = faults(lambda: read_layers(path))
    assert (fault.key, fault.nearest) == (key, nearest)


def test_an_issue_that_replaces_nothing_or_a_newer_one_is_a_fault(tmp_path: Path) -> None:
    path = series(
        tmp_path / "specs", "extends: model.yaml\nvessel: {name: H}\ndrafted_from: {model.yaml: 1}\n"
    )
    (tmp_path / "specs" / "model-2.yaml").write_text(
        MODEL + "issue: {number: 2, from_hull: 10, replaces: model-l.yaml}\n"
    )
    assert [(one.key, one.nearest) for one in faults(lambda: read_layers(path))][-1] == (
        "issue.replaces",
        "model-1.yaml",
    )
    (tmp_path / "specs" / "model-2.yaml").write_text(MODEL + "issue: {number: 5, from_hull: 10}\n")
    assert "issue.number" in {one.key for one in faults(lambda: read_layers(path))}


@pytest.mark.parametrize("replaces", ["../model-0.yaml", "/etc/passwd", "link.yaml", ".."])
def test_what_an_issue_replaces_lies_in_the_same_folder(tmp_path: Path, replaces: str) -> None:
    path = series(tmp_path / "specs", "extends: model.yaml\nvessel: {name: H, hull_number: 3}\n")
    (tmp_path / "model-0.yaml").write_text(MODEL + "issue: {number: 1}\n")
    (tmp_path / "specs" / "link.yaml").symlink_to(tmp_path / "model-0.yaml")
    (tmp_path / "specs" / "model.yaml").write_text(
        MODEL + f"issue: {{number: 3, from_hull: 20, replaces: {replaces}}}\n"
    )
    assert "issue.replaces" in {one.key for one in faults(lambda: read_layers(path))}


def test_the_yards_first_hull_keeps_the_first_issue() -> None:
    first, second = (load_spec_file(SPECS / "yard" / f"hull-{n}.yaml", {}) for n in (101, 102))
    assert [one.number for one in first.issues] == [1]
    assert [(one.spec, one.number) for one in second.issues][-1] == ("model.yaml", 2)
    chargers = [spec.spec.dc.chargers[0].output for spec in (first, second)]
    assert [charger.to("ampere").magnitude for charger in chargers if charger is not None] == [40, 60]


def test_a_new_issue_leaves_a_drafted_hull_as_she_was_and_one_changed_in_place_is_said(
    tmp_path: Path,
) -> None:
    specs = tmp_path / "specs"
    series(specs, "extends: model.yaml\nvessel: {name: Hull, hull_number: 21}\n")
    assert run("draft", "specs/hull.yaml", "--no-pdf", cwd=tmp_path).returncode == 0
    plan = (tmp_path / "plans" / "hull" / "plan.yaml").read_bytes()
    # a fourth issue, from another hull on
    (specs / "model.yaml").rename(specs / "model-3.yaml")
    (specs / "model.yaml").write_text(
        "extends: model-3.yaml\nvessel: {persons: 9}\nissue: {number: 4, from_hull: 30, replaces: model-3.yaml}\n"
    )
    done = run("draft", "specs/hull.yaml", "--no-pdf", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "plans" / "hull" / "plan.yaml").read_bytes() == plan
    # the third issue is written over
    (specs / "model-3.yaml").write_text(
        (specs / "model-3.yaml").read_text().replace("persons: 7", "persons: 8")
    )
    done = run("draft", "specs/hull.yaml", "--no-pdf", cwd=tmp_path)
    assert done.returncode == 1
    assert "model.yaml issue 3 doesn't say any more what she was drafted from" in done.stderr
    assert run("draft", "specs", "--no-pdf", cwd=tmp_path).returncode == 0
