"""What the spec leaves open, ordered by how much depends on it."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Literal

from pydantic import BaseModel

from plangen.packs.evaluate import show
from plangen.packs.facts import Facts, Path, Read
from plangen.packs.library import Library
from plangen.plan.drafted import DraftedCheck
from plangen.plan.left_open import LeftOpen, section_question
from plangen.plan.model import AssumedValue, Question
from plangen.spec.explain import key_text
from plangen.spec.model import Spec
from plangen.spec.quantity import UnitSystem
from plangen.spec.shape import Shape, shapes
from plangen.spec.short_words import choices_of


@dataclass
class _Weight:
    checks: dict[str, None] = field(default_factory=dict)
    adds: dict[str, None] = field(default_factory=dict)
    laws: dict[str, None] = field(default_factory=dict)
    expected_values: int = 0


def questions_of(
    drafted: Sequence[DraftedCheck],
    law_reads: Mapping[str, Sequence[Read]],
    facts: Facts,
    library: Library,
    units: UnitSystem,
    open_ones: LeftOpen,
) -> tuple[Question, ...]:
    """Return whether she has what the spec says nothing of, then one question for each key that some check or law needs.

    `law_reads` holds what each jurisdiction's demands looked at.
    """
    weights: dict[Path, _Weight] = {}
    for one in drafted:
        _count(one.condition_reads, one.check.id, weights, 0)
        for reading in one.readings:
            if reading.expectation.record is None:
                _count(reading.reads, one.check.id, weights, 1)
    for jurisdiction, reads in law_reads.items():
        for read in reads:
            if read.origin in ("missing", "assumed"):
                weights.setdefault(read.path, _Weight()).laws[jurisdiction] = None
    for path, ids in open_ones.keys.items():
        weights.setdefault(path, _Weight()).adds.update(ids)
    questions = [
        Question(
            key=key_text(path),
            of=_item_name(path, facts) or None,
            to=_to_whom(path, library),
            asks=asks(path, facts, library),
            assumed=show(facts.assumed[path].value, units) if path in facts.assumed else None,
            checks=tuple(weight.checks),
            adds=tuple(id for id in weight.adds if id not in weight.checks),
            laws=tuple(weight.laws),
            expected_values=weight.expected_values,
        )
        for path, weight in weights.items()
        if not _names_inferred(path, facts)
    ]
    in_order = sorted(
        questions,
        key=lambda q: (-q.expected_values - len(q.adds), -len(q.checks), -len(q.laws), q.key),
    )
    return (*_whether_she_has(drafted, facts, library, open_ones), *in_order)


def _names_inferred(path: Path, facts: Facts) -> bool:
    """Tell whether the key is one by which an inferred item is what it is: asking whether she has it asks that too."""
    return path[-1] in (
        "name",
        "kind",
        "purpose",
        "use",
        "holds",
        "zone",
        "zones",
        "tank",
        "start_bank",
    ) and any(
        key_text(path).startswith(f"{key}[") or key_text(path) == f"{key}.{path[-1]}"
        for key in facts.inferred
    )


def _whether_she_has(
    drafted: Sequence[DraftedCheck], facts: Facts, library: Library, open_ones: LeftOpen
) -> list[Question]:
    hangs: dict[str, list[str]] = {key: [] for key in facts.inferred}
    for one in drafted:
        if one.subject is not None:
            text = key_text(one.subject.path)
            for key, ids in hangs.items():
                if text == key or text.startswith((f"{key}[", f"{key}.")):
                    ids.append(one.check.id)
    questions = [
        Question(
            key=key,
            has=True,
            to=_to_whom(tuple(key.split(".")), library),
            example=_example(key, library),
            asks=section_question(key, library),
            assumed=", ".join(facts.inferred[key].names) or "yes",
            checks=tuple(ids),
        )
        for key, ids in hangs.items()
        if ids
    ]
    questions += [
        Question(
            key=key,
            has=True,
            to=_to_whom(tuple(key.split(".")), library),
            example=_example(key, library),
            asks=section_question(key, library),
            adds=tuple(rules),
        )
        for key, rules in open_ones.sections.items()
    ]
    return sorted(questions, key=lambda q: (-len(q.checks) - len(q.adds), q.key))


def _to_whom(path: Path, library: Library) -> Literal["builder", "owner"]:
    """Return who is asked: the owner for what the catalogue says that he knows, and all below it."""
    steps = [step for step in path if isinstance(step, str)]
    known = any(steps[: len(parts)] == parts for key in library.owner_knows for parts in [key.split(".")])
    return "owner" if known else "builder"


def _example(key: str, library: Library) -> str | None:
    section = library.sections.get(key)
    return section.example if section is not None else None


def _count(reads: Sequence[Read], check: str, weights: dict[Path, _Weight], values: int) -> None:
    for read in reads:
        if read.origin in ("missing", "assumed"):
            weight = weights.setdefault(read.path, _Weight())
            weight.checks[check] = None
            weight.expected_values += values


def steps_of(key: str) -> Path:
    """Return the path that a key was written from: `engines[2].power` is the second engine's power."""
    steps: list[str | int] = []
    for part in key.split("."):
        name, *places = re.split(r"[\[\]]+", part.rstrip("]"))
        steps += [name, *(int(place) - 1 for place in places)]
    return tuple(steps)


def pattern_of(path: Path) -> str:
    """Return the key pattern of a path, as the catalogue writes it: `engines[].power`."""
    text = ""
    for step in path:
        text += "[]" if isinstance(step, int) else f".{step}" if text else step
    return text


def asks(path: Path, facts: Facts, library: Library) -> str:
    """Return the question for a key: the catalogue's words, or the key's description, and the item's name."""
    return with_name(_item_name(path, facts), _words(path, library))


def with_name(item: str, question: str) -> str:
    """Return a question with the name of the item before it; without its name it is `without_name`."""
    return f"{item[0].upper()}{item[1:]}: {question[0].lower()}{question[1:]}" if item else question


def without_name(question: Question) -> str:
    """Return the words of a question without the item's name, as they are for each item of a list."""
    if not question.of:
        return question.asks
    words = question.asks[len(question.of) + 2 :]
    return f"{words[0].upper()}{words[1:]}"


def _item_name(path: Path, facts: Facts) -> str:
    """Return what the item that the path goes through is called; an item without a name by its first word."""
    value: Any = facts.spec
    name = ""
    for place, step in enumerate(path):
        if isinstance(step, int):
            listed = facts.at(".".join(str(one) for one in path[:place]))
            name = listed[step].name
        value = value[step] if isinstance(step, int) else getattr(value, step, None)
    return str(name)


def _words(path: Path, library: Library) -> str:
    pattern = pattern_of(path)
    for question in library.questions:
        if question.key == pattern:
            return question.asks
    shape = Shape()
    model: type[BaseModel] = Spec
    for step in path:
        if isinstance(step, int):
            continue
        shape = shapes(model)[step]
        if shape.model is None:
            break
        model = shape.model
    return _asked(shape) or key_text(path)


def _asked(shape: Shape) -> str:
    """Return how a key of a kind is asked where the catalogue has no words of its own for it."""
    words = shape.description
    if not words:
        return ""
    begins, _, rest = words.partition(" ")
    if shape.scalar is bool:
        does = {"has": f"Does it have {rest}?", "can": f"Can it {rest}?", "is": f"Is it {rest}?"}
        return does.get(begins, f"Is this so: {words}?")
    if begins in ("how", "what", "who", "which", "where", "when"):
        return f"{words[0].upper()}{words[1:]}?"
    if choices := choices_of(shape):
        return f"Which {words} does it have: {', '.join(choices[:-1])} or {choices[-1]}?"
    if shape.scalar is int and not words.startswith("year"):
        return f"How many {words.removeprefix('number of ')} are there?"
    return f"What is the {words.removeprefix('the ')}?"


def assumed_of(facts: Facts, used: Sequence[Question], units: UnitSystem) -> tuple[AssumedValue, ...]:
    """Return the assumed values that some check relies on."""
    keys = {question.key for question in used}
    return tuple(
        AssumedValue(key=key_text(path), value=show(entry.value, units), why=entry.why, source=entry.source)
        for path, entry in facts.assumed.items()
        if key_text(path) in keys
    )
