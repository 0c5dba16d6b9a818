"""The files that an assessment comes to, as their contents."""

from __future__ import annotations

from pathlib import Path

from plangen.assess.as_built import as_built_of
from plangen.assess.model import Assessment
from plangen.assess.retest import found_beside, retest_of
from plangen.collect.output_names import unfilled_name
from plangen.plan.model import Plan
from plangen.plan.yaml_text import yaml_text
from plangen.print.as_built import as_built_document, as_built_files
from plangen.print.field.page import field_page
from plangen.print.html import Document, Paper
from plangen.print.photos import load_photos
from plangen.print.report.document import report_html
from plangen.print.report.plates import photo_names
from plangen.print.retest import retest_document
from plangen.print.snag_tables import snags_csv, snags_xlsx
from plangen.print.stages import stages_document


def assessment_files(plan: Plan, assessment: Assessment) -> dict[str, bytes]:
    """Return the assessment and the as-built register as YAML, snag list and register for spreadsheets, by file name.

    With them goes the field page of the retest, where anything is to be done or seen mended again.
    """
    boat = " ".join(assessment.boat.split())
    as_built = as_built_of(plan, assessment)
    retest, found = retest_of(plan, assessment), found_beside(assessment)
    return {
        "assessment.yaml": yaml_text(
            assessment.plain(), f"Assessment of {boat}. Derived: change the findings, not this file."
        ).encode(),
        "snags.csv": snags_csv(assessment.snags),
        "snags.xlsx": snags_xlsx(assessment),
        **(as_built_files(plan, as_built) if as_built else {}),
        **({"retest.html": field_page(plan, retest, found)} if retest.again or found else {}),
    }


def assessment_papers(plan: Plan, assessment: Assessment, folder: Path, paper: Paper) -> dict[str, Document]:
    """Return report, stages where the plan has them, and retest where something is to be done again, by the name of their PDF.

    Photos are looked for in the folder. A retest into which somebody has written is never written over: the
    new one gets a number.
    """
    papers = {
        "report.pdf": Document(
            report_html(plan, assessment, paper, load_photos(folder, photo_names(assessment))), "style.css"
        )
    }
    if assessment.stages:
        papers["stages.pdf"] = stages_document(plan, assessment, paper)
    as_built = as_built_of(plan, assessment)
    if any(line.found for line in as_built):
        papers["as-built.pdf"] = as_built_document(plan, as_built, paper)
    retest = retest_document(plan, assessment, paper) if plan.purpose != "survey" else None
    if retest is not None:
        papers[unfilled_name(folder, "retest.pdf")] = retest
    return papers
