"""The commands, as a user runs them."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from plangen.spec.yaml_source import LARGEST_DERIVED_FILE, read_yaml_file
from tests.conftest import SPECS

MINIMAL = "vessel: {name: Tern, hull: motor-planing, length_hull: 7 m}\nheads: 1\n"


def run(*arguments: object, cwd: Path, **env: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "plangen", *map(str, arguments)],
        cwd=cwd, capture_output=True, text=True, check=False, env={**os.environ, "COLUMNS": "160", **env},
    )  # fmt: skip


#: A trial so short that its papers are printed in seconds.
AN_HOUR = ("--hours", "1", "--people", "1", "--days", "1", "--priority", "1")


@pytest.fixture
def boat(tmp_path: Path) -> Path:
    path = tmp_path / "tern.yaml"
    path.write_text(MINIMAL)
    return path


@pytest.mark.parametrize(
    "command", [[], ["start"], ["questions"], ["draft"], ["why"], ["packs"], ["packs", "check"]]
)
def test_every_command_has_help_with_an_example(command: list[str], tmp_path: Path) -> None:
    done = run(*command, "--help", cwd=tmp_path)
    assert done.returncode == 0
    assert "Usage" in done.stdout
    assert not command or "Example: plangen" in done.stdout


def test_start_then_draft_from_nothing(tmp_path: Path) -> None:
    assert run("start", "sailing-monohull", "--out", "mine.yaml", cwd=tmp_path).returncode == 0
    assert (tmp_path / "spec.schema.json").is_file()
    done = run("draft", "mine.yaml", "--no-pdf", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "plans" / "my-boat" / "plan.yaml").is_file()


def test_start_never_overwrites(boat: Path) -> None:
    done = run("start", "motor-planing", "--out", boat.name, cwd=boat.parent)
    assert done.returncode == 2
    assert boat.read_text() == MINIMAL


def test_start_names_the_nearest_hull_type(tmp_path: Path) -> None:
    done = run("start", "sailing-catamarn", cwd=tmp_path)
    assert done.returncode == 2
    assert "nearest: sailing-catamaran" in done.stderr


def test_draft_writes_plan_and_pdf_and_says_so(boat: Path) -> None:
    done = run("draft", boat.name, "--units", "us", "--paper", "letter", *AN_HOUR, cwd=boat.parent)
    assert done.returncode == 0, done.stderr
    folder = boat.parent / "plans" / "tern"
    assert (folder / "plan.pdf").read_bytes().startswith(b"%PDF")
    assert {"findings.yaml", "plan.pdf", "methods.pdf", "plan.yaml"} <= {
        path.name for path in folder.iterdir()
    }
    assert "open questions" in done.stdout
    assert "plan.pdf" in done.stdout
    plan = read_yaml_file(folder / "plan.yaml", None, LARGEST_DERIVED_FILE).plain()
    assert list(plan)[:4] == ["boat", "digest", "units", "packs"]


def test_draft_without_pdf_does_not_import_the_printer(boat: Path) -> None:
    code = (
        "import sys; sys.argv = ['plangen', 'draft', 'tern.yaml', '--no-pdf']\n"
        "from plangen.cli import main\n"
        "try: main()\n"
        "except SystemExit: pass\n"
        "assert not {'weasyprint', 'matplotlib', 'pypdf'} & set(sys.modules), 'printer imported'\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=boat.parent, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    assert not (boat.parent / "plans" / "tern" / "plan.pdf").exists()


def test_without_pango_the_yaml_is_written_and_one_line_says_what_to_install(boat: Path) -> None:
    fake = boat.parent / "fake"
    fake.mkdir()
    (fake / "weasyprint.py").write_text("raise OSError('cannot load library libpango')\n")
    done = run("draft", boat.name, cwd=boat.parent, PYTHONPATH=str(fake))
    assert done.returncode == 0
    assert [line for line in done.stderr.splitlines() if "Pango" in line and "libpango-1.0-0" in line]
    written = {path.name for path in (boat.parent / "plans" / "tern").iterdir()}
    assert {"findings.yaml", "plan.yaml"} <= written
    assert not [name for name in written if name.endswith(".pdf")]


def test_two_boats_get_two_folders_and_the_same_name_is_refused(tmp_path: Path, boat: Path) -> None:
    (tmp_path / "other.yaml").write_text(MINIMAL.replace("Tern", "Skua"))
    assert run("draft", "tern.yaml", "other.yaml", "--no-pdf", cwd=tmp_path).returncode == 0
    assert sorted(path.name for path in (tmp_path / "plans").iterdir()) == ["skua", "tern"]
    (tmp_path / "other.yaml").write_text(MINIMAL.replace("Tern", "TERN"))
    done = run("draft", "tern.yaml", "other.yaml", "--no-pdf", "--out", "again", cwd=tmp_path)
    assert done.returncode == 2
    assert not (tmp_path / "again").exists()


def test_faults_of_all_specs_are_said_and_nothing_is_written(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text(MINIMAL + "hedas: 1")
    (tmp_path / "b.yaml").write_text(MINIMAL.replace("7 m", "12 V"))
    done = run("draft", "a.yaml", "b.yaml", cwd=tmp_path)
    assert done.returncode == 2
    assert "a.yaml:3:1: hedas: unknown key 'hedas'" in done.stderr
    assert "b.yaml:1:43: vessel.length_hull: '12 V', which is a voltage" in done.stderr
    assert "nearest: heads" in done.stderr
    assert not (tmp_path / "plans").exists()


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("a: [1", "isn't closed"),
        ("", "begins with `vessel:`"),
        ("- a\n- b", "begins with `vessel:`"),
        ("vessel: 3", "vessel"),
        ("heads: 2", "vessel: missing"),
        (MINIMAL + "extends: ../../etc/passwd", "extends"),
    ],
)
def test_bad_specs_end_with_exit_code_2(tmp_path: Path, text: str, said: str) -> None:
    (tmp_path / "bad.yaml").write_text(text)
    done = run("draft", "bad.yaml", cwd=tmp_path)
    assert done.returncode == 2
    assert said in done.stderr
    assert "Traceback" not in done.stderr
    assert not (tmp_path / "plans").exists()


def test_why_traces_a_value_to_the_line_of_the_spec(tmp_path: Path) -> None:
    (tmp_path / "boat.yaml").write_text(
        "vessel: {name: Tern, hull: sailing-monohull, length_hull: 11 m}\n"
        "tanks: [{name: holding, holds: black, capacity: 120 L}]\n"
        "heads:\n  - name: head\n    flush: electric\n    flush_volume: 3 L\n    tank: holding\n    lockout: true\n"
    )
    run("draft", "boat.yaml", "--no-pdf", cwd=tmp_path)
    plan = read_yaml_file(tmp_path / "plans" / "tern" / "plan.yaml", None, LARGEST_DERIVED_FILE).plain()
    check = next(c for c in plan["checks"] if c["rule"] == "waste/holding-tank-lockout")
    done = run("why", "boat.yaml", check["id"], cwd=tmp_path)
    assert done.returncode == 0
    said = " ".join(done.stdout.split())
    assert "against" in said
    assert "0.85 × 120 L = 102 L" in said
    assert "tanks[1].capacity = 120 L (boat.yaml:2:" in said
    assert "the head's flush isn't composting" in said
    assert "==" not in said


def test_why_names_the_nearest_check(boat: Path) -> None:
    done = run("why", boat.name, "bilge-dri-baseline@boat", cwd=boat.parent)
    assert done.returncode == 2
    assert "no check" in done.stderr


def test_questions_come_as_text_and_as_a_page(boat: Path) -> None:
    done = run("questions", boat.name, "--pdf", "q.pdf", cwd=boat.parent)
    assert done.returncode == 0, done.stderr
    assert "vessel.displacement" in done.stdout
    assert (boat.parent / "q.pdf").read_bytes().startswith(b"%PDF")


def test_packs_are_listed_and_a_faulty_one_ends_with_exit_code_1(tmp_path: Path) -> None:
    listed = run("packs", cwd=tmp_path)
    assert listed.returncode == 0
    assert "us-federal" in listed.stdout
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "own.yaml").write_text(
        "pack: own\ntitle: Own\nedition: 2026\nchecks:\n  - {id: a, title: A, setting: nowhere, expect: [{id: r, reading: r, is: yes}]}\n"
    )
    done = run("packs", "check", "mine", cwd=tmp_path)
    assert done.returncode == 1
    assert "mine/own.yaml:5:23" in done.stderr
    assert "unknown setting 'nowhere'" in done.stderr
    drafted = run("draft", SPECS / "monohull.yaml", "--pack", "mine", "--no-pdf", cwd=tmp_path)
    assert drafted.returncode == 2
    assert not (tmp_path / "plans").exists()


def test_a_killed_write_leaves_the_old_file_whole(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from plangen import files

    target = tmp_path / "plan.yaml"
    files.write_whole(target, b"old")

    def fail(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(files.os, "replace", fail)
    with pytest.raises(KeyboardInterrupt):
        files.write_whole(target, b"new")
    assert target.read_bytes() == b"old"
    assert [path.name for path in tmp_path.iterdir()] == ["plan.yaml"]


def test_a_plan_that_was_filled_in_is_not_written_over(boat: Path) -> None:
    from io import BytesIO

    from pypdf import PdfReader, PdfWriter

    assert run("draft", boat.name, *AN_HOUR, cwd=boat.parent).returncode == 0
    printed = boat.parent / "plans" / "tern" / "plan.pdf"
    writer = PdfWriter(clone_from=BytesIO(printed.read_bytes()))
    name = next(field for field in PdfReader(printed).get_fields() or {} if field.endswith("/note"))
    for page in writer.pages:
        if "/Annots" in page:
            writer.update_page_form_field_values(page, {name: "gauge sticks"}, auto_regenerate=False)
    writer.write(printed)
    filled = printed.read_bytes()
    assert run("draft", boat.name, *AN_HOUR, cwd=boat.parent).returncode == 0
    assert printed.read_bytes() == filled
    assert (printed.parent / "plan-2.pdf").is_file()


def test_a_plan_into_which_nothing_was_typed_is_written_over_although_days_are_printed_in_it(
    boat: Path,
) -> None:
    boat.write_text(boat.read_text() + "trial: {date: 2027-05-10}\n")
    folder = boat.parent / "plans" / "tern"
    assert run("draft", boat.name, *AN_HOUR, cwd=boat.parent).returncode == 0
    first = (folder / "plan.pdf").read_bytes()
    boat.write_text(boat.read_text().replace("05-10", "05-11"))
    assert run("draft", boat.name, *AN_HOUR, cwd=boat.parent).returncode == 0
    assert (folder / "plan.pdf").read_bytes() != first
    assert [path.name for path in folder.glob("*-2.*")] == []
