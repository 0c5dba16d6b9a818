"""The commands. Files, clock and terminal are touched only here and in `files` and `terminal`."""

from __future__ import annotations

import gc
import io
import json
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from plangen import __version__, api
from plangen.files import hold, write_all, write_whole
from plangen.folder import folder_of, plan_and_findings, require_plan, take_forms, try_carry, write_draft
from plangen.packs.library import load_library
from plangen.plan.model import Plan
from plangen.schedule.wishes import Instead
from plangen.spec.names import slug
from plangen.spec.problems import InputProblems, Mark, Problem, nearest_name
from plangen.spec.starter import HULL_TYPES, SCHEMA_FILE, starter_text
from plangen.terminal import (
    console,
    errors,
    say,
    say_assessment,
    say_collected,
    say_comparison,
    say_draft,
    say_pack_problems,
    say_packs,
    say_plan,
    say_problems,
    say_questions,
    say_reason,
    say_system_fault,
)

if TYPE_CHECKING:
    from plangen.collect.collect import Returned
    from plangen.print.html import Document

app = typer.Typer(
    name="plangen",
    help="Acceptance-trial plans for cruising boats: every check that this boat needs, the reading that counts as good, and why.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)
packs_app = typer.Typer(
    help="List the packs, or check them.\n\nExample: plangen packs check my-packs",
    invoke_without_command=True,
    add_completion=False,
)
app.add_typer(packs_app, name="packs")


class Units(StrEnum):
    """Units in which values are shown."""

    metric = "metric"
    us = "us"
    both = "both"


class PaperSize(StrEnum):
    """Paper on which a plan is printed."""

    a4 = "a4"
    letter = "letter"


SpecFile = Annotated[Path, typer.Argument(help="The boat's spec, a YAML file.")]
UnitsOption = Annotated[Units, typer.Option(help="Units in which values are shown.")]
PacksOption = Annotated[
    list[Path] | None,
    typer.Option("--pack", help="A folder of packs of your own; may be given more than once."),
]
PaperOption = Annotated[PaperSize, typer.Option(help="Paper size.")]


@contextmanager
def _input_faults() -> Iterator[None]:
    """Say every fault of the user's input and leave with exit code 2."""
    try:
        yield
    except InputProblems as faults:
        say_problems(faults.problems)
        raise typer.Exit(2) from faults


def _pdf(document: Document, digest: str, what: str) -> bytes | None:
    """Make a PDF with progress on the terminal; where that can't be done, say why in one line."""
    from plangen.print.pdf import PrintingUnavailable, write_pdf

    try:
        with errors.status(f"{what}: starting the printer") as status:
            return write_pdf(document, digest, lambda step: status.update(f"{what}: {step}"))
    except PrintingUnavailable as reason:
        errors.print(str(reason), markup=False)
        return None


def _paper(paper: PaperSize) -> str:
    return "A4" if paper is PaperSize.a4 else "letter"


@app.command()
def start(
    hull: Annotated[str, typer.Argument(help=f"Hull type: {', '.join(HULL_TYPES)}.")],
    out: Annotated[Path, typer.Option(help="File to write.")] = Path("spec.yaml"),
) -> None:
    """Write a commented starter spec.

    Example: plangen start sailing-catamaran --out halcyon.yaml
    """
    from plangen.spec.schema import spec_schema

    with _input_faults():
        if hull not in HULL_TYPES:
            raise InputProblems(
                [
                    Problem(
                        Mark("start"),
                        "HULL",
                        f"{hull!r}",
                        ", ".join(HULL_TYPES),
                        nearest_name(hull, HULL_TYPES),
                    )
                ]
            )
        if out.exists():
            raise InputProblems(
                [
                    Problem(
                        Mark(str(out)), "", "the file is there already", "the name of a new file, with --out"
                    )
                ]
            )
        text = starter_text(hull, load_library(jurisdictions=()).starters.get(hull, {}))
    write_whole(out, text.encode())
    write_whole(
        out.parent / SCHEMA_FILE, (json.dumps(spec_schema(), indent=1, ensure_ascii=False) + "\n").encode()
    )
    say(f"wrote {out} and {out.parent / SCHEMA_FILE} (for your editor)")


@app.command()
def questions(
    spec: SpecFile,
    pdf: Annotated[
        Path | None, typer.Option(help="Also write a one-page PDF for the builder or seller.")
    ] = None,
    units: UnitsOption = Units.metric,
    pack: PacksOption = None,
    paper: PaperOption = PaperSize.a4,
) -> None:
    """List what the spec leaves open, ordered by how many expected values depend on it.

    Example: plangen questions specs/catamaran.yaml --pdf questions.pdf
    """
    with _input_faults():
        plan = api.draft(api.load_spec(spec, pack or ()), units.value)
    say_questions(plan)
    if pdf is not None:
        from plangen.print.html import questions_document

        content = _pdf(questions_document(plan, _paper(paper)), plan.digest, "questions")  # type: ignore[arg-type]
        if content is not None:
            write_whole(pdf, content)
            say(f"wrote {pdf}")


@app.command()
def draft(
    specs: Annotated[list[Path], typer.Argument(help="One or more specs.", metavar="SPEC...")],
    out: Annotated[Path, typer.Option(help="Folder in which each boat gets a folder of her own.")] = Path(
        "plans"
    ),
    make_pdf: Annotated[
        bool, typer.Option("--pdf/--no-pdf", help="Whether to print the plan as PDF.")
    ] = True,
    units: UnitsOption = Units.metric,
    pack: PacksOption = None,
    paper: PaperOption = PaperSize.a4,
    hours: Annotated[
        float | None, typer.Option(min=1, max=18, help="Hours of each day, in place of the spec's.")
    ] = None,
    people: Annotated[
        int | None, typer.Option(min=1, max=40, help="How many people do the checks, in place of the spec's.")
    ] = None,
    days: Annotated[
        int | None, typer.Option(min=1, max=30, help="Days of the trial, in place of the spec's.")
    ] = None,
    priority: Annotated[
        int | None, typer.Option(min=1, max=3, help="1 what decides, 2 a thorough trial too, 3 everything.")
    ] = None,
) -> None:
    """Draft the trial plan: plan.yaml, plan.pdf, sheets.xlsx, the sessions as calendar, and a blank findings.yaml in a folder per boat.

    With hours and people, the checks with most risk for their minutes are chosen and put into a timetable.
    Where a plan is there already, what changed is said and the findings are kept.

    Example: plangen draft specs/catamaran.yaml --hours 10 --people 2 --days 1
    """
    from plangen.print.sheets_table import sheets_xlsx

    instead = Instead(hours, people, days, priority)
    plans: list[Plan] = []
    faults: list[Problem] = []
    for path in specs:
        try:
            plans.append(api.draft(api.load_spec(path, pack or ()), units.value, instead))
        except InputProblems as found:
            faults.extend(found.problems)
    with _input_faults():
        folders, more = _folders(plans, out) if len(plans) == len(specs) else ([], [])
        faults += [*_same_names(specs, plans), *more]
        if faults:
            raise InputProblems(faults)
    for plan, folder in zip(plans, folders, strict=True):
        papers = {"sheets.xlsx": sheets_xlsx(plan)} | (_papers(plan, paper) if make_pdf else {})
        with _input_faults():
            written = write_draft(plan, folder, papers)
        say_plan(plan, written.files)
        say_draft(plan, folder, written)


def _folders(plans: list[Plan], out: Path) -> tuple[list[Path], list[Problem]]:
    """Return each boat's folder, and what is wrong with the folders that are there."""
    folders: list[Path] = []
    faults: list[Problem] = []
    for plan in plans:
        try:
            folders.append(folder_of(plan, out))
            try_carry(plan, folders[-1])
        except InputProblems as found:
            faults.extend(found.problems)
    return folders, faults


def _papers(plan: Plan, paper: PaperSize) -> dict[str, bytes]:
    """Print what is carried and what is looked up, by their names; nothing where that can't be done."""
    from plangen.print.carried.document import carried_document
    from plangen.print.methods.document import methods_document

    documents = {
        "plan.pdf": carried_document(plan, _paper(paper)),  # type: ignore[arg-type]
        "methods.pdf": methods_document(plan, _paper(paper)),  # type: ignore[arg-type]
    }
    printed = {
        name: _pdf(document, plan.digest, f"{plan.boat.name}, {name}") for name, document in documents.items()
    }
    return {name: content for name, content in printed.items() if content is not None}


def _same_names(specs: list[Path], plans: list[Plan]) -> list[Problem]:
    names = [slug(plan.boat.name) for plan in plans]
    fault, accepted = "another spec of this run has the same boat's name", "a name of her own for each boat"
    return [
        Problem(Mark(str(specs[index])), "vessel.name", fault, accepted)
        for index in range(len(names))
        if names[index] in names[:index]
    ]


@app.command()
def collect(
    folder: Annotated[Path, typer.Argument(help="The boat's folder, with plan.yaml.", metavar="FOLDER")],
    filled: Annotated[
        list[Path],
        typer.Argument(
            help="Filled PDFs of her plan, and line lists as .txt, .csv or .xlsx; - for standard input.",
            metavar="FILLED...",
        ),
    ],
) -> None:
    """Read filled PDFs and line lists into findings.yaml; what stands there stays, and what two people found is kept twice.

    A line list has a reading a line, by the code on the sheet: 7.3b 14,1 photo 12.

    Example: plangen collect plans/second-wind filled-deck.pdf notes.txt
    """
    with _input_faults():
        require_plan(folder)
        collected, path = take_forms(folder, _returned(filled))
    for form in collected.forms:
        say_collected(form)
    say(f"wrote {path}" if path is not None else "nothing new in these files")
    if any(form.disagreements or (form.is_list and form.faults) for form in collected.forms):
        raise typer.Exit(1)


def _returned(paths: list[Path]) -> list[Returned]:
    """Read all that comes back from the boat, or say what is wrong with any of it."""
    from plangen.collect.pdf_fields import LARGEST_PDF
    from plangen.collect.returned import read_returned

    forms: list[Returned] = []
    faults: list[Problem] = []
    for path in paths:
        try:
            if str(path) == "-":
                forms.append(read_returned(sys.stdin.buffer.read(LARGEST_PDF + 1), "standard input"))
                continue
            with path.open("rb") as stream:
                forms.append(read_returned(stream.read(LARGEST_PDF + 1), str(path)))
        except OSError as error:
            faults.append(Problem(Mark(str(path)), "", f"the file can't be read: {error.strerror}"))
        except InputProblems as found:
            faults.extend(found.problems)
    if faults:
        raise InputProblems(faults)
    return forms


@app.command()
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

    from plangen.print.assessed import assessment_files, assessment_papers

    with _input_faults():
        plan, findings = plan_and_findings(folder)
    assessment = api.assess_findings(plan, findings)
    contents = assessment_files(assessment)
    if make_pdf:
        for name, document in assessment_papers(plan, assessment, folder, _paper(paper)).items():  # type: ignore[arg-type]
            pdf = _pdf(document, sha256(document.html.encode()).hexdigest(), name)
            contents |= {name: pdf} if pdf is not None else {}
    with hold(folder):
        files = write_all(folder, contents)
    say_assessment(plan, findings, assessment, files)
    if not assessment.handover.advisable:
        raise typer.Exit(1)


@app.command()
def compare(
    first: Annotated[Path, typer.Argument(help="A plan.yaml, or the folder that holds it.", metavar="A")],
    second: Annotated[Path, typer.Argument(help="Another one.", metavar="B")],
) -> None:
    """Compare two plans: checks added, gone, and changed in what they expect.

    Example: plangen compare plans/hull-101 plans/hull-102
    """
    with _input_faults():
        before, after = (api.load_plan(path) for path in (first, second))
    say_comparison(api.compare(before, after))


@app.command()
def why(
    spec: SpecFile,
    check: Annotated[str, typer.Argument(help="Id of a check, as rule@item.")],
    units: UnitsOption = Units.metric,
    pack: PacksOption = None,
) -> None:
    """Say why a check is in the plan and where each expected value comes from.

    Example: plangen why specs/catamaran.yaml holding-tank-lockout@port-forward-head
    """
    with _input_faults():
        reason = api.explain(api.load_spec(spec, pack or ()), check, units.value)
    say_reason(reason)


@packs_app.callback()
def packs(context: typer.Context, pack: PacksOption = None) -> None:
    """List the packs with their editions and sources; `packs check` checks them."""
    if context.invoked_subcommand is None:
        with _input_faults():
            library = load_library(pack or ())
        say_packs(library)


@packs_app.command()
def check(
    folder: Annotated[
        Path | None, typer.Argument(help="A folder of packs of your own; without it, the shipped packs.")
    ] = None,
    shipped: Annotated[
        bool,
        typer.Option(
            "--shipped", help="Also what is asked of shipped packs: whole sources and rules, no orphans."
        ),
    ] = False,
) -> None:
    """Check packs: every name, key, unit, formula, instrument, source and rule reference.

    On sample boats it also finds limits that depend on the boat and that the instrument can't decide.

    Example: plangen packs check my-packs
    """
    from plangen.api import undecidable_on_samples
    from plangen.packs.lint import check_library
    from plangen.packs.lint_shipped import check_shipped

    try:
        library = load_library([folder] if folder else ())
        problems = check_shipped(library) if shipped else check_library(library)
        if not any(not problem.is_warning for problem in problems):
            problems += undecidable_on_samples(library)
    except InputProblems as unreadable:
        problems = list(unreadable.problems)
    if say_pack_problems(problems):
        raise typer.Exit(1)
    rules = sum(len(pack.model.checks) for pack in library.rules)
    say(
        f"no faults, {len(problems)} warnings: {len(library.rules)} systems, {rules} rules, {len(library.law)} law packs, {len(library.stores)} stores packs"
    )


def _version(show: bool) -> None:
    if show:
        console.print(f"plangen {__version__}")
        raise typer.Exit


@app.callback()
def root(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Show the version.")
    ] = False,
) -> None:
    """Hold the options of the program itself."""


def main() -> None:
    """Run the program."""
    gc.disable()  # one short run that keeps nearly all it makes: collecting garbage only costs time
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")  # a terminal that can't show a letter shows a mark instead
    try:
        app()
    except OSError as error:
        say_system_fault(error)
        sys.exit(2)


def run() -> None:
    """Run the program as a process of its own, which ends without taking down what the system frees anyway."""
    try:
        main()
    except SystemExit as end:
        with suppress(OSError):
            sys.stdout.flush()
            sys.stderr.flush()
        if isinstance(end.code, int):
            os._exit(end.code)
        raise
