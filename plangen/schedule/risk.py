"""What a check is worth: consequence times likelihood, by the figures of the catalogue."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from plangen.packs.evaluate import Scope, holds
from plangen.packs.facts import Facts, Subject
from plangen.packs.functions import MissingInput
from plangen.packs.items import singular_at
from plangen.packs.library import Library
from plangen.packs.model import Likelihood, RiskRules
from plangen.packs.syntax import ExpressionError
from plangen.plan.drafted import DraftedCheck
from plangen.plan.model import PlannedCheck

Finder = Callable[[PlannedCheck], str]


def risks_of(
    drafted: Sequence[DraftedCheck],
    facts: Facts,
    library: Library,
    kind_of: Finder,
    zone_kinds: Mapping[str, str | None],
) -> dict[str, float]:
    """Return the risk that each check takes away."""
    rules = library.risk
    if rules is None:
        return {one.check.id: 1.0 for one in drafted}
    general = {
        index: _holds(factor, Scope(facts, {}))
        for index, factor in enumerate(rules.likelihood)
        if factor.for_each is None
    }
    found = {}
    for one in drafted:
        check = one.check
        risk = _consequence(check, rules)
        for index, factor in enumerate(rules.likelihood):
            if _names(factor, check, kind_of, zone_kinds) and (
                general[index] if factor.for_each is None else _of_item(factor, one.subject, facts)
            ):
                risk *= factor.times
        found[check.id] = round(risk, 4)
    return found


def _consequence(check: PlannedCheck, rules: RiskRules) -> float:
    grade = next((weight.times for name, weight in rules.grades.items() if name == check.grade), 1.0)
    priority = rules.priorities.get(check.priority)
    return grade * (priority.times if priority else 1.0)


def _names(
    factor: Likelihood, check: PlannedCheck, kind_of: Finder, zone_kinds: Mapping[str, str | None]
) -> bool:
    """Tell whether the check is one of those that the factor names."""
    return (
        (not factor.systems or check.system in factor.systems)
        and (not factor.settings or check.setting in factor.settings)
        and (not factor.rounds or kind_of(check) in factor.rounds)
        and (not factor.zone_kinds or (zone_kinds.get(check.zone or "") or "") in factor.zone_kinds)
    )


def _of_item(factor: Likelihood, subject: Subject | None, facts: Facts) -> bool:
    if subject is None or factor.for_each is None:
        return False
    path = tuple(factor.for_each.split("."))
    if tuple(step for step in subject.path if isinstance(step, str)) != path:
        return False
    return _holds(factor, Scope(facts, {singular_at(factor.for_each): subject}))


def _holds(factor: Likelihood, scope: Scope) -> bool:
    try:
        return holds(factor.when, scope)
    except (MissingInput, ExpressionError):
        return False
