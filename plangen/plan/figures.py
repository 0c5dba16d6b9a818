"""The figures that a drafted check has worked out of its readings, with the values of the spec filled in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from plangen.formulas import OutOfRange
from plangen.formulas.declare import TEXT
from plangen.packs.evaluate import Scope, number_in, render, show
from plangen.packs.facts import Missing
from plangen.packs.figures import FIGURES, Figure
from plangen.packs.functions import MissingInput
from plangen.packs.library import Library
from plangen.packs.model import DeriveRule, ReadingOf
from plangen.packs.syntax import ExpressionError
from plangen.packs.values import value_of
from plangen.plan.drafted import DraftedCheck
from plangen.plan.expectations import cited
from plangen.plan.format import Limits, decimals_of, limits_text
from plangen.plan.model import PlannedFigure, ReadingPlace
from plangen.spec.quantity import unit_from_label


def figures_of(
    one: DraftedCheck, scope: Scope, by_rule: Mapping[str, Sequence[DraftedCheck]], library: Library
) -> tuple[PlannedFigure, ...]:
    """Return the figures for which the check, and the checks that they also look at, take the readings.

    A figure whose readings this boat's checks don't take, or whose input the spec doesn't give, is left out.
    """
    drafted = (_figure(derive, one, scope, by_rule, library) for derive in one.rule.derive)
    return tuple(figure for figure in drafted if figure is not None)


def _figure(
    derive: DeriveRule,
    one: DraftedCheck,
    scope: Scope,
    by_rule: Mapping[str, Sequence[DraftedCheck]],
    library: Library,
) -> PlannedFigure | None:
    figure = FIGURES[derive.figure]
    readings = {
        role: tuple(found for place in places for found in _places(place, one, scope, by_rule))
        for role, places in derive.readings.items()
    }
    readings = {role: places for role, places in readings.items() if places}
    if any(not role.optional and name not in readings for name, role in figure.readings.items()):
        return None
    if figure.one_of and not any(name in readings for name in figure.one_of):
        return None
    try:
        inputs = {
            name: _input(text, figure.inputs[name], scope)
            for name, text in derive.inputs.items()
            if name not in figure.optional_inputs or _is_given(text, scope)
        }
        at = (
            _number(derive.at, unit_from_label(figure.points or ""), scope) if derive.at is not None else None
        )
    except (MissingInput, OutOfRange, ExpressionError):
        return None
    gives = next((e.id for e in one.check.expect if e.id == derive.gives), None)
    source = derive.source or one.rule.source
    limits = _limits(derive, figure, scope)
    return PlannedFigure(
        figure=derive.figure,
        title=render(derive.title, scope) if derive.title else figure.title,
        unit=figure.unit,
        readings=readings,
        inputs={name: value for name, (value, _) in inputs.items()},
        inputs_shown={name: shown for name, (_, shown) in inputs.items()},
        at=at,
        gives=gives,
        low=limits.low,
        high=limits.high,
        shown=_shown(limits, figure, scope),
        source=cited(source, library.sources),
    )


def _places(
    place: ReadingOf, one: DraftedCheck, scope: Scope, by_rule: Mapping[str, Sequence[DraftedCheck]]
) -> list[ReadingPlace]:
    """Return the readings meant: those of the same item where both rules run over one list, else of all items."""
    if place.rule is None or place.rule == one.rule.id:
        owners: Sequence[DraftedCheck] = [one]
    else:
        others = by_rule.get(place.rule, ())
        same_list = one.rule.for_each is not None and others and others[0].rule.for_each == one.rule.for_each
        owners = [other for other in others if not same_list or other.subject == one.subject]
    return [
        ReadingPlace(check=owner.check.id, reading=expected.id)
        for owner in owners
        for expected in owner.check.expect
        if expected.id == place.reading
    ]


def _is_given(text: str, scope: Scope) -> bool:
    try:
        return not isinstance(value_of(text, scope), Missing)
    except MissingInput:
        return False


def _input(text: str, unit: str, scope: Scope) -> tuple[float | str, str]:
    scope.facts.start_notes()
    value = value_of(text, scope)
    if isinstance(value, Missing):
        raise MissingInput(value)
    assumed = any(read.origin == "assumed" for read in scope.facts.notes())
    shown = show(value, scope.units) + (" (assumed)" if assumed else "")
    if unit == TEXT:
        return str(value), shown
    return number_in(value, unit), shown


def _number(text: str, unit: str, scope: Scope) -> float:
    return number_in(value_of(text, scope), unit)


def _limits(derive: DeriveRule, figure: Figure, scope: Scope) -> Limits:
    """Return the figure's own limits; one that needs what the spec doesn't give is no limit."""
    return Limits(_limit(derive.at_least, figure, scope), None, _limit(derive.at_most, figure, scope))


def _limit(text: str | None, figure: Figure, scope: Scope) -> float | None:
    if text is None:
        return None
    try:
        return round(_number(text, unit_from_label(figure.unit), scope), 4)
    except (MissingInput, OutOfRange, ExpressionError):
        return None


def _shown(limits: Limits, figure: Figure, scope: Scope) -> str:
    given = [value for value in (limits.low, limits.high) if value is not None]
    if not given:
        return ""
    return limits_text(limits, figure.unit, max(min(decimals_of(value), 2) for value in given), scope.units)
