"""What isn't in the plan only because the spec doesn't say it: sections of which it says nothing, keys that conditions read."""

from __future__ import annotations

from dataclasses import dataclass, field

from plangen.packs.evaluate import Scope, holds
from plangen.packs.facts import Facts, Missing, Path, Read
from plangen.packs.library import Library
from plangen.packs.model import CheckRule
from plangen.packs.undecided import outcome_of
from plangen.plan.expand import check_id, subjects
from plangen.plan.model import NotPlanned
from plangen.spec.explain import key_text
from plangen.spec.model import Spec
from plangen.spec.quantity import UnitSystem
from plangen.spec.shape import shapes


@dataclass
class LeftOpen:
    """The rules that a section left out takes away, and the checks that a key left out might add."""

    sections: dict[str, dict[str, None]] = field(default_factory=dict)
    keys: dict[Path, dict[str, None]] = field(default_factory=dict)


def left_open(facts: Facts, library: Library, units: UnitSystem) -> LeftOpen:
    """Return what hangs on the sections and keys that the spec leaves out."""
    found = LeftOpen()
    for loaded in library.rules:
        for rule in loaded.model.checks:
            _look_at(rule, facts, units, found)
    for key in list(found.sections):
        section = library.sections.get(key)
        if section is not None and not holds(section.when, Scope(facts)):
            del found.sections[key]
    return found


def _look_at(rule: CheckRule, facts: Facts, units: UnitSystem, found: LeftOpen) -> None:
    if rule.for_each is not None:
        path: Path = tuple(rule.for_each.split("."))
        value = facts.at(rule.for_each)
        if not value and (isinstance(value, (list, Missing))) and facts.is_unsaid(path):
            found.sections.setdefault(rule.for_each, {})[rule.id] = None
            return
    for subject, scope in subjects(rule, facts, units):
        id = check_id(rule, subject)
        if not _note(rule.when, id, rule, scope, found):
            continue
        for reading in rule.expect:
            _note(reading.when, id, rule, scope, found)


def _note(condition: str | None, id: str, rule: CheckRule, scope: Scope, found: LeftOpen) -> bool:
    """Note what would decide the condition; tell whether it may be true."""
    outcome = outcome_of(condition, scope)
    if outcome.answer is not None:
        return outcome.answer
    for section in outcome.sections:
        found.sections.setdefault(key_text(section), {})[rule.id] = None
    for read in outcome.keys:
        if _matters(read, rule):
            found.keys.setdefault(read.path, {})[id] = None
    return True


def _matters(read: Read, rule: CheckRule) -> bool:
    """A yes or no that isn't told counts as no, and is asked only where the check would bar handover."""
    return read.origin != "default" or rule.grade in ("stop", "before-handover")


def not_planned(found: LeftOpen, library: Library) -> tuple[NotPlanned, ...]:
    """Return the sections of which the spec says nothing, the one that most rules hang on first."""
    lines = [
        NotPlanned(
            section=key,
            title=section_title(key, library),
            why="not in the spec",
            rules=tuple(rules),
        )
        for key, rules in found.sections.items()
    ]
    return tuple(sorted(lines, key=lambda line: (-len(line.rules), line.section)))


def section_title(key: str, library: Library) -> str:
    """Return what a section is called: the catalogue's words, or those of the models."""
    if key in library.sections:
        return library.sections[key].title
    return _description(key)


def section_question(key: str, library: Library) -> str:
    """Return how it is asked whether she has what a section describes."""
    if key in library.sections:
        return library.sections[key].asks
    return f"Has she {_description(key)}?"


def _description(key: str) -> str:
    model = Spec
    text = key
    for step in key.split("."):
        name = step.partition("[")[0]
        if name not in model.model_fields:
            continue
        text = model.model_fields[name].description or name
        inner = shapes(model)[name].model
        if inner is None:
            break
        model = inner  # type: ignore[assignment]
    return text
