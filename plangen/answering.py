"""A spec and the pages of answers that came back: what would be written into it, checked as a whole before anything is."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Protocol

from plangen.collect.answers import Answer, Answers, answers_of, require_same_boat, split_by_sections, tree_of
from plangen.collect.field_names import question_field
from plangen.collect.pdf_fields import FilledForm, read_form
from plangen.packs.library import Library
from plangen.plan.draft import Draft, draft_plan
from plangen.spec.load import LoadedSpec
from plangen.spec.problems import InputProblems, Mark, Problem
from plangen.spec.write_in import CannotWrite, ItemStep, write_in
from plangen.spec.yaml_source import read_text_file


class Boat(Protocol):
    """A boat's spec together with the packs that concern it."""

    @property
    def spec(self) -> LoadedSpec:
        """Return her spec."""

    @property
    def library(self) -> Library:
        """Return the packs."""


Load = Callable[[str], Boat]


@dataclass(frozen=True)
class Answered:
    """A spec's text before and after its answers, and what became of each."""

    path: Path
    before: str
    after: str
    answers: tuple[Answers, ...]

    @property
    def conflicts(self) -> list[str]:
        """Return what the spec, or an earlier form, says otherwise."""
        return [line for one in self.answers for line in one.conflicts]


def answer_spec(
    path: Path, forms: Sequence[tuple[str, bytes]], load: Load, leave: Sequence[str] = ()
) -> Answered:
    """Return the spec with the answers of filled forms in it; nothing is written yet.

    Raises `InputProblems` with every answer that can't be read or written, and where the spec would have a fault.
    """
    before = read_text_file(path, str(path))
    filled = [read_form(content, name, ("question", "answered")) for name, content in forms]
    boat = load(before)
    draft = draft_plan(boat.spec, boat.library)
    for form in filled:
        require_same_boat(form, draft.plan.boat)
    taken = _taken(filled, boat, draft, leave)
    first, later = split_by_sections([answer for one in taken for answer in one.new])
    after = _written(path, before, first, boat, draft, taken)
    if later:
        boat = _loaded(load, after, first, taken)
        draft = draft_plan(boat.spec, boat.library)
        again = _taken([_only(form, later) for form in filled], boat, draft, leave)
        for one, more in zip(taken, again, strict=True):
            one.new = [answer for answer in one.new if answer not in later] + more.new
            one.conflicts += more.conflicts
        after = _written(path, after, [answer for one in again for answer in one.new], boat, draft, taken)
    _loaded(load, after, [answer for one in taken for answer in one.new], taken)
    return Answered(path, before, after, tuple(taken))


def _taken(forms: Sequence[FilledForm], boat: Boat, draft: Draft, leave: Sequence[str]) -> list[Answers]:
    """Return what the forms answer; of two that answer otherwise, the first is taken and the other said."""
    faults: list[Problem] = []
    taken: list[Answers] = []
    seen: dict[str, Answer] = {}
    for form in forms:
        try:
            one = answers_of(form, draft.facts, boat.spec, boat.library.other_words, leave)
        except InputProblems as found:
            faults.extend(found.problems)
            continue
        for answer in list(one.new):
            earlier = seen.setdefault(answer.key, answer)
            if earlier is not answer:
                one.new.remove(answer)
            if earlier.value.value != answer.value.value:
                one.conflicts.append(
                    f"{answer.key}: an earlier form says {earlier.typed}, this one {answer.typed}"
                )
        taken.append(one)
    if faults:
        raise InputProblems(faults)
    return taken


def _only(form: FilledForm, answers: Sequence[Answer]) -> FilledForm:
    names = {question_field(answer.key, _item(answer)) for answer in answers}
    return replace(form, fields={name: value for name, value in form.fields.items() if name in names})


def _item(answer: Answer) -> str | None:
    return next((step.name for step in answer.steps if isinstance(step, ItemStep)), None)


def _written(
    path: Path, text: str, answers: Sequence[Answer], boat: Boat, draft: Draft, taken: Sequence[Answers]
) -> str:
    if not answers:
        return text
    try:
        return write_in(text, path.name, tree_of(answers, draft.facts, boat.spec))
    except CannotWrite as fault:
        faults = []
        for answer in answers:
            try:
                write_in(text, path.name, tree_of([answer], draft.facts, boat.spec))
            except CannotWrite as own:
                faults.append(_problem(answer, taken, str(own), "the value written by hand", ""))
        raise InputProblems(faults or [Problem(Mark(str(path)), "", str(fault))]) from fault


def _loaded(load: Load, text: str, answers: Sequence[Answer], taken: Sequence[Answers]) -> Boat:
    """Load the spec as it would be; a fault is said of the answer that it comes from."""
    try:
        return load(text)
    except InputProblems as found:
        faults = []
        for fault in found.problems:
            whose = [answer for answer in answers if _is_below(fault.key, answer.key)]
            if not whose:
                faults.append(fault)
                continue
            answer = max(whose, key=lambda one: len(one.key))
            faults.append(_problem(answer, taken, fault.found, fault.accepted, fault.nearest))
        raise InputProblems(faults) from found


def _is_below(key: str, answered: str) -> bool:
    return key == answered or key.startswith((f"{answered}.", f"{answered}["))


def _problem(answer: Answer, taken: Sequence[Answers], found: str, accepted: str, nearest: str) -> Problem:
    form = next((one.form for one in taken if answer in one.new), "")
    left = f"--leave '{answer.key}' leaves this answer out"
    return Problem(
        Mark(form),
        answer.key,
        f"{answer.typed!r}: {found}",
        "; ".join(p for p in (accepted, left) if p),
        nearest,
    )
