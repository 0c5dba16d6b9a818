"""`plangen assess`: verdicts, snags, report and retest."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from plangen.cli.faults import input_faults
from plangen.cli.options import InstrumentsOption, PaperOption
from plangen.cli.printing import paper_name, print_pdf


def assess(
    folder: Annotated[
        Path, typer.Argument(help="The boat's folder, with plan.yaml and findings.yaml.", metavar="FOLDER")
    ],
    make_pdf: Annotated[
        bool, typer.Option("--pdf/--no-pdf", help="Whether to print report and retest as PDF.")
    ] = True,
    paper: PaperOption = None,
    instruments: InstrumentsOption = None,
) -> None:
    """Assess the findings: verdicts, snag list, report and retest. Exit code 1: handover is not advisable.

    An instrument register gives your own instruments their accuracy and the day on which their calibration is due.

    Example: plangen assess plans/second-wind --paper letter
    """
    from hashlib import sha256

    from plangen import api
    from plangen.files import hold, write_all
    from plangen.folder import digest_of_files, plan_and_findings
    from plangen.instrument_registers import read_register_file, register_path
    from plangen.print.assessed import assessment_files, assessment_papers
    from plangen.terminal.assessed import say_assessment

    with input_faults():
        own = register_path(folder, instruments)
        made_of = digest_of_files(folder, own)
        plan, findings = plan_and_findings(folder)
        register = read_register_file(own, plan)
    assessment = api.assess_findings(plan, findings, register).model_copy(update={"made_of": made_of})
    contents = assessment_files(plan, assessment)
    missing: dict[str, str] = {}
    if make_pdf:
        from plangen.print.photos import missing_photos
        from plangen.print.report.plates import photo_names

        missing = missing_photos(folder, photo_names(assessment))
        for name, document in assessment_papers(plan, assessment, folder, paper_name(paper, plan)).items():
            pdf = print_pdf(document, sha256(document.html.encode()).hexdigest(), name)
            contents |= {name: pdf} if pdf is not None else {}
    with hold(folder):
        files = write_all(folder, contents)
    say_assessment(plan, findings, assessment, files, missing)
    if not assessment.handover.advisable:
        raise typer.Exit(1)
