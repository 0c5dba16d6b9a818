"""Acceptance-trial plans for cruising boats.

`load_spec` reads a boat's spec, `draft` makes her trial plan, `assess_findings` judges what was found, `compare` holds two plans
side by side.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from plangen.assess.model import Assessment
    from plangen.plan.compare import Comparison
    from plangen.plan.model import Plan
    from plangen.spec.load import LoadedSpec
    from plangen.spec.quantity import UnitSystem

__version__ = "0.1.0"
__all__ = ["assess_findings", "compare", "draft", "load_spec"]


def load_spec(path: Path | str) -> LoadedSpec:
    """Load a spec and whatever it extends.

    Raises `plangen.spec.problems.InputProblems` with every fault of the file.
    """
    from plangen.packs.library import load_library
    from plangen.spec.load import load_spec_file

    return load_spec_file(Path(path), load_library(jurisdictions=()).zone_sets())


def draft(spec: LoadedSpec, packs: Sequence[Path | str] = (), units: UnitSystem = "metric") -> Plan:
    """Draft the trial plan of a boat from the shipped packs and those in more folders."""
    from plangen.packs.library import load_library
    from plangen.plan.draft import draft_plan

    return draft_plan(spec, load_library([Path(folder) for folder in packs]), units).plan


def assess_findings(plan: Plan, findings: Path | str) -> Assessment:
    """Judge the findings file that belongs to a plan.

    Raises `plangen.spec.problems.InputProblems` with every fault of the file.
    """
    from plangen.assess.assess import assess_findings as judge
    from plangen.findings.read import read_findings
    from plangen.spec.yaml_source import LARGEST_DERIVED_FILE, read_text_file

    path = Path(findings)
    return judge(plan, read_findings(read_text_file(path, path.name, LARGEST_DERIVED_FILE), path.name, plan))


def compare(before: Plan, after: Plan) -> Comparison:
    """Say which checks one plan has beyond another, lacks, or expects otherwise."""
    from plangen.plan.compare import compare as compare_plans

    return compare_plans(before, after)
