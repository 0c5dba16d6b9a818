"""`plangen draft`: the trial plan in a folder per boat."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from plangen.cli.draft_folder import Wanted, draft_folder
from plangen.cli.faults import input_faults
from plangen.cli.options import HouseOption, PacksOption, PaperOption, PaperSize, UnitsOption, units_name
from plangen.cli.printing import paper_name, print_pdf

if TYPE_CHECKING:
    from plangen.folder import Prepared
    from plangen.plan.model import Plan
    from plangen.print.html import Document
    from plangen.spec.problems import Problem


def draft(
    specs: Annotated[
        list[Path], typer.Argument(help="One or more specs, or a folder of them.", metavar="SPEC...")
    ],
    out: Annotated[Path, typer.Option(help="Folder in which each boat gets a folder of her own.")] = Path(
        "plans"
    ),
    make_pdf: Annotated[
        bool, typer.Option("--pdf/--no-pdf", help="Whether to print the plan as PDF.")
    ] = True,
    units: UnitsOption = None,
    pack: PacksOption = None,
    paper: PaperOption = None,
    house: HouseOption = None,
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
    """Draft the trial plan: plan.yaml, plan.pdf, plan.html for a telephone, sheets.xlsx, the sessions as calendar, and a blank findings.yaml in a folder per boat.

    With hours and people, the checks with most risk for their minutes are chosen and put into a timetable.
    Where a plan is there already, what changed is said and the findings are kept. Of a folder every hull is drafted,
    several at a time; models and options that they extend are not.

    Example: plangen draft specs/catamaran.yaml --hours 10 --people 2 --days 1
    """
    from plangen import api
    from plangen.folder import write_draft
    from plangen.plan.issues import changed_in_place
    from plangen.print.without_printer import files_without_printer
    from plangen.schedule.wishes import Instead
    from plangen.spec.problems import InputProblems
    from plangen.terminal.drafted import say_draft, say_plan

    instead = Instead(hours, people, days, priority)
    if any(path.is_dir() for path in specs):
        _folder_alone(specs)
        wanted = Wanted(out, units_name(units), tuple(pack or ()), house, instead, make_pdf, paper)
        draft_folder(specs[0], wanted)
        return
    plans: list[Plan] = []
    faults: list[Problem] = []
    for path in specs:
        try:
            boat = api.load_spec(path, pack or (), house)
            plans.append(api.draft(boat, units_name(units), instead, api.earlier_hulls(boat, out)))
        except InputProblems as found:
            faults.extend(found.problems)
    with input_faults():
        prepared, more = _prepared(plans, out) if len(plans) == len(specs) else ([], [])
        faults += [*_same_names(specs, plans), *more]
        if faults:
            raise InputProblems(faults)
    needs_attention = False
    for plan, (folder, made) in zip(plans, prepared, strict=True):
        papers = files_without_printer(plan) | (_papers(plan, paper) if make_pdf else {})
        with input_faults():
            written = write_draft(plan, folder, papers, made)
        say_plan(plan, written.files)
        say_draft(plan, folder, written)
        if written.before is not None and changed_in_place(written.before, plan):
            needs_attention = True
    if needs_attention:
        raise typer.Exit(1)


def _folder_alone(specs: list[Path]) -> None:
    from plangen.spec.problems import InputProblems, Mark, Problem

    if len(specs) > 1:
        found = "a folder beside other specs"
        with input_faults():
            raise InputProblems([Problem(Mark("draft"), "SPEC", found, "one folder, or specs")])


def _prepared(plans: list[Plan], out: Path) -> tuple[list[tuple[Path, Prepared]], list[Problem]]:
    """Return each boat's folder with what it will hold, and what is wrong with the folders that are there."""
    from plangen.folder import folder_of, prepare
    from plangen.spec.problems import InputProblems

    prepared: list[tuple[Path, Prepared]] = []
    faults: list[Problem] = []
    for plan in plans:
        try:
            folder = folder_of(plan, out)
            prepared.append((folder, prepare(plan, folder)))
        except InputProblems as found:
            faults.extend(found.problems)
    return prepared, faults


def _papers(plan: Plan, paper: PaperSize | None) -> dict[str, bytes]:
    """Print what is carried and what is looked up, by their names; nothing where that can't be done."""
    printed = {
        name: print_pdf(document, plan.digest, f"{plan.boat.name}, {name}")
        for name, document in documents_of(plan, paper_name(paper, plan)).items()
    }
    return {name: content for name, content in printed.items() if content is not None}


def documents_of(plan: Plan, paper: Literal["A4", "letter"]) -> dict[str, Document]:
    """Return what is carried, what is looked up, and a yard's commissioning sheet, by the names of their PDFs."""
    from plangen.print.carried.document import carried_document
    from plangen.print.commissioning import commissioning_document
    from plangen.print.methods.document import methods_document

    documents = {"plan.pdf": carried_document(plan, paper), "methods.pdf": methods_document(plan, paper)}
    if plan.purpose == "commissioning":
        documents["commissioning.pdf"] = commissioning_document(plan, paper)
    return documents


def _same_names(specs: list[Path], plans: list[Plan]) -> list[Problem]:
    from plangen.spec.names import slug
    from plangen.spec.problems import Mark, Problem

    names = [slug(plan.boat.name) for plan in plans]
    fault, accepted = "another spec of this run has the same boat's name", "a name of her own for each boat"
    return [
        Problem(Mark(str(specs[index])), "vessel.name", fault, accepted)
        for index in range(len(names))
        if names[index] in names[:index]
    ]
