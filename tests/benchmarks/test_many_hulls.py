"""Five hundred hulls: time and memory of a tally as a whole process."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from typing import Any

from tests.series.building import hull_plan, write_hull

HULLS = 500
#: Bounds of processor time and memory with room for a slow machine; a third of this is usual.
MOST_SECONDS, MOST_MEGABYTES = 60.0, 250.0

_MEASURED = """
import resource, sys
from plangen.cli.program import app
try:
    app(sys.argv[1:])
finally:
    used = resource.getrusage(resource.RUSAGE_SELF)
    print(used.ru_utime + used.ru_stime, used.ru_maxrss / 1024, file=sys.stderr)
"""


def test_five_hundred_hulls(benchmark: Any, tmp_path: Path) -> None:
    plans = tmp_path / "plans"
    for number in range(HULLS):
        found = {"voltage": 12.5 + number % 7 / 10, "terminals-tight": "yes"}
        checks = {"volts@bank": found, "flow@bilge": {"flow": 30 + number % 11}}
        write_hull(
            plans / f"hull-{number}",
            hull_plan(f"Hull {number}", layers=("model", f"option-{number % 3}")),
            checks,
        )
    command = [sys.executable, "-c", _MEASURED, "tally", str(plans), "--out", str(tmp_path / "out")]
    done = benchmark.pedantic(
        lambda: subprocess.run(
            command, capture_output=True, text=True, check=True, env={**os.environ, "COLUMNS": "160"}
        ),
        rounds=1,
    )
    assert f"of {HULLS} hulls" in done.stdout
    seconds, megabytes = (float(number) for number in done.stderr.split()[-2:])
    benchmark.extra_info.update(processor_seconds=seconds, megabytes=megabytes)
    assert seconds < MOST_SECONDS
    assert megabytes < MOST_MEGABYTES
