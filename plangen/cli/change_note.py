"""`plangen change-note`: what a new issue of a model changes, and which hulls have to be checked again for it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from plangen.cli.faults import input_faults
from plangen.cli.options import PacksOption

if TYPE_CHECKING:
    from plangen.api import Boat
    from plangen.plan.change_note import HullNote
    from plangen.plan.model import Plan


def change_note(
    old: Annotated[Path, typer.Argument(help="Spec with the issue before, as model-1.yaml.", metavar="OLD")],
    new: Annotated[Path, typer.Argument(help="Spec with the new issue, as model.yaml.", metavar="NEW")],
    hulls: Annotated[Path, typer.Argument(help="Folder with the specs of the hulls.", metavar="HULLS")],
    plans: Annotated[
        Path, typer.Option(help="Folder with the hulls' folders, for what is done already.")
    ] = Path("plans"),
    out: Annotated[Path, typer.Option(help="File to write the note to.")] = Path("change-note.txt"),
    pack: PacksOption = None,
) -> None:
    """Say what a new issue of a model or an option changes in the plans, and which hulls have to be checked again for it.

    Each hull of the folder is drafted from both issues, so that her options count. Nothing in her own folder changes.

    Example: plangen change-note specs/yard/model-1.yaml specs/yard/model.yaml specs/yard
    """
    from plangen import api
    from plangen.files import write_whole
    from plangen.plan.change_note import ChangeNote, change_note_text
    from plangen.spec.hulls import hull_specs
    from plangen.spec.problems import InputProblems
    from plangen.terminal.console import errors, say

    packs = tuple(pack or ())
    with input_faults():
        models = [api.load_spec(path, packs) for path in (old, new)]
        found = hull_specs(hulls)
        if found.problems:
            raise InputProblems(found.problems)
    before, after = (api.draft_whole(model) for model in models)
    notes: list[HullNote] = []
    with errors.status("drafting the hulls from both issues") as status, input_faults():
        for number, path in enumerate(found.hulls, start=1):
            status.update(f"{number} of {len(found.hulls)} hulls")
            note = _note(path, (old, new), plans, packs)
            notes += [note] if note is not None else []
    issue = models[1].spec.spec.issue
    reason = issue.note or "" if issue is not None else ""
    text = change_note_text(
        ChangeNote(
            _words(old, models[0]), _words(new, models[1]), reason, api.compare(before, after), tuple(notes)
        )
    )
    say(text.rstrip())
    write_whole(out, text.encode())
    say(f"wrote {out}")


def _words(path: Path, model: Boat) -> str:
    issue = model.spec.spec.issue
    if issue is None:
        return path.name
    return f"{path.name}, issue {issue.number}" + (f" of {issue.date}" if issue.date else "")


def _note(path: Path, files: tuple[Path, Path], plans: Path, packs: Sequence[Path]) -> HullNote | None:
    """Return what the new issue means for one hull; nothing where she extends neither of the two."""
    from plangen import api
    from plangen.plan.change_note import hull_note

    old, new = (file.resolve() for file in files)
    own = api.load_spec(path, packs)
    mine = {(path.parent / name).resolve() for name in own.spec.files}
    if not mine & {old, new}:
        return None
    applies = new in mine
    plan_before, plan_after = (
        api.draft_whole(api.load_spec(path, packs, compared=(frozenset((old, new)), one)))
        for one in (old, new)
    )
    return hull_note(plan_before, plan_after, applies, _why(own, applies), _results(plan_after, plans))


def _why(own: Boat, applies: bool) -> str:
    spec = own.spec.spec
    if spec.drafted_from:
        return "by her drafted_from"
    if spec.vessel.hull_number is not None:
        return f"hull {spec.vessel.hull_number}"
    return "her spec extends it" if applies else "her spec extends the issue before"


def _results(plan: Plan, plans: Path) -> set[str] | None:
    """Return the checks of a hull for which something was recorded; nothing where she has no folder."""
    from plangen.folder import FINDINGS, PLAN, folder_of, plan_and_findings

    folder = folder_of(plan, plans)
    if not (folder / PLAN).is_file() or not (folder / FINDINGS).is_file():
        return None
    _, findings = plan_and_findings(folder)
    return {id for id in findings.checks if findings.attempts(id)}
