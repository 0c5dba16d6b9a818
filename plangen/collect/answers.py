"""Answers that came back on the pages of questions, as values for the spec."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from plangen.collect.pdf_fields import FilledForm
from plangen.packs.facts import Facts, Path
from plangen.plan.boat_identity import differences, identity_of, may_be_same
from plangen.plan.model import Boat
from plangen.spec.answer import Read, Unanswerable, read_answer
from plangen.spec.explain import key_text, shape_at
from plangen.spec.load import LoadedSpec
from plangen.spec.model import Spec
from plangen.spec.names import slug
from plangen.spec.other_words import OtherWords
from plangen.spec.problems import InputProblems, Mark, Problem
from plangen.spec.quantity import QuantityError, parse_quantity, quantity_text
from plangen.spec.shape import Shape
from plangen.spec.short_forms import expand
from plangen.spec.write_in import ItemStep, Tree, Value, flow_text
from plangen.spec.yaml_source import Node, read_yaml

_QUESTION = "question/"
#: What people write where they don't know.
_UNKNOWN = {
    "?",
    "-",
    "–",
    "—",
    "unknown",
    "not known",
    "don't know",
    "n/a",
    "na",
    "tbc",
    "tbd",
    "to be confirmed",
}
#: By these an item that the program assumed is what it is; they are stated with it once something is said of it.
_WHAT_IT_IS = ("kind", "purpose", "use", "holds")


@dataclass(frozen=True)
class Answer:
    """One answer: what was typed, where it belongs, what will be written, and what was added to what was typed."""

    path: Path
    steps: tuple[str | ItemStep, ...]
    typed: str
    value: Value
    added: str = ""

    @property
    def key(self) -> str:
        """Return the key as the spec and the questions write it."""
        return key_text(self.path)


@dataclass
class Answers:
    """What a form answers: what is new, what the spec says already and what it says otherwise."""

    form: str
    by: str = ""
    day: str = ""
    remarks: str = ""
    new: list[Answer] = field(default_factory=list)
    known: list[str] = field(default_factory=list)
    left: list[str] = field(default_factory=list)
    conflicts: list[str] = field(default_factory=list)


def require_same_boat(form: FilledForm, boat: Boat) -> None:
    """Raise `InputProblems` where a form is about another boat."""
    other = differences(form.boat, identity_of(boat))
    if other or not may_be_same(form.boat, identity_of(boat)):
        found = f"answers about {form.boat.name or 'another boat'}" + (
            f": {'; '.join(other)}" if other else ""
        )
        raise InputProblems([Problem(Mark(form.name), "", found, f"answers about {boat.name}")])


def answers_of(
    form: FilledForm, facts: Facts, loaded: LoadedSpec, words: OtherWords, leave: Sequence[str]
) -> Answers:
    """Return what a form answers.

    Raises `InputProblems` with every answer that can't be read, by its question.
    """
    typed = {name: str(value).strip() for name, value in form.fields.items() if str(value).strip()}
    by, day, remarks = (typed.get(f"answered/{about}", "") for about in ("by", "date", "remarks"))
    answers = Answers(form.name, by, day, remarks)
    faults: list[Problem] = []
    remark = _one_line(", ".join(part for part in (answers.by, answers.day) if part))
    for name, text in typed.items():
        if not name.startswith(_QUESTION) or text.casefold() in _UNKNOWN:
            continue
        try:
            steps, path = _resolved(name.removeprefix(_QUESTION), facts)
            if key_text(path) in leave:
                answers.left.append(key_text(path))
            else:
                _take(answers, steps, path, text, f"answered by {remark}" if remark else "", loaded, words)
        except Unanswerable as fault:
            key = fault.key or name.removeprefix(_QUESTION).replace(":", ".")
            faults.append(Problem(Mark(form.name), key, fault.found, fault.accepted, fault.nearest))
    if faults:
        raise InputProblems(faults)
    return answers


def _one_line(text: str) -> str:
    """Return text fit for a comment behind a value: one line of what can be printed, and not long."""
    return " ".join("".join(letter if letter.isprintable() else " " for letter in text).split())[:80]


def _resolved(name: str, facts: Facts) -> tuple[tuple[str | ItemStep, ...], Path]:
    """Return the path of a field's key, items by their names as the spec has them today."""
    steps: list[str | ItemStep] = []
    path: list[str | int] = []
    for part in name.split(":"):
        key, at, item = part.partition("@")
        bare, _, place = key.partition("[")
        steps.append(bare)
        path.append(bare)
        if shape_at(Spec, tuple(path)) is None:
            raise Unanswerable(
                "a question of another version of the program", "a form that `plangen questions` wrote"
            )
        if not at and not place:
            continue
        listed = facts.at(".".join(step for step in path if isinstance(step, str)))
        items = [one.name for one in listed] if isinstance(listed, list) else []
        places = (
            [number for number, one in enumerate(items) if slug(one) == item] if at else [int(place[:-1]) - 1]
        )
        if not places or places[0] >= len(items):
            found = f"an answer about {item.replace('-', ' ') or key}, which the spec doesn't have"
            raise Unanswerable(found, f"an item of {bare}: {', '.join(items) or 'none is there'}")
        path.append(places[0])
        steps.append(ItemStep(items[places[0]]))
    return tuple(steps), tuple(path)


def _take(
    answers: Answers,
    steps: tuple[str | ItemStep, ...],
    path: Path,
    text: str,
    remark: str,
    loaded: LoadedSpec,
    words: OtherWords,
) -> None:
    shape = shape_at(Spec, path) or Shape()
    try:
        read = read_answer(text, shape, words, ".".join(step for step in path if isinstance(step, str)))
    except Unanswerable as fault:
        raise Unanswerable(fault.found, fault.accepted, fault.nearest, key_text(path)) from fault
    there = _there(loaded.source, path)
    none = any(path[:length] in loaded.said_no for length in range(1, len(path) + 1))
    if none or there is not None:
        said = "no" if none else _said(there)
        same = _is_same(read.value, said, there, none) or (there is not None and _says_so(there, path, read))
        place = f"{loaded.mark_of(path)}: {key_text(path)}"
        (answers.known if same else answers.conflicts).append(
            key_text(path) if same else f"{place}: the spec says {said}, the answer {text}"
        )
        return
    value = Value(read.value, read.is_text, remark)
    answers.new.append(Answer(path, steps, text, value, read.added))


def _there(node: Node, path: Path) -> Node | None:
    """Return what the spec says at a path; a key that was left blank says nothing."""
    found = node.at(path)
    if found is None:
        return None
    blank = found.value is None and found.mapping is None and found.items is None
    return None if blank else found


def _said(node: Node | None) -> str:
    if node is None:
        return ""
    if node.items is not None:
        return f"{len(node.items)}" if node.items else "no"
    return "yes" if node.mapping is not None else str(node.value)


def _is_same(value: str | tuple[str, ...], said: str, there: Node | None, none: bool) -> bool:
    """Tell whether an answer says what the spec says: the same word, the same quantity, or yes to what is described."""
    text = ", ".join(value) if isinstance(value, tuple) else value
    if none or text == "no":
        return none and text == "no"
    if there is not None and (there.mapping is not None or there.items is not None):
        return text in ("yes", said)
    words = {"true": "yes", "false": "no"}
    if words.get(said.casefold(), said.casefold()) == text.casefold():
        return True
    try:
        return bool(abs(parse_quantity(said) / parse_quantity(text) - 1) < 1e-9)
    except (QuantityError, ValueError, ZeroDivisionError):
        return False


def _says_so(there: Node, path: Path, read: Read) -> bool:
    """Tell whether what a section holds is what the answer describes in short, or more."""
    keys = [step for step in path if isinstance(step, str)]
    shape = shape_at(Spec, path)
    if shape is None or shape.model is None or len(keys) != len(path):
        return False
    text = flow_text(Value(read.value))
    for key in reversed(keys):
        text = f"{{{key}: {text}}}"
    described = _there(expand(read_yaml(text, "answer"), Spec, []), path)
    return described is not None and _covers(there.plain(), described.plain())


def _covers(more: object, less: object) -> bool:
    if isinstance(less, list) and isinstance(more, list):
        return len(less) == len(more) and all(map(_covers, more, less))
    if isinstance(less, dict) and isinstance(more, dict):
        return all(_covers(more.get(key), value) for key, value in less.items() if key != "name")
    return more == less


def tree_of(answers: Sequence[Answer], facts: Facts, loaded: LoadedSpec) -> Tree:
    """Return what to write: the answers, and with a list that was only assumed all of its items by their names."""
    tree: Tree = {}
    for answer in answers:
        branch = tree
        for number, step in enumerate(answer.steps[:-1]):
            below = answer.path[: number + 1]
            if step not in branch:
                branch[step] = (
                    _assumed_items(below, facts, loaded) if isinstance(answer.path[number], str) else {}
                )
            inner = branch[step]
            assert isinstance(inner, dict)
            branch = inner
        branch[answer.steps[-1]] = answer.value
    return tree


def _assumed_items(path: Path, facts: Facts, loaded: LoadedSpec) -> Tree:
    """Return the items of a list of which the spec says nothing, as they were assumed."""
    if (
        not isinstance(path[-1], str)
        or key_text(path) not in facts.inferred
        or _there(loaded.source, path) is not None
    ):
        return {}
    listed = facts.at(".".join(step for step in path if isinstance(step, str)))
    remark = "assumed, not answered"
    return {
        ItemStep(one.name): {
            name: Value(_text(getattr(one.section, name)), remark=remark)
            for name in _WHAT_IT_IS
            if name in one.section.model_fields_set
        }
        for one in (listed if isinstance(listed, list) else [])
    }


def _text(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    try:
        return quantity_text(value)  # type: ignore[arg-type]
    except AttributeError:
        return str(value)


def split_by_sections(answers: Sequence[Answer]) -> tuple[list[Answer], list[Answer]]:
    """Return the answers to be written first, and those about things that one of the first describes anew."""
    whole = {answer.path for answer in answers}
    later = [
        answer
        for answer in answers
        if any(answer.path[:length] in whole for length in range(1, len(answer.path)))
    ]
    return [answer for answer in answers if answer not in later], later
