"""What the spec leaves open, ordered by how much depends on it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

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
            asks=section_question(key, library),
            assumed=", ".join(facts.inferred[key].names) or "yes",
            checks=tuple(ids),
        )
        for key, ids in hangs.items()
        if ids
    ]
    questions += [
        Question(key=key, has=True, asks=section_question(key, library), adds=tuple(rules))
        for key, rules in open_ones.sections.items()
    ]
    return sorted(questions, key=lambda q: (-len(q.checks) - len(q.adds), q.key))


def _count(reads: Sequence[Read], check: str, weights: dict[Path, _Weight], values: int) -> None:
    for read in reads:
        if read.origin in ("missing", "assumed"):
            weight = weights.setdefault(read.path, _Weight())
            weight.checks[check] = None
            weight.expected_values += values


def pattern_of(path: Path) -> str:
    """Return the key pattern of a path, as the catalogue writes it: `engines[].power`."""
    text = ""
    for step in path:
        text += "[]" if isinstance(step, int) else f".{step}" if text else step
    return text


def asks(path: Path, facts: Facts, library: Library) -> str:
    """Return the question for a key: the catalogue's words, or the key's description, and the item's name."""
    item = _item_name(path, facts)
    question = _words(path, library)
    return f"{item[0].upper()}{item[1:]}: {question[0].lower()}{question[1:]}" if item else question


def _item_name(path: Path, facts: Facts) -> str:
    value: Any = facts.spec
    name = ""
    for step in path:
        value = value[step] if isinstance(step, int) else getattr(value, step, None)
        if isinstance(step, int):
            name = getattr(value, "name", "") or f"{path[path.index(step) - 1]} {step + 1}"
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
    if shape.scalar is bool:
        return f"{words[0].upper()}{words[1:]}, yes or no?"
    if choices := choices_of(shape):
        which = f"{words[0].upper()}{words[1:]}" if words.startswith(("how ", "what ")) else f"Which {words}"
        return f"{which}: {', '.join(choices[:-1])} or {choices[-1]}?"
    if shape.scalar is int and not words.startswith("year"):
        return f"How many {words}?"
    example = f", such as {shape.example}" if shape.kind and shape.example else ""
    return f"What is the {words.removeprefix('the ')}{example}?"


def assumed_of(facts: Facts, used: Sequence[Question], units: UnitSystem) -> tuple[AssumedValue, ...]:
    """Return the assumed values that some check relies on."""
    keys = {question.key for question in used}
    return tuple(
        AssumedValue(key=key_text(path), value=show(entry.value, units), why=entry.why, source=entry.source)
        for path, entry in facts.assumed.items()
        if key_text(path) in keys
    )
