"""The page of open questions for the builder, the seller or the owner: what is asked of several things alike stands together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from plangen.collect.field_names import answered_field, question_field
from plangen.plan.model import Plan, Question
from plangen.plan.questions import steps_of, without_name
from plangen.print.html import Document, Paper, render
from plangen.spec.explain import shape_at
from plangen.spec.model import Spec
from plangen.spec.shape import Shape
from plangen.spec.short_words import choices_of

#: So many answers find room on two pages.
_MOST_LINES = 56


@dataclass(frozen=True)
class Line:
    """One answer: whose, its field, what a hand over the field says, and what is assumed until it is answered."""

    item: str
    field: str
    tooltip: str
    assumed: str


@dataclass(frozen=True)
class Asked:
    """One question, of one thing or of several; `how` says what an answer looks like, `unit` in what it is meant."""

    number: int
    words: str
    how: str
    unit: str
    lines: tuple[Line, ...]


def questions_document(
    plan: Plan, paper: Paper = "A4", to: Literal["builder", "owner"] = "builder"
) -> Document:
    """Return the questions that most hangs on, on two pages, with how many more there are."""
    open_ones = [question for question in plan.questions if question.to == to]
    groups = _by_weight([question for question in open_ones if _fits_a_field(question)])
    shown: list[list[Question]] = []
    for group in groups:
        if sum(_height(one) for one in (*shown, group)) > _MOST_LINES:
            break
        shown.append(group)
    asked = tuple(_asked(number, group) for number, group in enumerate(shown, 1))
    return Document(
        render(
            "questions.html.j2",
            plan=plan,
            paper=paper,
            to=to,
            asked=asked,
            answers=sum(len(one.lines) for one in asked),
            more=len(open_ones) - sum(len(one.lines) for one in asked),
            others=len(plan.questions) - len(open_ones),
            answered_field=answered_field,
        ),
        "style.css",
    )


def _fits_a_field(question: Question) -> bool:
    """Tell whether a few words can answer a question: not where each thing has to be described at length."""
    shape = shape_at(Spec, steps_of(question.key))
    if not question.has or question.example or shape is None or shape.model is None:
        return True
    own = (field for name, field in shape.model.model_fields.items() if name != "name")
    return not (shape.is_list and any(field.is_required() for field in own))


def _height(group: Sequence[Question]) -> int:
    return 1 if len(group) == 1 else 1 + len(group)


def _by_weight(questions: Sequence[Question]) -> list[list[Question]]:
    """Return what is asked in the same words together, the questions that most hangs on first."""
    groups: dict[tuple[str, str], list[Question]] = {}
    for question in questions:
        listed = ".".join(step for step in steps_of(question.key) if isinstance(step, str))
        groups.setdefault((listed, without_name(question)), []).append(question)
    return sorted(groups.values(), key=lambda group: -max(weight_of(question) for question in group))


def weight_of(question: Question) -> int:
    """Return how much hangs on a question: expected values, checks, checks that it may add, and laws."""
    return question.expected_values + len(question.checks) + len(question.adds) + len(question.laws)


def _asked(number: int, group: Sequence[Question]) -> Asked:
    first = group[0]
    shape = shape_at(Spec, steps_of(first.key)) or Shape()
    alone = len(group) == 1
    return Asked(
        number=number,
        words=first.asks if alone else without_name(first),
        how=how_answered(first, shape),
        unit=unit_of(shape),
        lines=tuple(
            Line(
                item="" if alone else str(question.of),
                field=question_field(question.key, question.of),
                tooltip=f"{question.asks} {how_answered(question, shape)}".strip(),
                assumed=_few(question.assumed or ""),
            )
            for question in group
        ),
    )


def _few(assumed: str) -> str:
    """Return what is assumed, a long list of items cut."""
    names = assumed.split(", ")
    return assumed if len(names) < 4 else f"{', '.join(names[:2])} and {len(names) - 2} more"


def unit_of(shape: Shape) -> str:
    """Return the unit in which a bare number is meant; it is printed beside the field."""
    return shape.example.partition(" ")[2] if shape.kind else ""


def how_answered(question: Question, shape: Shape) -> str:
    """Return in a few words what an answer looks like."""
    if question.has:
        told = f"for instance {question.example}" if question.example else ""
        if told and shape.is_list and question.assumed:
            return told
        return f"yes or no, {told}" if told else "yes or no"
    if choices := choices_of(shape):
        return ", ".join(choices[:-1]) + f" or {choices[-1]}"
    if shape.scalar is bool:
        return "yes or no"
    return f"for instance {shape.example.strip(chr(39))}" if shape.example else ""
