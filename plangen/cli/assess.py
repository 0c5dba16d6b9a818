"""`plangen assess`: verdicts, snags, report and retest."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from plangen.cli.faults import input_faults
from plangen.cli.options import PaperOption, PaperSize
from plangen.cli.printing import paper_name, print_pdf


def assess(
    folder: Annotated[
        Path, typer.Argument(help="The boat's folder, with plan.yaml and findings.yaml.", metavar="FOLDER")
    ],
    make_pdf: Annotated[
        bool, typer.Option("--pdf/--no-pdf", help="Whether to print report and retest as PDF.")
    ] = True,
    paper: PaperOption = PaperSize.a4,
) -> None:
    """Assess the findings: verdicts, snag list, report and retest. Exit code 1: handover is not advisable.

    Example: plangen assess plans/second-wind --paper letter
    """
    from hashlib import sha256

    from plangen import api
    from plangen.files import hold, write_all
    from plangen.folder import plan_and_findings
    from plangen.print.assessed import assessment_files, assessment_papers
    from plangen.terminal.assessed import say_assessment

    with input_faults():
        plan, findings = plan_and_findings(folder)
    assessment = api.assess_findings(plan, findings)
    contents = assessment_files(assessment)
    if make_pdf:
        for name, document in assessment_papers(plan, assessment, folder, paper_name(paper)).items():
            pdf = print_pdf(document, sha256(document.html.encode()).hexdigest(), name)
            contents |= {name: pdf} if pdf is not None else {}
    with hold(folder):
        files = write_all(folder, contents)
    say_assessment(plan, findings, assessment, files)
    if not assessment.handover.advisable:
        raise typer.Exit(1)
