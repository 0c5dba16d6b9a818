"""Why a check is in the plan, and where each expected value comes from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from plangen.formulas import FORMULAS
from plangen.packs.evaluate import Scope, holds, show
from plangen.packs.facts import Facts, Missing, Read
from plangen.packs.items import singular_at
from plangen.packs.library import Library
from plangen.packs.values import value_of
from plangen.packs.words import arithmetic, condition_in_words
from plangen.plan.draft import Draft
from plangen.plan.drafted import DraftedCheck
from plangen.plan.left_open import section_title
from plangen.plan.model import Expectation
from plangen.spec.load import LoadedSpec
from plangen.spec.problems import nearest_name
from plangen.spec.quantity import STATED, UnitSystem, is_quantity, quantity_text


@dataclass(frozen=True)
class Input:
    """One value that was looked at, and where it came from."""

    key: str
    value: str
    origin: str


@dataclass(frozen=True)
class ReadingReason:
    """Where the expected value of one reading comes from."""

    expectation: Expectation
    formula: str
    arithmetic: str
    inputs: tuple[Input, ...]
    source: str


@dataclass(frozen=True)
class Reason:
    """Why one check is in the plan."""

    check: DraftedCheck
    place: str
    condition: str
    condition_inputs: tuple[Input, ...]
    readings: tuple[ReadingReason, ...]


class UnknownCheck(LookupError):
    """There is no such check in the plan."""

    def __init__(self, name: str, ids: Sequence[str]) -> None:
        super().__init__(name)
        same_rule = [id for id in ids if id.partition("@")[0] == name.partition("@")[0]]
        self.nearest = same_rule[:8] or [found for found in [nearest_name(name, ids)] if found]


def explain(draft: Draft, loaded: LoadedSpec, library: Library, check_id: str, units: UnitSystem) -> Reason:
    """Explain one check of a drafted plan.

    Raises `UnknownCheck` with the nearest ids.
    """
    ids = [one.check.id for one in draft.checks]
    found = next((one for one in draft.checks if one.check.id == check_id), None)
    if found is None:
        raise UnknownCheck(check_id, ids)
    pack = library.rules[found.place[0]]
    mark = pack.mark_of(("checks", found.place[1]))
    condition = _for_what(found.rule.for_each, draft.facts, library)
    if found.rule.when:
        condition += f", when {condition_in_words(found.rule.when)}"
    scope = _scope(found, draft.facts, units)
    return Reason(
        check=found,
        place=str(mark),
        condition=condition,
        condition_inputs=_inputs(found.condition_reads, draft.facts, loaded, units),
        readings=tuple(
            ReadingReason(
                expectation=reading.expectation,
                formula=_formula(reading.expectation),
                arithmetic=_arithmetic(reading.expectation, found, scope),
                inputs=_inputs(reading.reads, draft.facts, loaded, units),
                source=_source(reading.expectation, library),
            )
            for reading in found.readings
        ),
    )


def _for_what(key: str | None, facts: Facts, library: Library) -> str:
    if key is None:
        return "once for the boat"
    if isinstance(facts.at(key), list):
        return f"for each of the boat's {key.rpartition('.')[2].replace('_', ' ')}"
    return f"for the boat's {section_title(key, library).partition(';')[0]}"


def _scope(found: DraftedCheck, facts: Facts, units: UnitSystem) -> Scope:
    """Return what the rule's expressions named when the check was drafted."""
    rule, bound = found.rule, dict[str, Any]()
    if rule.for_each is not None and found.subject is not None:
        listed = isinstance(facts.at(rule.for_each), list)
        bound[rule.as_ or (singular_at(rule.for_each) if listed else rule.for_each.split(".")[-1])] = (
            found.subject
        )
    return Scope(facts, bound, units)


def _arithmetic(expectation: Expectation, found: DraftedCheck, scope: Scope) -> str:
    """Return how the limits are reckoned from the boat's own figures; of a series, how its points are and its last one."""
    reading = next(
        (one for one in found.rule.expect if one.id == expectation.id and holds(one.when, scope)), None
    )
    if reading is None or not expectation.numeric:
        return ""
    texts = [reading.about, reading.at_least, reading.at_most, *(reading.between or ())]
    if reading.series is None:
        return _reckoned(texts, reading.tolerance, scope)
    points = value_of(reading.series, scope)
    if not isinstance(points, list) or not points or isinstance(points[-1], Missing):
        return ""
    last = _reckoned(texts, reading.tolerance, scope.with_bound(point=points[-1]))
    where = arithmetic(reading.series, scope)
    parts = (
        f"at {where}" if "×" in where else "",
        f"at {show(points[-1], scope.units)}: {last}" if last else "",
    )
    return "; ".join(part for part in parts if part)


def _reckoned(texts: Sequence[str | None], tolerance: str | None, scope: Scope) -> str:
    lines = [line for text in texts if text and (line := arithmetic(text, scope))]
    if tolerance and (line := arithmetic(tolerance, scope)):
        lines.append(f"give or take {line}")
    return "; ".join(dict.fromkeys(lines))


def _formula(expectation: Expectation) -> str:
    if expectation.formula is None:
        return ""
    inputs = ", ".join(f"{name} = {value}" for name, value in expectation.inputs.items())
    return f"{expectation.formula}({inputs}): {FORMULAS[expectation.formula].summary.removeprefix('Return ')}"


def _source(expectation: Expectation, library: Library) -> str:
    source = library.sources[expectation.source.id]
    parts = [source.title, source.edition, expectation.source.clause]
    known = {"memory": "from memory, verify", "secondary": "as reported by others"}.get(
        expectation.source.known_by, ""
    )
    return ", ".join(part for part in parts if part) + (f" ({known})" if known else "")


def _inputs(reads: Sequence[Read], facts: Facts, loaded: LoadedSpec, units: UnitSystem) -> tuple[Input, ...]:
    return tuple(Input(read.key, _value(read, units), _origin(read, facts, loaded)) for read in reads)


def _value(read: Read, units: UnitSystem) -> str:
    if read.value is None:
        return "–"
    stated = read.origin == "spec" and is_quantity(read.value)
    return quantity_text(read.value, units, STATED) if stated else show(read.value, units)


def _origin(read: Read, facts: Facts, loaded: LoadedSpec) -> str:
    if read.origin == "assumed":
        return f"assumed: {facts.assumed[read.path].why}"
    if read.origin == "missing":
        return "not in the spec"
    if read.path[:1] == ("zones",) and loaded.zones_assumed:
        return "the hull type's usual zones"
    if read.origin == "default":
        return "not in the spec; the model's default"
    where = f"{loaded.mark_of(read.path)}"
    return f"contract, {where}" if read.path[:1] == ("contract",) else where
