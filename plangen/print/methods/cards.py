"""Method cards: for each rule of the plan how it is done, with what, what can hurt, and whose figures its limits are."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from plangen.plan.alternatives import words_of
from plangen.plan.model import Expectation, KitItem, Plan, PlannedCheck
from plangen.print.carried.clipboards import method_numbers
from plangen.print.sources import basis_text, source_numbers

#: So many items are named with their own value before the rest is left to the sheets.
_MOST_VALUES = 6


@dataclass(frozen=True)
class LimitLine:
    """One reading of a rule: what is good, on which items, and where that comes from."""

    words: str
    values: tuple[str, ...]
    basis: str
    note: str


@dataclass(frozen=True)
class Card:
    """One rule of the plan."""

    number: str
    rule: str
    title: str
    system: str
    codes: str
    protects: str
    steps: tuple[str, ...]
    own_steps: tuple[tuple[str, str], ...]
    cautions: tuple[str, ...]
    watch_out: tuple[str, ...]
    used_boat: tuple[str, ...]
    instruments: tuple[str, ...]
    limits: tuple[LimitLine, ...]
    waits_for: tuple[str, ...]


def cards_of(plan: Plan) -> tuple[Card, ...]:
    """Return a card for each rule, in the order of the packs."""
    by_rule: dict[str, list[PlannedCheck]] = {}
    for check in plan.checks:
        by_rule.setdefault(check.rule, []).append(check)
    kit = {item.id: item for item in plan.kit}
    systems = {line.system: line.title for line in plan.summary}
    sources = source_numbers(plan)
    methods = method_numbers(plan)
    return tuple(
        _card(number, by_rule[rule], plan, kit, systems, sources, methods) for rule, number in methods.items()
    )


def _card(
    number: str,
    checks: Sequence[PlannedCheck],
    plan: Plan,
    kit: Mapping[str, KitItem],
    systems: Mapping[str, str],
    sources: dict[str, int],
    methods: Mapping[str, str],
) -> Card:
    first = checks[0]
    every = dict.fromkeys(step for check in checks for step in check.procedure)
    common = tuple(step for step in every if all(step in check.procedure for check in checks))
    few = len(every) - len(common) <= 3
    return Card(
        number=number,
        rule=first.rule,
        title=first.title if len({check.title for check in checks}) == 1 else _shared_words(checks),
        system=systems.get(first.system, first.system),
        codes=" ".join(check.code for check in checks if check.code),
        protects=first.protects or "",
        steps=tuple(every) if few else common,
        own_steps=() if few else _own_steps(checks, common),
        cautions=tuple(dict.fromkeys(plan.cautions[name] for check in checks for name in check.cautions)),
        watch_out=tuple(dict.fromkeys(check.watch_out for check in checks if check.watch_out)),
        used_boat=tuple(dict.fromkeys(text for check in checks for text in check.used_boat)),
        instruments=tuple(_instrument(kit[name]) for name in first.instruments if name in kit),
        limits=_limits(checks, sources),
        waits_for=(),
    )


def _own_steps(checks: Sequence[PlannedCheck], common: Sequence[str]) -> tuple[tuple[str, str], ...]:
    """Return the steps that not all items have, each once with its items."""
    items: dict[str, list[str]] = {}
    for check in checks:
        for step in check.procedure:
            if step not in common:
                items.setdefault(step, []).append(check.item)
    return tuple((", ".join(dict.fromkeys(names)), step) for step, names in items.items())


def _shared_words(checks: Sequence[PlannedCheck]) -> str:
    """Return the title without the item's own name, where the titles differ by it."""
    first = checks[0]
    return first.title.replace(f": {first.item}", "").replace(first.item, "").strip(" ,:")


def _instrument(item: KitItem) -> str:
    return f"{item.title}, {item.accuracy}" if item.accuracy else item.title


def _limits(checks: Sequence[PlannedCheck], sources: dict[str, int]) -> tuple[LimitLine, ...]:
    by_id: dict[str, list[tuple[PlannedCheck, Expectation]]] = {}
    words: dict[str, str] = {}
    for check in checks:
        for index, expected in enumerate(check.expect):
            by_id.setdefault(expected.id, []).append((check, expected))
            words.setdefault(expected.id, words_of(check.expect, index))
    lines = []
    for alike in by_id.values():
        by_value: dict[str, list[str]] = {}
        for check, expected in alike:
            by_value.setdefault(expected.shown, []).append(check.item)
        if len(by_value) == 1:
            values = list(by_value)
        else:
            values = [f"{', '.join(items)}: {shown}" for shown, items in by_value.items()]
            if len(values) > _MOST_VALUES:
                values = [*values[:_MOST_VALUES], f"and {len(values) - _MOST_VALUES} more on the sheets"]
        basis = dict.fromkeys(_worked(expected, sources) for _, expected in alike)
        notes = dict.fromkeys(expected.note for _, expected in alike if expected.note)
        lines.append(
            LimitLine(words[alike[0][1].id], tuple(values), "; ".join(list(basis)[:2]), " ".join(notes))
        )
    return tuple(lines)


def _worked(expected: Expectation, sources: dict[str, int]) -> str:
    """Write where a limit comes from, with the formula and the figures that went into it."""
    text = basis_text(expected, sources)
    if expected.formula and expected.inputs:
        given = ", ".join(f"{name.replace('_', ' ')} {value}" for name, value in expected.inputs.items())
        text += f" ({expected.formula.replace('_', ' ')} of {given})"
    return text
