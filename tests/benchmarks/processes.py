"""Processor time and memory of a command as a process of its own."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

#: A process that runs a command, and says what that took when it has ended.
_MEASURE = """
import json, resource, subprocess, sys
done = subprocess.run(sys.argv[1:], capture_output=True, text=True)
used = resource.getrusage(resource.RUSAGE_CHILDREN)
print(json.dumps([done.returncode, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024, done.stdout, done.stderr]))
"""


@dataclass(frozen=True)
class Used:
    """What a command took: seconds of processor, megabytes, and what it said."""

    seconds: float
    megabytes: float
    said: str


def used_by(command: Sequence[str], folder: Path, accepted: Sequence[int] = (0,)) -> Used:
    """Run Python with arguments as an installed program runs: its modules compiled, and what is kept in a folder of its own."""
    import json

    env = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    env |= {"PYTHONPYCACHEPREFIX": str(folder / "compiled"), "PLANGEN_CACHE": str(folder / "kept")}
    measured = subprocess.run(
        [sys.executable, "-c", _MEASURE, sys.executable, *command], env=env, capture_output=True, check=True
    )
    code, seconds, megabytes, said, errors = json.loads(measured.stdout)
    assert code in accepted, errors
    return Used(seconds, megabytes, said)


def best_of(times: int, command: Sequence[str], folder: Path, accepted: Sequence[int] = (0,)) -> Used:
    """Return what a command took at best, after one run that compiles and keeps what is kept."""
    used_by(command, folder, accepted)
    return min((used_by(command, folder, accepted) for _ in range(times)), key=lambda used: used.seconds)
