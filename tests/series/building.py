"""Folders of small hulls, written by hand for the tests over many hulls."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from plangen.plan.model import Plan, PlannedCheck
from plangen.plan.yaml_text import yaml_text
from tests.assess.building import check, expectation, instrument, plan

VOLTS = check(
    "volts@bank",
    expectation("voltage", low=12.6, unit="V", instrument="multimeter", shown="≥ 12.6 V"),
    expectation("terminals tight", text="yes"),
    title="Rest voltage",
    grade="before-handover",
)
FLOW = check(
    "flow@bilge", expectation("flow", low=30.0, unit="L/min", instrument="flow-meter", shown="≥ 30 L/min")
)
KIT = (
    instrument("multimeter", title="Digital multimeter", unit="V", accuracy_fixed=0.02, accuracy_percent=0.5),
    instrument("flow-meter", title="Hose flow meter", unit="L", accuracy_fixed=0.5),
)


def hull_plan(name: str, *checks: PlannedCheck, **boat: Any) -> Plan:
    """A plan of one hull."""
    made = plan(*(checks or (VOLTS, FLOW)), kit=KIT)
    return made.model_copy(update={"boat": made.boat.model_copy(update={"name": name, **boat})})


def write_hull(
    folder: Path,
    planned: Plan,
    checks: Mapping[str, Any],
    snags: Mapping[str, Any] | None = None,
    **more: Any,
) -> Path:
    """Write a hull's folder; a check has one attempt's readings, or a list of attempts as the file writes them."""
    folder.mkdir(parents=True, exist_ok=True)
    attempts = {id: given if isinstance(given, list) else [{"found": given}] for id, given in checks.items()}
    data = {
        "boat": planned.boat.name,
        "plan": planned.digest,
        "checks": attempts,
        "snags": snags or {},
        **more,
    }
    (folder / "plan.yaml").write_text(yaml_text(planned.plain()), encoding="utf-8")
    (folder / "findings.yaml").write_text(yaml_text(data), encoding="utf-8")
    return folder


def plangen(*arguments: object, width: int = 200) -> subprocess.CompletedProcess[str]:
    """Run a command as a user does."""
    return subprocess.run(
        [sys.executable, "-m", "plangen", *map(str, arguments)],
        capture_output=True, text=True, check=False, env={**os.environ, "COLUMNS": str(width)},
    )  # fmt: skip
