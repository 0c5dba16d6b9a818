"""Killed at any moment: each file is the old or the new one, and the next command settles what belongs together.

A process that is killed leaves on the disk what was there at that moment. So a command runs once, the folder is
copied before and after each thing that it asks of the file system, and each copy is a folder as a kill leaves it.
"""

from __future__ import annotations

import base64
import json
import os
import shutil
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from plangen import api, cli, files
from plangen.answering import Answered
from plangen.folder import plan_and_findings
from plangen.spec.problems import InputProblems
from tests.field.test_export import jpeg

SPEC = "vessel: {name: Tern, hull: motor-planing, length_hull: 7 m}\nheads: 1\n"
NOTES = "found: Wet locker, saloon, remark\n"
MORE = "found: Loose cleat, bow, remark\n"
ASKED_OF_THE_SYSTEM = ("open", "fsync", "chmod", "replace", "mkdir", "unlink")
#: Kept by the program for itself.
OWN = (".plangen.lock", files._NOTE)


def run(*words: str) -> int:
    """Run a command in this process; return its exit code."""
    before = sys.argv
    sys.argv = ["plangen", *words]
    try:
        cli.main()
    except SystemExit as end:
        return int(end.code or 0)
    finally:
        sys.argv = before
    return 0


def content(folder: Path) -> dict[str, bytes]:
    """Every file that a user sees."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and path.name not in OWN and not path.name.endswith(files._PART)
    }


class Moments:
    """Copies a folder around each call that changes something on the disk."""

    def __init__(self, folder: Path, copies: Path, patch: pytest.MonkeyPatch) -> None:
        self.folder, self.copies, self.names, self.calls = folder, copies, list[Path](), list[str]()
        for name in ASKED_OF_THE_SYSTEM:
            patch.setattr(os, name, self._watched(name, getattr(os, name)))

    def _watched(self, name: str, original: Callable[..., Any]) -> Callable[..., Any]:
        def call(*given: Any, **named: Any) -> Any:
            if name == "open" and not (given[1] & (os.O_WRONLY | os.O_RDWR)):
                return original(*given, **named)
            if isinstance(given[0], int) or self.folder in Path(given[0]).absolute().parents:
                self.calls.append(name)
            self._copy()
            done = original(*given, **named)
            self._copy()
            return done

        return call

    def _copy(self) -> None:
        place = self.copies / str(len(self.names))
        self.names.append(place)
        with pytest.MonkeyPatch.context() as own:
            for name in ASKED_OF_THE_SYSTEM:
                own.setattr(os, name, getattr(_REAL, name))
            shutil.copytree(self.folder, place)


class _REAL:
    """The calls as they are."""

    open, fsync, chmod, replace, mkdir, unlink = os.open, os.fsync, os.chmod, os.replace, os.mkdir, os.unlink


def draft() -> tuple[str, ...]:
    return ("draft", "tern.yaml", "--no-pdf")


@pytest.fixture(scope="module")
def drafted_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A boat's folder with one finding, and her spec as it became afterwards."""
    home = tmp_path_factory.mktemp("drafted")
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(home)
        Path("tern.yaml").write_text(SPEC, encoding="utf-8")
        run(*draft())
        Path("notes.txt").write_text(NOTES, encoding="utf-8")
        run("collect", "plans/tern", "notes.txt")
        Path("tern.yaml").write_text(SPEC.replace("heads: 1", "heads: 2"), encoding="utf-8")
        Path("notes.txt").write_text(MORE, encoding="utf-8")
    return home


@pytest.fixture
def boat(tmp_path: Path, drafted_once: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    home = tmp_path / "home"
    shutil.copytree(drafted_once, home)
    monkeypatch.chdir(home)
    return home


def assessed_before() -> None:
    run("assess", "plans/tern", "--no-pdf")
    run("collect", "plans/tern", "notes.txt")


COMMANDS: dict[str, tuple[Callable[[], None], tuple[str, ...]]] = {
    "first draft": (lambda: shutil.rmtree("plans"), draft()),
    "draft anew": (lambda: None, draft()),
    "collect": (lambda: None, ("collect", "plans/tern", "notes.txt")),
    "assess": (assessed_before, ("assess", "plans/tern", "--no-pdf")),
}


@pytest.mark.parametrize("name", COMMANDS)
def test_killed_at_any_moment(boat: Path, tmp_path: Path, name: str) -> None:
    prepare, command = COMMANDS[name]
    prepare()
    old = content(boat)
    with pytest.MonkeyPatch.context() as patch:
        moments = Moments(boat, tmp_path / "copies", patch)
        assert run(*command) in (0, 1)
    new = content(boat)
    assert new != old
    assert _belong_together(boat)
    between: list[Path] = []
    for copy in moments.names:
        there = content(copy)
        for file in {*there, *old, *new}:
            assert there.get(file) in (old.get(file), new.get(file)), (copy, file)
        if there not in (old, new):
            between.append(copy)
            shutil.copytree(copy, f"{copy}-again")
        folder = copy / "plans" / "tern"
        if folder.is_dir():
            with files.hold(folder):  # as whatever command comes next
                pass
        assert content(copy) in (old, new), f"{copy}: files of two sets stand beside one another"
        assert not [*copy.rglob(f".*{files._PART}"), *copy.rglob(files._NOTE)]
    _is_on_the_disk_before_it_is_said(moments.calls)
    changed = [file for file in new if new[file] != old.get(file)]
    assert len(between) >= len(changed) - 1
    if between and name != "first draft":
        again = Path(f"{between[len(between) // 2]}-again")
        os.chdir(again)
        assert run(*command) in (0, 1)
        assert content(again) == new


MODEL = "vessel: {name: Model, hull: motor-planing, length_hull: 7 m, persons: 5}\n"


def two_issues(home: Path) -> None:
    """A model with a new issue, and a hull drafted from it."""
    (home / "yard").mkdir()
    (home / "yard" / "model-1.yaml").write_text(f"{MODEL}issue: {{number: 1}}\n", encoding="utf-8")
    second = (
        MODEL.replace("persons: 5", "persons: 6")
        + "issue: {number: 2, from_hull: 1, replaces: model-1.yaml}\n"
    )
    (home / "yard" / "model.yaml").write_text(second, encoding="utf-8")
    hull = "extends: model.yaml\nvessel: {name: Hull, hull_number: 2}\n"
    (home / "yard" / "hull.yaml").write_text(hull, encoding="utf-8")


def one_boat(home: Path) -> None:
    (home / "tern.yaml").write_text(SPEC, encoding="utf-8")


ALONE: dict[str, tuple[Callable[[Path], None], tuple[str, ...], str]] = {
    "change-note": (two_issues, ("change-note", "yard/model-1.yaml", "yard/model.yaml", "yard"), "change-note.txt"),
    "questions": (one_boat, ("questions", "tern.yaml", "--pdf", "questions.pdf"), "questions.pdf"),
}  # fmt: skip


@pytest.mark.parametrize("name", ALONE)
def test_killed_while_a_file_is_written_that_stands_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    prepare, command, written = ALONE[name]
    home = tmp_path / "home"
    home.mkdir()
    prepare(home)
    (home / written).write_bytes(b"as it was")
    monkeypatch.chdir(home)
    monkeypatch.setattr("plangen.print.pdf.write_pdf", lambda *given: b"%PDF of now")
    before = content(home)
    with pytest.MonkeyPatch.context() as patch:
        moments = Moments(home, tmp_path / "copies", patch)
        assert run(*command) == 0
    after = content(home)
    assert after[written] not in (b"", b"as it was")
    assert {**after, written: b""} == {**before, written: b""}
    assert {content(copy)[written] for copy in moments.names} == {b"as it was", after[written]}
    assert all(content(copy) in (before, after) for copy in moments.names)
    _is_on_the_disk_before_it_is_said(moments.calls)


def test_killed_while_photos_are_collected(boat: Path, tmp_path: Path) -> None:
    """A photo may stand there before the findings name it; what names it is never there without it."""
    folder = boat / "plans" / "tern"
    plan, _ = plan_and_findings(folder)
    (check, *_) = plan.checks
    photos = {
        f"1.1-{number}-abcd.jpg": jpeg(colour) for number, colour in enumerate(("red", "blue"), start=1)
    }
    line = {"check": check.id, "note": "", "photos": list(photos), "by": "AM", "at": "2027-05-14T09:00:00Z"}
    listed = [{"name": name, "type": "image/jpeg", "data": base64.b64encode(photo).decode()} for name, photo in photos.items()]  # fmt: skip
    page = {
        "format": "plangen-field/1", "boat": {"name": "Tern", "hull": plan.boat.hull, "length_hull": 7.0}, "plan": plan.digest,
        "units": "metric", "attempt": 1, "device": "abcd", "readings": [], "lines": [line], "photos": listed,
    }  # fmt: skip
    (boat / "page.json").write_text(json.dumps(page), encoding="utf-8")
    command = ("collect", "plans/tern", "page.json")
    old = content(boat)
    with pytest.MonkeyPatch.context() as patch:
        moments = Moments(boat, tmp_path / "copies", patch)
        assert run(*command) == 0
    new = content(boat)
    findings = "plans/tern/findings.yaml"
    kept = {f"plans/tern/photos/{name}": photo for name, photo in photos.items()}
    assert new == {**old, **kept, findings: new[findings]}
    assert all(name.encode() in new[findings] for name in photos)
    ended: set[int] = set()
    for copy in moments.names:
        there = content(copy)
        assert all(there.get(file) in (old.get(file), new[file]) for file in {*there, *new}), copy
        assert there[findings] == old[findings] or kept.items() <= there.items()
        parts = sorted(path.name.rsplit(".", 2)[0] for path in copy.rglob(f".*{files._PART}"))
        state = hash((tuple(parts), *there.items(), any(copy.rglob(files._NOTE))))
        if state in ended:
            continue  # as another copy, and so is what comes next
        ended.add(state)
        with pytest.MonkeyPatch.context() as patch:
            patch.chdir(copy)
            assert run(*command) == 0
        assert content(copy) == new
        assert not [*copy.rglob(f".*{files._PART}"), *copy.rglob(files._NOTE)]


def _is_on_the_disk_before_it_is_said(calls: list[str]) -> None:
    """Each new file is seen onto the disk before it takes its place, and the folder after the last one."""
    last = len(calls) - 1 - calls[::-1].index("replace")
    assert calls[:last].count("fsync") >= calls.count("replace") >= 1
    assert os.name != "posix" or "fsync" in calls[last + 1 :]


def _belong_together(home: Path) -> bool:
    plan, findings = plan_and_findings(home / "plans" / "tern")
    return findings.plan == plan.digest


def test_killed_while_answers_are_written(tmp_path: Path) -> None:
    home = tmp_path / "home"
    home.mkdir()
    spec = home / "tern.yaml"
    spec.write_text(SPEC, encoding="utf-8")
    answered = Answered(spec, SPEC, SPEC + "gas: false\n", ())
    with pytest.MonkeyPatch.context() as patch:
        moments = Moments(home, tmp_path / "copies", patch)
        api.write_answered(answered)
    seen = {content(copy)["tern.yaml"].decode() for copy in moments.names}
    assert seen == {answered.before, answered.after}
    with pytest.raises(InputProblems, match="was changed while"):
        api.write_answered(Answered(spec, SPEC, SPEC + "laundry: false\n", ()))
    assert spec.read_text("utf-8") == answered.after


def test_what_a_killed_answer_left_goes_with_the_next(tmp_path: Path) -> None:
    spec = tmp_path / "tern.yaml"
    spec.write_text(SPEC, encoding="utf-8")
    left = tmp_path / f".tern.yaml.00000000{files._PART}"
    left.write_bytes(b"half")
    api.write_answered(Answered(spec, SPEC, SPEC + "gas: false\n", ()))
    assert not left.exists()


@pytest.mark.parametrize(
    "line", ["../../outside 1", "00000000 ../outside.yaml", "00000000 a/b", "zz", "00000000 \0"]
)
def test_a_strangers_note_moves_nothing_out_of_its_place(tmp_path: Path, line: str) -> None:
    folder = tmp_path / "folder"
    folder.mkdir()
    outside = tmp_path / f".outside.yaml.00000000{files._PART}"
    outside.write_bytes(b"x")
    (folder / files._NOTE).write_text(f"{line}\n", encoding="utf-8")
    with files.hold(folder):
        assert [path.name for path in folder.iterdir()] == [".plangen.lock"]
    assert outside.exists()
    assert not (tmp_path / "outside.yaml").exists()


def test_one_file_that_another_program_holds_open_keeps_none_of_the_others(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As on Windows, where a PDF that is open in a viewer can't be replaced."""
    files.write_all(tmp_path, {"findings.yaml": b"old", "plan.pdf": b"old", "plan.yaml": b"old"})
    replace = os.replace

    def refused(source: Path, target: Path) -> None:
        if Path(target).name == "plan.pdf":
            raise PermissionError(13, "Permission denied", str(source))
        replace(source, target)

    monkeypatch.setattr(os, "replace", refused)
    with pytest.raises(OSError, match=r"plan\.pdf"):
        files.write_all(tmp_path, {"findings.yaml": b"new", "plan.pdf": b"new", "plan.yaml": b"new"})
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == {
        "findings.yaml": b"new",
        "plan.pdf": b"old",
        "plan.yaml": b"new",
    }


@pytest.mark.skipif(os.name != "posix", reason="modes of Unix")
def test_a_folder_in_which_nothing_can_be_written_is_read_all_the_same(
    boat: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = boat / "plans" / "tern"
    (folder / ".plangen.lock").unlink()
    opened = Path.open

    def refused(path: Path, mode: str = "r", *more: Any, **named: Any) -> Any:
        if "a" in mode or "w" in mode:
            raise OSError(30, "Read-only file system", str(path))
        return opened(path, mode, *more, **named)

    monkeypatch.setattr(Path, "open", refused)
    plan, findings = plan_and_findings(folder)
    assert findings.plan == plan.digest
