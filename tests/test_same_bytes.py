"""The same input gives the same bytes: whatever hash seed, language, place, time zone, workers, cache and libraries."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

SPEC = """\
vessel: {name: "Tern Чайка", hull: motor-planing, length_hull: 7 m}
heads: 1
trial: {date: 2027-05-14, place: {latitude: 54.3 °, longitude: 10.1 °}, people: 2, hours: 8 h}
"""
NOTES = "by: AL\n2027-05-14\nfound: Wet locker, saloon, before-handover\nfound: Loose cleat, bow, remark\n"

#: What one process does in a folder of its own.
STORY = """
import glob, sys
from plangen.cli import main
for words in (
    ["draft", "tern.yaml", "--no-pdf"],
    ["collect", "plans/tern", "notes.txt"],
    ["assess", "plans/tern", "--no-pdf"],
    ["questions", "tern.yaml", "--pdf", "questions.pdf"],
):
    sys.argv = ["plangen", *(glob.glob("plans/*")[0] if word == "plans/tern" else word for word in words)]
    try:
        main()
    except SystemExit as end:
        assert end.code in (0, 1, None), (words, end.code)
"""

#: The processes that lay out have a test of their own in `tests/print/test_joined_pdf.py`.
WITHOUT_PRINTING = "".join(line for line in STORY.splitlines(keepends=True) if "questions" not in line)

#: A machine without what is of use where it is there: numpy, HarfBuzz's cutter of faces, and the processor's count.
WITHOUT = """
import ctypes, os, sys
sys.modules["numpy"] = None
import cffi
_dlopen = cffi.FFI.dlopen
def dlopen(self, name, *more):
    if "harfbuzz-subset" in str(name):
        raise OSError(f"no {name}")
    return _dlopen(self, name, *more)
cffi.FFI.dlopen = dlopen
"""


def _told(home: Path, before: str = "", story: str = STORY, **environment: str) -> dict[str, bytes]:
    """Run the story in a folder; return every file by its name there."""
    home.mkdir(parents=True)
    (home / "tern.yaml").write_text(SPEC, encoding="utf-8")
    (home / "notes.txt").write_text(NOTES, encoding="utf-8")
    done = subprocess.run(
        [sys.executable, "-c", before + story],
        cwd=home,
        env={**os.environ, "PYTHONPATH": str(Path(__file__).parent.parent), **environment},
        capture_output=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr.decode(errors="replace")[-3000:]
    return {
        str(path.relative_to(home)): path.read_bytes()
        for path in sorted(home.rglob("*"))
        if path.is_file() and path.name != ".plangen.lock"
    }


def test_every_file_is_the_same_everywhere(tmp_path: Path) -> None:
    first = _told(tmp_path / "a", PYTHONHASHSEED="0", TZ="UTC", LC_ALL="C", PLANGEN_WORKERS="1")

    assert len(first) >= 12, sorted(first)
    assert "questions.pdf" in first
    far = _told(
        tmp_path / "another folder" / "ü" / "b",
        story=WITHOUT_PRINTING,
        PYTHONHASHSEED="1",
        TZ="Pacific/Kiritimati",
        LC_ALL="tr_TR.UTF-8",
        LANG="tr_TR.UTF-8",
        PLANGEN_WORKERS="2",
        PLANGEN_CACHE="",
        COLUMNS="40",
    )
    assert [name for name in far if far[name] != first.get(name)] == []
    assert first.keys() - far.keys() == {"questions.pdf"}
    bare = _told(
        tmp_path / "c",
        WITHOUT,
        PYTHONHASHSEED="4242",
        TZ="America/St_Johns",
        LC_ALL="de_DE.ISO-8859-1",
        PYTHONIOENCODING="latin-1",
        PLANGEN_CACHE=str(tmp_path / "cache"),
        SOURCE_DATE_EPOCH="1000000000",
    )
    assert [name for name in first if bare.get(name) != first[name]] == []
    assert first.keys() == bare.keys()
