"""Timings; run with `python -m pytest tests/benchmarks --benchmark-only`."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from plangen.plan.draft import draft_plan
from plangen.print.carried.document import carried_document
from plangen.print.pdf import write_pdf
from tests.conftest import SPECS, scheduled, shipped, spec_from


def test_draft_of_the_catamaran_as_a_whole_process(benchmark: Any, tmp_path: Path) -> None:
    command = [
        sys.executable,
        "-m",
        "plangen",
        "draft",
        str(SPECS / "catamaran.yaml"),
        "--no-pdf",
        "--out",
        str(tmp_path),
    ]
    benchmark.pedantic(lambda: subprocess.run(command, check=True, capture_output=True), rounds=5)


@pytest.mark.parametrize("tanks", [25, 50, 100, 190])
def test_cost_grows_with_the_number_of_items(benchmark: Any, tanks: int) -> None:
    loaded = spec_from(
        f"vessel: {{name: X, hull: motor-displacement, length_hull: 20 m}}\ntanks: {{count: {tanks}, holds: fresh, capacity: 100 L}}"
    )
    draft = benchmark.pedantic(lambda: draft_plan(loaded, shipped()), rounds=3)
    benchmark.extra_info["checks"] = len(draft.plan.checks)


def test_seconds_per_page(benchmark: Any) -> None:
    plan = scheduled("yard/hull-101.yaml")
    document = carried_document(plan)
    pages: list[str] = []
    benchmark.pedantic(lambda: write_pdf(document, plan.digest, pages.append), rounds=1)
    benchmark.extra_info["pages"] = pages[-1]
