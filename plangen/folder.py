"""A boat's folder: which one is hers, and how plan and findings are written into it without losing what comes meanwhile."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from plangen.collect.output_names import unfilled_name
from plangen.files import go_on, hold, write_all
from plangen.findings.blank import findings_text
from plangen.plan.boat_identity import (
    BoatIdentity,
    alike_but_for_name,
    differences,
    identity_of,
    may_be_same,
)
from plangen.plan.model import Boat, Plan
from plangen.plan.read import keep_plan, read_boat, read_plan
from plangen.plan.yaml_text import yaml_text
from plangen.schedule.calendar import calendar_of
from plangen.spec.names import folder_name
from plangen.spec.ordinary_files import read_some
from plangen.spec.problems import InputProblems, Mark, Problem
from plangen.spec.yaml_source import LARGEST_DERIVED_FILE, read_text_file

if TYPE_CHECKING:
    from plangen.collect.collect import Collected, Returned
    from plangen.collect.field_photos import PhotoThere
    from plangen.findings.carry import Carried
    from plangen.findings.model import Findings

PLAN, FINDINGS, SESSIONS = "plan.yaml", "findings.yaml", "sessions.ics"
#: The folder beside the findings in which photos lie.
PHOTOS = "photos"
#: What is printed of a plan.
PRINTED = ("plan.pdf", "methods.pdf", "commissioning.pdf")
#: So often findings that somebody saves at the very moment of writing are read again.
_TRIES = 5


@dataclass(frozen=True)
class Written:
    """The files of a drafted plan, the plan that was there before, what became of its findings, and papers of another plan."""

    files: tuple[Path, ...]
    before: Plan | None
    carried: Carried | None
    outdated: tuple[Path, ...] = ()


def folder_of(plan: Plan, out: Path) -> Path:
    """Return the boat's folder: the one that bears her name, or wherever her plan is.

    That is where she was drafted under an earlier name, or a folder that somebody gave another name. Raises
    `InputProblems` where another boat of the same name has the folder, and where several folders hold her plan.
    """
    named = out / folder_name(plan.boat.name)
    there = _boat_in(named)
    if there is not None:
        _refuse_stranger(there, plan, named)
    if there is not None or named.exists() or not out.is_dir():
        return named
    boats = _boats_in(out)
    former = [out / folder_name(name) for name in plan.boat.formerly]
    hers = [folder for folder, boat in boats.items() if may_be_same(boat, identity_of(plan.boat))]
    if len(hers) > 1 and not any(folder in hers for folder in former):
        found = f"plans of {plan.boat.name} in several folders: {', '.join(folder.name for folder in hers)}"
        accepted = f"her plan in one folder only, or that folder named {named.name}"
        raise InputProblems([Problem(Mark(str(out)), "", found, accepted)])
    return next((folder for folder in (*former, *hers) if folder in hers), named)


def perhaps_renamed(plan: Plan, folder: Path) -> tuple[Path, str] | None:
    """Return the folder and name of the one boat beside hers that is like her in all but the name.

    Asked where her folder is new: the spec may have a new name for a boat that was drafted before.
    """
    alike = [
        (other, boat.name)
        for other, boat in _boats_in(folder.parent).items()
        if other != folder and alike_but_for_name(boat, identity_of(plan.boat))
    ]
    return alike[0] if len(alike) == 1 else None


def _boats_in(out: Path) -> dict[Path, BoatIdentity]:
    """Return the folders that hold a plan, and whose it is; a plan that can't be read is passed over."""
    folders = [path.parent for path in sorted(out.glob(f"*/{PLAN}")) if not path.parent.name.startswith(".")]
    boats = {folder: read_boat(folder / PLAN) for folder in folders}
    return {folder: identity_of(boat) for folder, boat in boats.items() if boat is not None}


def _boat_in(folder: Path) -> Boat | None:
    """Return whose plan a folder holds; nothing where it holds none that can be read."""
    if not (folder / PLAN).is_file():
        return None
    boat = read_boat(folder / PLAN)
    if boat is None and (plan := plan_before(folder)) is not None:
        boat = plan.boat
    return boat


def _refuse_stranger(there: Boat, plan: Plan, folder: Path) -> None:
    other = differences(identity_of(there), identity_of(plan.boat))
    if other or not may_be_same(identity_of(there), identity_of(plan.boat)):
        found = f"the plan of another boat of that name: {'; '.join(other) or there.name}"
        accepted = (
            "another folder, with --out; if she is the same boat and was corrected, move this plan.yaml away"
        )
        raise InputProblems([Problem(Mark(str(folder / PLAN)), "", found, accepted)])


def plan_before(folder: Path) -> Plan | None:
    """Return the plan that is there already; one of an older version of the program counts as none."""
    path = folder / PLAN
    if not path.is_file():
        return None
    try:
        return read_plan(path)
    except InputProblems:
        return None


@dataclass(frozen=True)
class Prepared:
    """What a boat's folder will hold, made of the plan and the findings that were there."""

    contents: Mapping[str, bytes]
    before: Plan | None
    carried: Carried | None
    plan_read: bytes | None
    findings_read: bytes | None

    def is_still_of(self, folder: Path) -> bool:
        """Tell whether what is there is still what this was made of."""
        return (
            _bytes(folder / FINDINGS) == self.findings_read
            and _bytes(folder / PLAN) == self.plan_read
            and (self.carried is not None) == _is_there(folder / FINDINGS)
        )


def prepare(plan: Plan, folder: Path) -> Prepared:
    """Return what a boat's folder will hold, with the findings that are there carried over to the plan.

    Raises `InputProblems` where they can't be carried over.
    """
    if not (folder / PLAN).is_file():
        return _prepared(plan, folder)
    with hold(folder):
        return _prepared(plan, folder)


def _prepared(plan: Plan, folder: Path) -> Prepared:
    path = folder / FINDINGS
    plan_read, read = _bytes(folder / PLAN), _bytes(path)
    before = plan_before(folder)
    carried = None
    if _is_there(path):
        from plangen.findings.carry import carry

        text = read_text_file(path, str(path), LARGEST_DERIVED_FILE)
        carried = carry(text, str(path), before, plan)
    heading = f"Trial plan of {' '.join(plan.boat.name.split())}. Derived: change the spec, not this file."
    text = yaml_text(plan.plain(), heading)
    contents = {
        FINDINGS: (carried.text if carried else findings_text(plan)).encode(),
        PLAN: text.encode(),
    }
    if (sessions := calendar_of(plan)) is not None:
        contents[SESSIONS] = sessions
    return Prepared(contents, before, carried, plan_read, read)


def write_draft(
    plan: Plan, folder: Path, papers: Mapping[str, bytes], prepared: Prepared | None = None
) -> Written:
    """Write a drafted plan into a boat's folder, with the findings that are there by now carried over.

    `papers` are PDFs and workbooks by their names; one that somebody has filled in is never written over. What was
    prepared is used as long as nobody changed what is in the folder.

    Raises `InputProblems` where the findings can't be carried over; nothing is written then.
    """
    folder.mkdir(parents=True, exist_ok=True)
    with hold(folder):
        for _ in range(_TRIES):
            if prepared is None or not prepared.is_still_of(folder):
                prepared = _prepared(plan, folder)
            contents = {
                **prepared.contents,
                **{unfilled_name(folder, name): content for name, content in papers.items()},
            }
            if prepared.is_still_of(folder):
                files = tuple(write_all(folder, contents))
                keep_plan(plan, prepared.contents[PLAN].decode())
                outdated = _of_another_plan(folder, plan, files)
                return Written(files, prepared.before, prepared.carried, outdated)
    raise InputProblems([_busy(folder)])


def _of_another_plan(folder: Path, plan: Plan, written: Sequence[Path]) -> tuple[Path, ...]:
    """Return the papers in a folder that were printed of another plan than the one that lies there now."""
    papers = (folder / name for name in PRINTED)
    return tuple(
        path for path in papers if path not in written and path.is_file() and not _is_paper_of(path, plan)
    )


def _is_paper_of(path: Path, plan: Plan) -> bool:
    from plangen.collect.pdf_fields import LARGEST_PDF, printed_of

    return printed_of(read_some(path, LARGEST_PDF)) == plan.digest


def _is_there(path: Path) -> bool:
    return path.is_symlink() or path.exists()


def _bytes(path: Path) -> bytes | None:
    return read_some(path, LARGEST_DERIVED_FILE) if path.is_file() else None


@contextmanager
def _held(folder: Path) -> Iterator[None]:
    if not folder.is_dir():
        found = "no folder" if folder.exists() else "there is no such folder"
        raise InputProblems([Problem(Mark(str(folder)), "", found, "the folder of a boat, with plan.yaml")])
    with hold(folder):
        yield


def _busy(folder: Path) -> Problem:
    return Problem(
        Mark(str(folder / FINDINGS)), "", "is saved again and again while it is written", "a moment's rest"
    )


def require_plan(folder: Path) -> None:
    """Raise `InputProblems` where a folder holds no plan."""
    if not (folder / PLAN).is_file():
        read_plan(folder / PLAN)


def take_forms(folder: Path, forms: Sequence[Returned]) -> tuple[Collected, Path | None]:
    """Merge filled forms and line lists into the findings of a folder; the path is that of the file, where anything was new.

    Raises `InputProblems` for forms of another boat and findings with faults; nothing is written then.
    """
    from plangen.collect.collect import collect

    path = folder / FINDINGS
    with _held(folder):
        go_on(folder / PHOTOS)
        plan = read_plan(folder / PLAN)
        for _ in range(_TRIES):
            read = _bytes(path)
            text = read_text_file(path, str(path), LARGEST_DERIVED_FILE) if read is not None else None
            collected = collect(text or findings_text(plan), str(path), plan, forms, _photo_in(folder))
            if _bytes(path) == read:
                _write_photos(folder, collected.photos)
                collected = _with_verdicts_shown(collected, plan, forms)
                if collected.text == text:
                    return collected, None
                write_all(folder, {FINDINGS: collected.text.encode()})
                return collected, path
    raise InputProblems([_busy(folder)])


def _photo_in(folder: Path) -> PhotoThere:
    """Return what gives the content of a photo in a folder."""
    return lambda name: _bytes(folder / PHOTOS / name)


def _write_photos(folder: Path, photos: Mapping[str, bytes]) -> None:
    """Write the photos that aren't there yet."""
    new = {name: content for name, content in photos.items() if _bytes(folder / PHOTOS / name) != content}
    if new:
        write_all(folder / PHOTOS, new)


def _with_verdicts_shown(collected: Collected, plan: Plan, forms: Sequence[Returned]) -> Collected:
    """Return what was collected, with the verdicts that a field page showed otherwise than the assessment."""
    from plangen.assess.page_verdicts import shown_otherwise
    from plangen.collect.field_export import FieldExport

    told = tuple(
        replace(taken, shown_otherwise=shown_otherwise(plan, form))
        if isinstance(form, FieldExport)
        else taken
        for taken, form in zip(collected.forms, forms, strict=True)
    )
    return replace(collected, forms=told)


def plan_and_findings(folder: Path) -> tuple[Plan, Findings]:
    """Return the plan and the findings of a folder, which belong together.

    Raises `InputProblems` with every fault of the files.
    """
    from plangen.findings.read import read_findings

    path = folder / FINDINGS
    with _held(folder):
        plan = read_plan(folder / PLAN)
        text = read_text_file(path, str(path), LARGEST_DERIVED_FILE)
    return plan, read_findings(text, str(path), plan)


def digest_of_files(folder: Path, register: Path | None) -> str:
    """Return a digest of what an assessment is made of: plan, findings, instrument register, and the rules that judge them."""
    digest = hashlib.sha256(_what_judges())
    for path in (folder / PLAN, folder / FINDINGS, *([register] if register else [])):
        content = _bytes(path) or b""
        digest.update(f"{len(content)} ".encode())
        digest.update(content)
    return digest.hexdigest()


@cache
def _what_judges() -> bytes:
    """Return a digest of the program's formulas and of how it judges: by others the same readings may come to another verdict."""
    own, digest = Path(__file__).parent, hashlib.sha256()
    for path in sorted(
        path for room in ("assess", "findings", "formulas") for path in own.glob(f"{room}/**/*.py")
    ):
        digest.update(f"{path.relative_to(own).as_posix()} ".encode())
        digest.update(path.read_bytes())
    return digest.digest()
