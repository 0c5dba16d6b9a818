"""The files that an assessment comes to, as their contents."""

from __future__ import annotations

from pathlib import Path

from plangen.assess.model import Assessment
from plangen.assess.retest import retest_plan
from plangen.plan.model import Plan
from plangen.plan.yaml_text import yaml_text
from plangen.print.html import Paper, plan_html
from plangen.print.photos import load_photos
from plangen.print.report import photo_names, report_html
from plangen.print.snag_tables import snags_csv, snags_xlsx


def assessment_files(assessment: Assessment) -> dict[str, bytes]:
    """Return the assessment as YAML and its snag list for spreadsheets, by file name."""
    boat = " ".join(assessment.boat.split())
    return {
        "assessment.yaml": yaml_text(
            assessment.plain(), f"Assessment of {boat}. Derived: change the findings, not this file."
        ).encode(),
        "snags.csv": snags_csv(assessment.snags),
        "snags.xlsx": snags_xlsx(assessment),
    }


def assessment_papers(plan: Plan, assessment: Assessment, folder: Path, paper: Paper) -> dict[str, str]:
    """Return report and, where something is to be done again, retest as HTML, by the name of their PDF.

    Photos are looked for in the folder. A retest into which somebody has written is never written over: the
    new one gets a number.
    """
    papers = {
        "report.pdf": report_html(plan, assessment, paper, load_photos(folder, photo_names(assessment)))
    }
    again = retest_plan(plan, assessment)
    if again.checks:
        papers[_unfilled(folder, "retest")] = plan_html(again, paper, heading="Retest")
    return papers


def _unfilled(folder: Path, stem: str) -> str:
    names = [f"{stem}.pdf", *(f"{stem}-{number}.pdf" for number in range(2, 100))]
    return next(name for name in names if not _is_filled(folder / name))


def _is_filled(path: Path) -> bool:
    """Tell whether a PDF is there into which something was typed; one that can't be read counts as filled."""
    if not path.is_file():
        return False
    from plangen.findings.pdf_fields import read_form
    from plangen.spec.problems import InputProblems

    try:
        fields = read_form(path.read_bytes(), path.name).fields
    except InputProblems:
        return True
    return any(value for name, value in fields.items() if not name.startswith("plan/"))
