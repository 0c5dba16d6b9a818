"""Collecting filled forms and line lists into a findings file: several people's, one after another."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from plangen.collect.field_export import FieldExport
from plangen.collect.field_photos import PhotoThere, kept_names
from plangen.collect.field_said import field_said
from plangen.collect.form_content import Said, what_is_said
from plangen.collect.line_list import list_said
from plangen.collect.list_lines import LineList
from plangen.collect.merge import merge
from plangen.collect.pdf_fields import FilledForm
from plangen.collect.reconcile import Action
from plangen.findings.identity import with_ids
from plangen.findings.read import read_findings
from plangen.plan.boat_identity import differences, identity_of, may_be_same
from plangen.plan.model import Plan
from plangen.spec.problems import InputProblems, Mark, Problem

#: What comes back from the boat: a filled form, a line list, or what a field page handed over.
Returned = FilledForm | LineList | FieldExport


@dataclass(frozen=True)
class FormTaken:
    """What one form or line list brought.

    `no_digest` says that a line list names no plan, so that its codes were read as the folder's plan has them;
    `shown_otherwise` names readings for which a field page showed another verdict than the assessment gives.
    """

    name: str
    other_plan: str | None
    pages_missing: int
    undated_retest: bool
    taken: int
    known: int
    apart: tuple[str, ...]
    remarks: tuple[str, ...]
    faults: tuple[str, ...]
    disagreements: tuple[str, ...]
    also_found: tuple[str, ...] = ()
    is_list: bool = False
    is_page: bool = False
    no_digest: bool = False
    photos: int = 0
    shown_otherwise: tuple[str, ...] = ()


@dataclass(frozen=True)
class Collected:
    """The findings with all that the forms say, what each form brought, and the photos by their names."""

    text: str
    forms: tuple[FormTaken, ...]
    photos: Mapping[str, bytes] = field(default_factory=dict)


def collect(
    text: str, name: str, plan: Plan, forms: Sequence[Returned], photo_there: PhotoThere = lambda name: None
) -> Collected:
    """Return the text of a findings file with all that filled forms, line lists and field pages say.

    `photo_there` gives the content of a photo that the boat's folder holds under a name. Raises `InputProblems` for a form of another boat and for findings that have faults, before anything is
    taken from any form.
    """
    strangers = [
        _stranger(form, plan) for form in forms if not isinstance(form, LineList) and not _is_of(form, plan)
    ]
    if strangers:
        raise InputProblems(strangers)
    taken = []
    photos: dict[str, bytes] = {}
    text = with_ids(text, name, plan)
    for form in forms:
        if isinstance(form, FilledForm):
            text, one = _take(text, name, plan, form)
        elif isinstance(form, FieldExport):
            names, contents = kept_names(form.photos, photos, photo_there)
            photos |= contents
            text, one = _take_export(text, name, plan, form, names)
        else:
            text, one = _take_list(text, name, plan, form)
        taken.append(one)
    return Collected(text, tuple(taken), photos)


def _is_of(form: FilledForm | FieldExport, plan: Plan) -> bool:
    return form.digest == plan.digest or may_be_same(form.boat, identity_of(plan.boat))


def _stranger(form: FilledForm | FieldExport, plan: Plan) -> Problem:
    other = differences(form.boat, identity_of(plan.boat))
    found = f"a form of {form.boat.name!r} (plan {form.digest[:8]}), another boat"
    found += f": {'; '.join(other)}" if other else ""
    return Problem(Mark(form.name), "", found, f"a form of {plan.boat.name!r}")


def _take(text: str, name: str, plan: Plan, form: FilledForm) -> tuple[str, FormTaken]:
    said = what_is_said(form, plan)
    is_other = form.digest != plan.digest
    merged = merge(text, name, plan, said, form.is_retest, is_other)
    actions = merged.actions.values()
    there = {field.split("/")[1] for field in form.fields if field.startswith("check/")}
    missing = sum(not there & {check.id, *check.formerly} for check in plan.checks)
    return merged.text, FormTaken(
        name=form.name,
        other_plan=form.digest[:8] if is_other else None,
        pages_missing=0 if is_other or form.is_retest else missing,
        undated_retest=form.is_retest
        and form.attempts is None
        and any(action.what == "nothing" and action.attempt.when is None for action in actions),
        taken=sum(action.what != "nothing" for action in actions),
        known=sum(action.what == "nothing" for action in actions),
        apart=merged.apart,
        remarks=merged.remarks,
        faults=said.faults,
        disagreements=_disagreements(text, name, plan, merged.actions),
        also_found=tuple(one.what for one in merged.also_found),
    )


def _take_list(text: str, name: str, plan: Plan, typed: LineList) -> tuple[str, FormTaken]:
    """Merge the parts of a line list one after another, each of one person and day."""
    listed = list_said(typed, plan)
    merged = _merged_parts(text, name, plan, listed.parts, listed.is_retest, is_other=False)
    return merged.text, FormTaken(
        name=typed.name,
        other_plan=listed.others[0][:8] if listed.others else None,
        pages_missing=0,
        undated_retest=listed.is_retest
        and any(one.what == "nothing" and one.attempt.when is None for one in merged.actions),
        taken=sum(one.what != "nothing" for one in merged.actions),
        known=sum(one.what == "nothing" for one in merged.actions),
        apart=(),
        remarks=tuple(merged.remarks),
        faults=tuple(fault for said in listed.parts for fault in said.faults),
        disagreements=tuple(merged.disagreements),
        also_found=tuple(merged.also_found),
        is_list=True,
        no_digest=listed.assumed,
    )


def _take_export(
    text: str, name: str, plan: Plan, export: FieldExport, photos: Mapping[str, str]
) -> tuple[str, FormTaken]:
    """Merge what a field page handed over, one person after another."""
    is_other = export.digest != plan.digest
    parts = field_said(export, plan, photos)
    merged = _merged_parts(text, name, plan, parts, export.attempt > 1, is_other)
    return merged.text, FormTaken(
        name=export.name,
        other_plan=export.digest[:8] if is_other else None,
        pages_missing=0,
        undated_retest=False,
        taken=sum(one.what != "nothing" for one in merged.actions),
        known=sum(one.what == "nothing" for one in merged.actions),
        apart=tuple(dict.fromkeys(merged.apart)),
        remarks=tuple(merged.remarks),
        faults=tuple(fault for said in parts for fault in said.faults),
        disagreements=tuple(merged.disagreements),
        also_found=tuple(merged.also_found),
        is_page=True,
        photos=len(photos),
    )


@dataclass
class _Parts:
    """What several parts of one file came to, merged one after another."""

    text: str
    actions: list[Action] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)
    apart: list[str] = field(default_factory=list)
    also_found: list[str] = field(default_factory=list)
    disagreements: list[str] = field(default_factory=list)


def _merged_parts(
    text: str, name: str, plan: Plan, parts: Sequence[Said], is_retest: bool, is_other: bool
) -> _Parts:
    done = _Parts(text)
    for said in parts:
        merged = merge(done.text, name, plan, said, is_retest, is_other)
        done.disagreements += _disagreements(done.text, name, plan, merged.actions)
        done.actions += merged.actions.values()
        done.remarks += merged.remarks
        done.apart += merged.apart
        done.also_found += [one.what for one in merged.also_found]
        done.text = merged.text
    return done


def _disagreements(text: str, name: str, plan: Plan, actions: Mapping[str, Action]) -> tuple[str, ...]:
    """Say for each reading that differs who read what."""
    findings = read_findings(text, name, plan)
    words = {(check.id, e.id): e.reading for check in plan.checks for e in check.expect}
    said = []
    for id, action in actions.items():
        if not action.differs or action.attempt.beside is None:
            continue
        other = findings.checks[id][action.attempt.beside - 1]
        for reading in action.differs:
            said.append(
                f"{id}: {words.get((id, reading), reading)}: {other.found[reading]} ({other.by or 'no initials'}) "
                f"or {action.attempt.found[reading]} ({action.attempt.by or 'no initials'})"
            )
    return tuple(said)
