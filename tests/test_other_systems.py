"""What Windows and macOS lack or do otherwise, as far as it can be put on here: locks, folders, names, letters' case."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from plangen.collect.field_photos import kept_names
from plangen.spec.names import folder_name

#: As on Windows: no fcntl, no pipes, no folder that can be opened, locks that fail while another holds them.
WINDOWS = """
import os, sys, types
for name in ("O_NONBLOCK", "sched_getaffinity", "fchmod", "mkfifo", "fork"):
    if hasattr(os, name):
        delattr(os, name)
for name in ("fcntl", "resource", "pwd", "grp", "termios"):
    sys.modules[name] = None
held = set()
def locking(handle, mode, count):
    file = os.fstat(handle).st_ino
    if mode == 1:
        if file in held:
            calls.append("waits")
            held.discard(file)
            raise PermissionError(13, "Permission denied")
        held.add(file)
    else:
        held.discard(file)
    calls.append("locks" if mode == 1 else "lets go")
calls = []
sys.modules["msvcrt"] = types.SimpleNamespace(locking=locking, LK_NBLCK=1, LK_UNLCK=0)
_open = os.open
def open_(path, flags, *more, **named):
    if os.path.isdir(path):
        raise PermissionError(13, "Permission denied", str(path))
    return _open(path, flags, *more, **named)
os.open = open_
sys.platform = "win32"
import plangen.files as files
sys.platform = "linux"
del sys.modules["msvcrt"]
files.sys = types.SimpleNamespace(platform="win32")
"""


def without_unix(code: str, folder: Path) -> str:
    done = subprocess.run(
        [sys.executable, "-c", WINDOWS + code], cwd=folder, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_files_are_written_whole_and_folders_held(tmp_path: Path) -> None:
    said = without_unix(
        "from pathlib import Path\n"
        "folder = Path('plans')\n"
        "folder.mkdir()\n"
        "(folder / '.plangen.lock').touch()\n"
        "held.add((folder / '.plangen.lock').stat().st_ino)\n"
        "with files.hold(folder):\n"
        "    files.write_all(folder, {'a.yaml': b'1\\n', 'b.yaml': b'2\\n'})\n"
        "from plangen.spec.yaml_source import read_text_file\n"
        "print(calls, read_text_file(folder / 'a.yaml', 'a'), sorted(p.name for p in folder.iterdir()))\n",
        tmp_path,
    )
    assert said == "['waits', 'locks', 'lets go'] 1\n ['.plangen.lock', 'a.yaml', 'b.yaml']\n"


def test_a_draft_and_what_came_back_need_nothing_of_unix(tmp_path: Path) -> None:
    (tmp_path / "tern.yaml").write_bytes(
        b"vessel: {name: AUX, hull: motor-planing, length_hull: 7 m}\r\nheads: 1\r\n"
    )
    (tmp_path / "notes.txt").write_bytes(b"\xef\xbb\xbffound: Wet locker, saloon, remark\r\n")
    without_unix(
        "from plangen.cli import main\n"
        "for words in (['draft', 'tern.yaml', '--no-pdf'], ['collect', 'plans/aux-boat', 'notes.txt']):\n"
        "    sys.argv = ['plangen', *words]\n"
        "    try:\n"
        "        main()\n"
        "    except SystemExit as end:\n"
        "        assert not end.code, end.code\n",
        tmp_path,
    )
    findings = (tmp_path / "plans" / "aux-boat" / "findings.yaml").read_bytes()
    assert b"Wet locker" in findings
    assert b"\r" not in findings


@pytest.mark.parametrize("name", ["CON", "aux", "Lpt1", "nul", "COM¹"])
def test_a_boat_may_bear_the_name_of_a_device(name: str) -> None:
    assert folder_name(name).endswith("-boat")


def test_photos_whose_names_differ_in_case_only_stay_apart() -> None:
    names, contents = kept_names([("A1.jpg", b"x"), ("a1.jpg", b"y")], {}, lambda _: None)
    assert len({name.casefold() for name in contents}) == 2
    assert contents[names["A1.jpg"]] == b"x"
    assert contents[names["a1.jpg"]] == b"y"
