"""The README's walkthroughs as they stand, from the first line to the last; only what is printed of plans and reports is left out."""

from __future__ import annotations

import shlex
import shutil
import subprocess
import sys
from pathlib import Path

from tests.conftest import made_once

TOP = Path(__file__).resolve().parent.parent
README = (TOP / "README.md").read_text(encoding="utf-8")
PRINTS = ("draft", "assess")
YARD = "A yard, hull after hull"


def commands_of(heading: str) -> list[str]:
    """Return the commands of a section: indented lines that a shell would run."""
    section = README.split(f"## {heading}\n", 1)[1].split("\n## ", 1)[0].split("\n### ", 1)[0]
    return [line.strip() for line in section.splitlines() if line.startswith(("    plangen ", "    cp "))]


def walk(heading: str, folder: Path) -> None:
    """Run the commands of a section in a folder; what each said stands in said/, by its number."""
    shutil.copytree(TOP / "specs", folder / "specs")
    (folder / "said").mkdir()
    commands = commands_of(heading)
    assert len(commands) >= 3
    for number, line in enumerate(commands, start=1):
        command, _, said = line.partition("  # ")
        words = shlex.split(command)
        program = [sys.executable, "-m", *words] if words[0] == "plangen" else words
        if words[0] == "plangen" and words[1] in PRINTS:
            program.append("--no-pdf")
        done = subprocess.run(program, cwd=folder, capture_output=True, text=True, check=False)
        expected = int(said.removeprefix("exits ").split(":")[0]) if said.startswith("exits ") else 0
        assert done.returncode == expected, f"{line}\n{done.stdout[-1500:]}\n{done.stderr[-1500:]}"
        (folder / "said" / f"{number}.txt").write_text(done.stdout, encoding="utf-8")


def walked_yard() -> Path:
    """Return the folder of the yard's walkthrough, which is walked once for all tests; none of them changes it."""
    return made_once("yard", lambda folder: walk(YARD, folder))


def said_by_the_yard(command: str, which: int = 1) -> str:
    """Return what the first command of a name said in the yard's walkthrough, or a later one."""
    named = [
        number
        for number, line in enumerate(commands_of(YARD), start=1)
        if line.startswith(f"plangen {command} ")
    ]
    return (walked_yard() / "said" / f"{named[which - 1]}.txt").read_text(encoding="utf-8")
