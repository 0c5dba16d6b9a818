"""Timings; run with `python -m pytest tests/benchmarks --benchmark-only`.

All are processor time of a whole process, which other programs on the machine lengthen less than they do the clock's.
"""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any

from plangen.print.carried.document import carried_document
from plangen.print.pdf import write_pdf
from tests.benchmarks.large_boats import large_boat
from tests.benchmarks.processes import Used, best_of, used_by
from tests.conftest import SPECS, scheduled

#: Seconds of processor that a whole process may take, best of five.
MOST = {"import": 0.1, "help": 0.2, "draft": 0.6, "draft again": 0.8, "assess": 0.8}
_CATAMARAN = ["-m", "plangen", "draft", str(SPECS / "catamaran.yaml"), "--no-pdf", "--out"]


def held(
    benchmark: Any, name: str, command: list[str], folder: Path, accepted: tuple[int, ...] = (0,)
) -> None:
    """Hold a command to its limit."""
    used: list[Used] = []
    benchmark.pedantic(lambda: used.append(best_of(5, command, folder, accepted)), rounds=1)
    benchmark.extra_info |= {
        "seconds of processor": round(used[0].seconds, 3),
        "megabytes": round(used[0].megabytes),
    }
    assert used[0].seconds < MOST[name], f"{name}: {used[0].seconds:.2f} s of at most {MOST[name]} s"


def test_the_library_is_imported(benchmark: Any, tmp_path: Path) -> None:
    held(benchmark, "import", ["-c", "import plangen"], tmp_path)


def test_help(benchmark: Any, tmp_path: Path) -> None:
    held(benchmark, "help", ["-m", "plangen", "--help"], tmp_path)


def test_a_draft_into_a_new_folder(benchmark: Any, tmp_path: Path) -> None:
    """Each run drafts into a folder where nothing is."""
    used_by([*_CATAMARAN, str(tmp_path / "first")], tmp_path)
    used = [used_by([*_CATAMARAN, str(tmp_path / f"out-{number}")], tmp_path) for number in range(5)]
    best = min(one.seconds for one in used)
    benchmark.pedantic(lambda: None, rounds=1)
    benchmark.extra_info["seconds of processor"] = round(best, 3)
    assert best < MOST["draft"], f"draft: {best:.2f} s of at most {MOST['draft']} s"


def test_a_draft_where_an_earlier_plan_lies(benchmark: Any, tmp_path: Path) -> None:
    held(benchmark, "draft again", [*_CATAMARAN, str(tmp_path / "out")], tmp_path)


def test_an_assessment(benchmark: Any, tmp_path: Path) -> None:
    command = ["-m", "plangen", "draft", str(SPECS / "monohull.yaml"), "--no-pdf", "--out", str(tmp_path)]
    used_by(command, tmp_path)
    (folder,) = (path.parent for path in tmp_path.glob("*/plan.yaml"))
    shutil.copy(SPECS / "monohull-trial" / "findings.yaml", folder / "findings.yaml")
    assess = ["-m", "plangen", "assess", str(folder), "--no-pdf"]
    held(benchmark, "assess", assess, tmp_path, accepted=(0, 1))


#: Checks of the boats that are drafted whole, and by what a check of a larger one may cost more than one of the smallest.
SIZES, MOST_GROWTH = (660, 2_000, 5_000), 1.3
_STEPS = """
import gc, json, resource, sys, time
gc.disable()
from pathlib import Path
from plangen import api
from plangen.folder import prepare
from plangen.plan.draft import draft_plan
from plangen.print.without_printer import files_without_printer
from plangen.schedule.schedule import schedule

seconds, before = {}, time.process_time()
def lap(name):
    global before
    now = time.process_time()
    seconds[name], before = now - before, now

boat = api.load_spec(Path(sys.argv[1]))
start = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
lap("load")
drafted = draft_plan(boat.spec, boat.library)
lap("draft")
plan = schedule(drafted, boat.spec, boat.library)
lap("schedule")
prepare(plan, Path(sys.argv[2]))
lap("text")
files_without_printer(plan)
lap("papers")
grown = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - start
print(json.dumps([len(plan.checks), seconds, grown]))
"""


def test_what_a_check_costs_grows_little_with_the_boat(benchmark: Any, tmp_path: Path) -> None:
    """Time and memory for each check, of plans that leave nothing out; what isn't linear is named."""
    costs: dict[str, dict[int, float]] = {}
    for size in SIZES:
        spec = tmp_path / f"{size}.yaml"
        spec.write_text(large_boat(size), encoding="utf-8")
        used_by(["-c", _STEPS, str(spec), str(tmp_path / "none")], tmp_path)
        said = used_by(["-c", _STEPS, str(spec), str(tmp_path / "none")], tmp_path).said
        checks, seconds, kilobytes = json.loads(said)
        assert abs(checks - size) < size / 5
        for step in ("draft", "schedule", "text", "papers"):
            costs.setdefault(f"{step}, ms", {})[checks] = round(seconds[step] / checks * 1_000, 3)
        costs.setdefault("memory, kB", {})[checks] = round(kilobytes / checks, 1)
    benchmark.pedantic(lambda: None, rounds=1)
    benchmark.extra_info |= {what: str(by_size) for what, by_size in costs.items()}
    growing = {
        what: by_size
        for what, by_size in costs.items()
        if max(by_size.values()) > MOST_GROWTH * by_size[min(by_size)]
    }
    assert not growing, f"not linear, for each check at so many checks: {growing}"


def test_seconds_per_page(benchmark: Any) -> None:
    plan = scheduled("yard/hull-101.yaml")
    document = carried_document(plan)
    pages: list[str] = []
    benchmark.pedantic(lambda: write_pdf(document, plan.digest, pages.append), rounds=1)
    benchmark.extra_info["pages"] = pages[-1]
