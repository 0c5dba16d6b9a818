"""The README's walkthroughs are run as they stand, from its first line to the last; only what is printed is left out."""

from __future__ import annotations

import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

TOP = Path(__file__).resolve().parent.parent
README = (TOP / "README.md").read_text(encoding="utf-8")
PRINTS = ("draft", "assess")


def commands_of(heading: str) -> list[str]:
    """Return the commands of a section: indented lines that a shell would run."""
    section = README.split(f"## {heading}\n", 1)[1].split("\n## ", 1)[0].split("\n### ", 1)[0]
    return [line.strip() for line in section.splitlines() if line.startswith(("    plangen ", "    cp "))]


@pytest.mark.parametrize(
    ("heading", "made"),
    [
        ("A buyer of a new boat", ["mine.yaml", "builder.pdf", "plans/*/plan.yaml", "plans/*/plan.html"]),
        ("A surveyor of used boats", ["plans/second-wind/assessment.yaml", "plans/*/plan.yaml"]),
        (
            "A yard, hull after hull",
            ["plans/hull-106/plan.yaml", "plans/hull-101/as-built.yaml", "tally/*.csv", "change-note.txt"],
        ),
    ],
)
def test_walkthrough(heading: str, made: list[str], tmp_path: Path) -> None:
    shutil.copytree(TOP / "specs", tmp_path / "specs")
    commands = commands_of(heading)
    assert len(commands) >= 3
    for line in commands:
        command, _, said = line.partition("  # ")
        words = shlex.split(command)
        program = [sys.executable, "-m", *words] if words[0] == "plangen" else words
        if words[0] == "plangen" and words[1] in PRINTS:
            program.append("--no-pdf")
        done = subprocess.run(program, cwd=tmp_path, capture_output=True, text=True, check=False)
        expected = int(said.removeprefix("exits ").split(":")[0]) if said.startswith("exits ") else 0
        assert done.returncode == expected, f"{line}\n{done.stdout[-1500:]}\n{done.stderr[-1500:]}"
    for pattern in made:
        assert list(tmp_path.glob(pattern)), f"{pattern} wasn't made"
