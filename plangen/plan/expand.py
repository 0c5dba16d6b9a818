"""Rules become checks: one for the boat, or one for each item of equipment that the rule is about."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import Any

from plangen.formulas import OutOfRange
from plangen.packs.evaluate import Scope, holds, number_in, render
from plangen.packs.facts import Facts, Missing, Subject
from plangen.packs.functions import MissingInput
from plangen.packs.items import singular_at
from plangen.packs.library import Library
from plangen.packs.model import CheckRule, RulePack
from plangen.packs.syntax import ExpressionError
from plangen.packs.values import value_of
from plangen.plan.alternatives import only_alternatives
from plangen.plan.drafted import Drafted, DraftedCheck
from plangen.plan.expectations import cited, draft_reading
from plangen.plan.figures import figures_of
from plangen.plan.ids import BOAT, former_check_ids, item_id
from plangen.plan.model import PlannedCheck
from plangen.spec.problems import InputProblems, Problem
from plangen.spec.quantity import UnitSystem


def expand(facts: Facts, library: Library, units: UnitSystem) -> list[DraftedCheck]:
    """Return every check that the packs give for the boat, in the order of packs, rules and items.

    Raises `InputProblems` for a rule that can't be worked out, which `check_library` would have found.
    """
    drafted: list[tuple[DraftedCheck, Scope]] = []
    for pack_number, loaded in enumerate(library.rules):
        for rule_number, rule in enumerate(loaded.model.checks):
            try:
                for item_number, (subject, scope) in enumerate(subjects(rule, facts, units)):
                    place = (pack_number, rule_number, item_number)
                    check = _draft(rule, loaded.model, subject, scope, library, place)
                    if check is not None:
                        drafted.append((check, scope))
            except ExpressionError as error:
                mark = loaded.mark_of(("checks", rule_number))
                raise InputProblems(
                    [Problem(mark, rule.id, str(error), "plangen packs check says more")]
                ) from error
    return _with_figures(drafted, library)


def _with_figures(drafted: Sequence[tuple[DraftedCheck, Scope]], library: Library) -> list[DraftedCheck]:
    by_rule: dict[str, list[DraftedCheck]] = {}
    for one, _ in drafted:
        by_rule.setdefault(one.rule.id, []).append(one)
    return [
        replace(one, check=one.check.model_copy(update={"derive": figures_of(one, scope, by_rule, library)}))
        if one.rule.derive
        else one
        for one, scope in drafted
    ]


def check_id(rule: CheckRule, subject: Subject | None) -> str:
    """Return the id of the check that a rule gives for an item, or for the boat."""
    return f"{rule.id}@{item_id(subject)}"


def subjects(rule: CheckRule, facts: Facts, units: UnitSystem) -> Iterator[tuple[Subject | None, Scope]]:
    """Yield each item that a rule is about, with what its expressions may name."""
    if rule.for_each is None:
        yield None, Scope(facts, {}, units)
        return
    value = facts.at(rule.for_each)
    if isinstance(value, Missing):
        return
    name = rule.as_ or (
        singular_at(rule.for_each) if isinstance(value, list) else rule.for_each.split(".")[-1]
    )
    for subject in value if isinstance(value, list) else [value]:
        yield subject, Scope(facts, {name: subject}, units)


def _draft(
    rule: CheckRule,
    pack: RulePack,
    subject: Subject | None,
    scope: Scope,
    library: Library,
    place: tuple[int, int, int],
) -> DraftedCheck | None:
    facts = scope.facts
    facts.start_notes()
    if not holds(rule.when, scope):
        return None
    condition_reads = facts.notes()
    drafted = (draft_reading(reading, rule, scope, library) for reading in rule.expect)
    readings = _once_each(found for found in drafted if found is not None)
    item = _item_words(rule, subject, scope, library)
    used = facts.spec.vessel.condition == "used"
    once, each = _minutes(rule.minutes.once, scope, 0.0), _minutes(rule.minutes.each, scope, 5.0)
    check = PlannedCheck(
        id=check_id(rule, subject),
        formerly=former_check_ids((rule.id, *rule.formerly), subject, facts.spec.vessel),
        rule=f"{pack.pack}/{rule.id}",
        system=pack.pack,
        title=render(rule.title, scope),
        do=render(rule.do, scope) if rule.do else None,
        protects=render(rule.protects, scope) if rule.protects else None,
        priority=_priority(rule, scope),
        round=rule.round,
        asks_for=rule.asks_for,
        item=item,
        zone=_zone(rule, subject, scope),
        setting=rule.setting,
        needs=tuple(render(text, scope) for text in rule.needs),
        leaves=tuple(render(text, scope) for text in rule.leaves),
        wets=_zone_name(value_of(rule.wets, scope)) if rule.wets else None,
        looks_after_wet=(looks := _after_wet(rule, scope)),
        procedure=tuple(
            text
            for step in rule.procedure
            if holds(step.when, scope) and (text := render(step.do, scope).strip())
        ),
        used_boat=tuple(
            render(more.add, scope) for more in rule.used_boat if used and holds(more.when, scope)
        ),
        expect=only_alternatives(reading.expectation for reading in readings),
        instruments=rule.instruments,
        minutes=round(once + each, 1),
        minutes_once=once,
        minutes_wait=_minutes(rule.minutes.wait, scope, 0.0),
        people=rule.people,
        grade=rule.grade,
        cautions=rule.cautions,
        watch_out=render(rule.watch_out, scope) if rule.watch_out else None,
        source=cited(rule.source, library.sources),
    )
    return DraftedCheck(check, rule, pack, subject, condition_reads, tuple(readings), looks, place)


def _item_words(rule: CheckRule, subject: Subject | None, scope: Scope, library: Library) -> str:
    """Return what people call the checked item; gear that the catalogue knows goes by its title."""
    if rule.item:
        words = render(rule.item, scope)
        gear = library.gear.get(words)
        return gear.title if gear else words
    return BOAT if subject is None or item_id(subject) == BOAT else subject.name


def _once_each(readings: Iterable[Drafted]) -> list[Drafted]:
    """Return the readings, each id once: of alternatives that share one, the first that applies."""
    by_id: dict[str, Drafted] = {}
    for reading in readings:
        by_id.setdefault(reading.expectation.id, reading)
    return list(by_id.values())


def _minutes(text: str, scope: Scope, otherwise: float) -> float:
    """Return minutes as a rule states them, or a usual figure where the spec doesn't give what they depend on."""
    try:
        value = value_of(text, scope)
        return round(number_in(value, "minute"), 1)
    except (MissingInput, OutOfRange, ExpressionError):
        return otherwise


def _priority(rule: CheckRule, scope: Scope) -> int:
    """Return how much a check matters; where that hangs on what nobody told, it belongs to a thorough trial."""
    try:
        value = value_of(rule.priority, scope)
    except (MissingInput, OutOfRange):
        return 2
    return 2 if isinstance(value, Missing) else int(value)


def _zone(rule: CheckRule, subject: Subject | None, scope: Scope) -> str | None:
    if rule.zone is not None:
        return _zone_name(value_of(rule.zone, scope))
    if subject is None:
        return None
    if subject.path[:1] == ("zones",):
        return subject.name
    own: Any = getattr(subject.section, "zone", None)
    return str(own) if own else None


def _zone_name(value: Any) -> str | None:
    if isinstance(value, Missing):
        return None
    return value.name if isinstance(value, Subject) else str(value)


def _after_wet(rule: CheckRule, scope: Scope) -> tuple[str, ...] | None:
    """Return the zones whose wet checks come first; none named means all of them."""
    if rule.after_wet is None:
        return None
    value = value_of(rule.after_wet, scope)
    if isinstance(value, Missing):
        return ()
    listed = value if isinstance(value, list) else [value]
    return tuple(name for item in listed if (name := _zone_name(item)))
