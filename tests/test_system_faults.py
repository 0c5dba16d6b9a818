"""What the system refuses ends in one clear line and exit code 2; what a stranger's file holds can't steer the terminal."""

from __future__ import annotations

import errno
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from pypdf import PdfWriter

from plangen import files
from plangen.terminal.console import visible

SPEC = "vessel: {name: Tern, hull: motor-planing, length_hull: 7 m}\nheads: 1\n"
Run = Callable[..., tuple[int, str]]


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, program: Run, tmp_path: Path) -> Run:
    """Run a command in the test's folder, in which a spec lies."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "tern.yaml").write_text(SPEC, encoding="utf-8")
    return program


def drafted(run: Run) -> Path:
    code, said = run("draft", "tern.yaml", "--no-pdf")
    assert (code, "wrote" in said) == (0, True)
    return Path("plans/tern")


def test_out_is_a_file(run: Run, tmp_path: Path) -> None:
    (tmp_path / "there").write_text("mine", encoding="utf-8")
    code, said = run("draft", "tern.yaml", "--no-pdf", "--out", "there")
    assert code == 2
    assert "there" in said
    assert (tmp_path / "there").read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize("name", ["findings.yaml", "plan.yaml", "plans/tern"])
def test_a_folder_where_a_file_is_wanted_or_the_other_way_round(run: Run, name: str) -> None:
    if name == "plans/tern":
        Path("plans").mkdir()
        Path(name).write_text("mine", encoding="utf-8")
    else:
        (drafted(run) / name).unlink()
        (Path("plans/tern") / name).mkdir()
    code, said = run("draft", "tern.yaml", "--no-pdf")
    assert code == 2
    assert name in said


def test_findings_in_another_encoding(run: Run) -> None:
    folder = drafted(run)
    (folder / "findings.yaml").write_bytes("boat: Z\xfcrich\n".encode("latin-1"))
    for command in (("draft", "tern.yaml", "--no-pdf"), ("assess", str(folder), "--no-pdf")):
        code, said = run(*command)
        assert (code, "UTF-8" in said) == (2, True)


def test_a_spec_in_another_encoding_says_which_or_in_which_line(run: Run) -> None:
    Path("one.yaml").write_bytes(SPEC.encode("utf-16"))
    Path("other.yaml").write_bytes(SPEC.replace("heads: 1", "heads: [h\xfctte]").encode("latin-1"))
    for name, words in (("one.yaml", "UTF-16"), ("other.yaml", "other.yaml:2:10: a letter that isn't UTF-8")):
        code, said = run("draft", name, "--no-pdf")
        assert (code, words in said, "Traceback" in said) == (2, True, False)


def test_nothing_can_be_written_in_a_folder(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = drafted(run)

    def refused(*_: object) -> Path:
        raise PermissionError(errno.EACCES, "Permission denied", str(folder / "part"))

    monkeypatch.setattr(files, "_written", refused)
    for words in (("draft", "tern.yaml", "--no-pdf"), ("assess", str(folder), "--no-pdf")):
        code, said = run(*words)
        assert (code, "Permission denied" in said, "Traceback" in said) == (2, True, False)


def test_a_full_disk_leaves_all_the_old_files(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = drafted(run)
    before = {path.name: path.read_bytes() for path in folder.iterdir()}
    written = []

    def full(handle: int) -> None:
        written.append(handle)
        if len(written) > 1:
            raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(files.os, "fsync", full)
    Path("tern.yaml").write_text(SPEC.replace("heads: 1", "heads: 2"), encoding="utf-8")
    code, said = run("draft", "tern.yaml", "--no-pdf")
    assert (code, "No space left on device" in said) == (2, True)
    assert {path.name: path.read_bytes() for path in folder.iterdir()} == before


def test_a_name_that_is_too_long(run: Run) -> None:
    code, said = run("draft", "tern.yaml", "--no-pdf", "--out", "x" * 300)
    assert code == 2
    assert "too long" in said


@pytest.mark.skipif(os.name != "posix", reason="links of Unix")
def test_a_link_in_a_circle(run: Run) -> None:
    folder = drafted(run)
    (folder / "findings.yaml").unlink()
    (folder / "findings.yaml").symlink_to(folder.resolve() / "findings.yaml")
    code, said = run("draft", "tern.yaml", "--no-pdf")
    assert (code, "findings.yaml" in said) == (2, True)
    assert (folder / "findings.yaml").is_symlink()


def test_escapes_and_turned_writing_never_reach_the_terminal(run: Run) -> None:
    Path("bad.yaml").write_text(
        'vessel: {name: "T\\e[2Jern", hull: motor-planing, length_hull: 7 m}\n"\\e[31mx\\u202e": 1\n',
        encoding="utf-8",
    )
    code, said = run("draft", "bad.yaml", "--no-pdf")
    assert code == 2
    assert "\x1b" not in said
    assert "\u202e" not in said
    folder = drafted(run)
    text = (folder / "findings.yaml").read_text("utf-8") + '\nsnags:\n  "a\\e]0;x\\x07@b\\u2066": {who: x}\n'
    (folder / "findings.yaml").write_text(text, encoding="utf-8")
    code, said = run("assess", str(folder), "--no-pdf")
    assert code == 2
    assert not {"\x1b", "\x07", "\u2066"} & set(said)


def test_what_is_shown_stays() -> None:
    assert visible("Réservoir n° 2, ≥ 3 °C\n½ – “x” 船 🚤") == "Réservoir n° 2, ≥ 3 °C\n½ – “x” 船 🚤"


@pytest.mark.skipif(os.name != "posix", reason="pipes of Unix")
def test_a_reader_that_goes_away_is_no_fault() -> None:
    process = subprocess.Popen(
        [sys.executable, "-m", "plangen", "packs"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env={**os.environ, "PYTHONUNBUFFERED": "1"},
    )
    assert process.stdout is not None
    assert process.stderr is not None
    process.stdout.readline()
    process.stdout.close()
    assert process.wait() == 0
    assert process.stderr.read() == b""
    process.stderr.close()


def test_letters_that_the_terminal_lacks_are_no_fault() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "plangen", "packs", "--help"],
        capture_output=True,
        env={**os.environ, "PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0", "LC_ALL": "C"},
        check=False,
    )
    assert done.returncode == 0


def test_an_output_that_is_full_is_said() -> None:
    if not Path("/dev/full").exists():
        pytest.skip("no such device")
    with Path("/dev/full").open("wb") as full:
        done = subprocess.run(
            [sys.executable, "-m", "plangen", "packs"], stdout=full, stderr=subprocess.PIPE, check=False
        )
    assert done.returncode == 2
    assert b"Traceback" not in done.stderr


def test_nothing_stays_in_the_temporary_folder(tmp_path: Path) -> None:
    """The program ends without cleaning up, so whatever the printer puts there has to be gone before."""
    temporary = tmp_path / "temporary"
    temporary.mkdir()
    (tmp_path / "tern.yaml").write_text(SPEC, encoding="utf-8")
    done = subprocess.run(
        [sys.executable, "-m", "plangen", "questions", "tern.yaml", "--pdf", "questions.pdf"],
        cwd=tmp_path, env={**os.environ, "TMPDIR": str(temporary)}, capture_output=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0
    assert (tmp_path / "questions.pdf").read_bytes().startswith(b"%PDF")
    assert list(temporary.iterdir()) == []


def test_a_paper_of_another_plan_is_said_to_be_old(run: Run) -> None:
    folder = drafted(run)
    digest = (folder / "plan.yaml").read_text("utf-8").partition("\ndigest: ")[2].split()[0].strip("'")
    writer = PdfWriter()
    writer.add_blank_page(72, 72)
    writer.add_metadata({"/Keywords": f"trial plan, motor-planing, {digest}"})
    writer.write(folder / "plan.pdf")
    assert "is old" not in run("draft", "tern.yaml", "--no-pdf")[1]
    Path("tern.yaml").write_text(SPEC.replace("heads: 1", "heads: 2"), encoding="utf-8")
    for _ in range(2):  # also when it was old before
        said = run("draft", "tern.yaml", "--no-pdf")[1]
        assert "plan.pdf is old" in said
        assert "without --no-pdf" in said


def test_a_schema_that_is_there_already_stays(run: Run) -> None:
    Path("spec.schema.json").write_text("mine", encoding="utf-8")
    code, said = run("start", "motor-planing", "--out", "one.yaml")
    assert (code, "stays as it is" in said) == (0, True)
    assert Path("one.yaml").exists()
    assert Path("spec.schema.json").read_text("utf-8") == "mine"
    assert run("start", "motor-planing", "--out", "one.yaml")[0] == 2
    Path("spec.schema.json").unlink()
    assert run("start", "motor-planing", "--out", "two.yaml")[0] == 0
    assert '"$schema"' in Path("spec.schema.json").read_text("utf-8")


@pytest.mark.skipif(os.name != "posix", reason="modes of Unix")
def test_mode_umask_and_link_of_the_findings_stay(run: Run, tmp_path: Path) -> None:
    mask = os.umask(0o027)
    try:
        folder = drafted(run)
        findings = folder / "findings.yaml"
        assert {path.name: path.stat().st_mode & 0o777 for path in folder.iterdir()} == dict.fromkeys(
            (path.name for path in folder.iterdir()), 0o640
        )
        elsewhere = tmp_path / "elsewhere.yaml"
        findings.rename(elsewhere)
        elsewhere.chmod(0o600)
        findings.symlink_to(elsewhere)
        Path("notes.txt").write_text("found: Wet locker, saloon, remark\n", encoding="utf-8")
        assert run("collect", str(folder), "notes.txt")[0] == 0
        assert run("draft", "tern.yaml", "--no-pdf")[0] == 0
        assert findings.is_symlink()
        assert elsewhere.stat().st_mode & 0o777 == 0o600
        assert "Wet locker" in elsewhere.read_text("utf-8")
    finally:
        os.umask(mask)


@pytest.mark.skipif(
    not sys.platform.startswith("linux"), reason="elsewhere names of files are always Unicode"
)
def test_a_name_that_no_file_can_have_under_this_language_is_said(tmp_path: Path) -> None:
    (tmp_path / "tern.yaml").write_text(SPEC.replace("Tern", "Чайка"), encoding="utf-8")
    done = subprocess.run(
        [sys.executable, "-m", "plangen", "draft", "tern.yaml", "--no-pdf"],
        cwd=tmp_path,
        env={**os.environ, "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0", "LC_ALL": "C"},
        capture_output=True,
        check=False,
    )
    assert done.returncode == 2
    assert b"UTF-8" in done.stderr
    assert b"Traceback" not in done.stderr
