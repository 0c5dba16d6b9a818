"""Whatever is sent is refused in words or does no harm, in little time and memory (OWASP ASVS 5.0, V5 on files and V1 on input).

The attacks are the public kinds: YAML bombs and tags, template escapes, path traversal, formula injection, zip and
entity bombs, terminal escapes, hostile PDFs and JSON.
"""

from __future__ import annotations

import os
import resource
import shutil
import socket
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from plangen import cli
from tests.hostile import attacks

SPEC = "vessel: {name: Tern, hull: motor-planing, length_hull: 7 m}\nheads: 1\n"
#: Seconds of processor and megabytes of memory for one file, and characters of answer.
SECONDS, MEGABYTES, ANSWER = 2.0, 200, 60_000

#: A command, and the files that are put there for it, ENDLESS where the command names them: pipes, or a device where one is
#: called so.
DOORS = (
    ("draft", "ENDLESS", "--no-pdf", "pipe.yaml"),
    ("draft", "ENDLESS", "--no-pdf", "endless.yaml"),
    ("draft", "above.yaml", "--no-pdf", "endless.yaml"),
    ("draft", "tern.yaml", "--no-pdf", "--house", "ENDLESS", "house.yaml"),
    ("draft", "tern.yaml", "--no-pdf", "plans/tern/findings.yaml"),
    ("draft", "tern.yaml", "--no-pdf", "plans/tern/plan.yaml plans/tern/sheets.xlsx plans/tern/plan.pdf"),
    ("why", "tern.yaml", "nothing@boat", "--pack", "packs", "packs/endless.yaml"),
    ("collect", "plans/tern", "ENDLESS", "pipe"),
    ("collect", "plans/tern", "ENDLESS", "endless"),
    ("collect", "plans/tern", "tern.yaml", "plans/tern/findings.yaml"),
    ("answers", "tern.yaml", "ENDLESS", "pipe.pdf"),
    ("assess", "plans/tern", "--no-pdf", "plans/tern/plan.yaml"),
    ("assess", "plans/tern", "--no-pdf", "plans/tern/findings.yaml"),
    ("assess", "plans/tern", "--no-pdf", "plans/tern/instruments.yaml"),
    ("assess", "plans/tern", "--no-pdf", "--instruments", "ENDLESS", "endless.yaml"),
    ("compare", "ENDLESS", "plans/tern", "pipe.yaml"),
    ("tally", "plans", "plans/tern/assessment.yaml"),
)

Attack = Callable[..., None]


def _loop() -> float:
    begun = time.process_time()
    total = 0
    for number in range(1_000_000):
        total += number
    return time.process_time() - begun


@pytest.fixture(scope="session")
def drafted(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a small boat, drafted once."""
    folder = tmp_path_factory.mktemp("drafted")
    (folder / "tern.yaml").write_text(SPEC, encoding="utf-8")
    done = subprocess.run(
        [sys.executable, "-m", "plangen", "draft", "tern.yaml", "--no-pdf"],
        cwd=folder, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    return folder / "plans"


@pytest.fixture
def attack(
    drafted: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str], tmp_path: Path
) -> Attack:
    """Run a command on a hostile file; hold its exit, its words, its time and memory, and what it left behind."""
    home = tmp_path / "a" / "b"
    home.mkdir(parents=True)
    monkeypatch.chdir(home)

    def refuse(*_: Any, **__: Any) -> None:
        raise AssertionError("something reached for the network")

    monkeypatch.setattr(socket.socket, "connect", refuse)
    Path("tern.yaml").write_text(SPEC, encoding="utf-8")
    shutil.copytree(drafted, "plans")

    def run(*words: str) -> None:
        slow = max(2.0, _loop() / 0.03)  # other tests run beside, and the first command loads the program
        memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        begun = time.process_time()
        code = _command(monkeypatch, *words)
        spent = time.process_time() - begun
        grown = (resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - memory) // 1024
        said = "".join(capfd.readouterr())
        assert code in (0, 1, 2), said[-2000:]
        assert "Traceback" not in said, said[-3000:]
        assert code != 2 or said.strip(), "refused without a word"
        assert not set(said) & set("\x1b\x07\x00\u202e"), "a file steers the terminal"
        assert len(said) < ANSWER, f"{len(said)} characters of answer"
        assert spent < SECONDS * slow, f"{spent:.1f} s"
        assert grown < MEGABYTES, f"{grown} MB"
        outside = [path for path in tmp_path.rglob("*") if "pwned" in path.name or "outside" in path.name]
        assert not [path for path in outside if home not in path.parents], outside
        assert not any("pwned" in path.name for path in outside)
        assert not list(home.rglob("*.plangen-part")), "something half-written"

    return run


def _command(monkeypatch: pytest.MonkeyPatch, *words: str) -> int:
    monkeypatch.setattr(sys, "argv", ["plangen", *words])
    try:
        cli.main()
    except SystemExit as end:
        return int(end.code or 0)
    return 0


@pytest.mark.parametrize(
    ("door", "name"),
    [
        (door, name)
        for door in ("spec", "pack", "house", "findings", "register", "plan")
        for number, name in enumerate(attacks.YAML)
        if door not in ("house", "register")
        or number % 2 == (door == "house")  # read as spec and findings are
    ],
)
def test_yaml(attack: Attack, door: str, name: str) -> None:
    text = attacks.YAML[name]
    keys = {
        "spec": SPEC,
        "pack": "pack: own\ntitle: Own\nedition: 2026-11\n",
        "house": "letterhead: {name: Own}\n",
        "findings": "boat: Tern\n",
        "register": "instruments:\n  - {id: a, kind: multimeter}\n",
        "plan": "boat: {name: Tern}\n",
    }[door]
    _at(door, attack, text.replace("{}", keys, 1).replace("{{", "{").replace("}}", "}").encode("utf-8"))


@pytest.mark.parametrize("name", attacks.BYTES)
@pytest.mark.parametrize("door", ["spec", "pack", "house", "findings", "register", "plan"])
def test_bytes_that_are_no_text(attack: Attack, door: str, name: str) -> None:
    _at(door, attack, attacks.BYTES[name])


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="pipes of Unix")
@pytest.mark.parametrize("words", DOORS, ids=lambda words: f"{words[0]}-{words[-1].replace('/', '-')}"[:60])
def test_what_never_ends(attack: Attack, words: tuple[str, ...]) -> None:
    """A pipe that nobody writes into at every door, and at some a device that gives without end."""
    *command, names = words
    for name in names.split():
        file = Path(name)
        file.parent.mkdir(exist_ok=True)
        file.unlink(missing_ok=True)
        file.symlink_to("/dev/zero") if "endless" in name else os.mkfifo(file)
    Path("above.yaml").write_text(f"extends: endless.yaml\n{SPEC}", encoding="utf-8")
    attack(*(word.replace("ENDLESS", names) for word in command))


def _at(door: str, attack: Attack, content: bytes) -> None:
    """Bring a file to one of the doors at which YAML comes in."""
    if door == "spec":
        Path("spec.yaml").write_bytes(content)
        attack("draft", "spec.yaml", "--no-pdf")
    elif door == "pack":
        Path("packs").mkdir()
        Path("packs/own.yaml").write_bytes(content)
        attack("why", "tern.yaml", "nothing@boat", "--pack", "packs")
    elif door == "house":
        Path("house.yaml").write_bytes(content)
        attack("why", "tern.yaml", "nothing@boat")
    else:
        name = {"findings": "findings.yaml", "register": "instruments.yaml", "plan": "plan.yaml"}[door]
        Path("plans/tern", name).write_bytes(content)
        attack("assess", "plans/tern", "--no-pdf")


@pytest.mark.parametrize("name", attacks.SPECS)
def test_spec(attack: Attack, name: str) -> None:
    text = attacks.SPECS[name]
    Path("spec.yaml").write_text(text if "vessel:" in text else text + SPEC, encoding="utf-8")
    attack("draft", "spec.yaml", "--no-pdf")


@pytest.mark.parametrize("name", attacks.PACKS)
def test_pack(attack: Attack, name: str) -> None:
    Path("packs").mkdir()
    Path("packs/own.yaml").write_text(attacks.PACKS[name], encoding="utf-8")
    if "minutes" in name:
        attack("draft", "tern.yaml", "--no-pdf", "--pack", "packs")
    else:
        attack("why", "tern.yaml", "own-check@boat", "--pack", "packs")


@pytest.mark.parametrize("name", attacks.LISTS)
def test_line_list(attack: Attack, name: str) -> None:
    Path("notes.txt").write_text(attacks.LISTS[name], encoding="utf-8")
    attack("collect", "plans/tern", "notes.txt")
    attack("assess", "plans/tern", "--no-pdf")


@pytest.mark.parametrize("name", attacks.EXPORTS)
def test_field_page_file(attack: Attack, name: str) -> None:
    Path("export.json").write_text(attacks.EXPORTS[name], encoding="utf-8")
    attack("collect", "plans/tern", "export.json")
    attack("assess", "plans/tern", "--no-pdf")


@pytest.mark.parametrize("name", attacks.FILES)
def test_returned_file(attack: Attack, name: str) -> None:
    Path(name).write_bytes(attacks.FILES[name])
    attack("collect", "plans/tern", name)
