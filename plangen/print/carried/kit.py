"""What to bring: by kind, with the accuracy that the plan counts on, and where it is needed."""

from __future__ import annotations

from collections.abc import Sequence, Set
from dataclasses import dataclass

from plangen.plan.model import KitItem, Plan
from plangen.print.carried.page import THIRD, height, in_columns
from plangen.print.carried.words import few_rounds, number_ranges

_KINDS = (
    ("instrument", "Instruments, with their number"),
    ("tool", "Tools"),
    ("protection", "Protection"),
    ("consumable", "Consumables"),
)
#: What an accuracy says of its percentage, which the head of the kit says for all.
_SHARE = "% of reading"
#: Millimetres: the heading, a group's heading, the least height of a line, what a tick and a number take of its width.
_HEAD, _GROUP, _LEAST, _TICK, _NUMBER = 15.0, 6.2, 6.4, 6.5, 12.0


@dataclass(frozen=True)
class KitLine:
    """One thing to bring, and the rounds or days that need it."""

    id: str
    title: str
    accuracy: str
    needed: str
    numbered: bool


@dataclass(frozen=True)
class KitGroup:
    """Things of one kind."""

    title: str
    lines: tuple[KitLine, ...]


def kit_of(plan: Plan) -> tuple[KitGroup, ...]:
    """Return what to bring."""
    rounds: dict[str, list[int]] = {}
    days: dict[str, list[int]] = {}
    day_of = {round: session.day for session in plan.sessions for round in session.rounds}
    brought = {item.id: item.served_by or item.id for item in plan.kit}
    for one in plan.rounds:
        for name in dict.fromkeys(brought.get(name, name) for name in one.instruments):
            rounds.setdefault(name, []).append(one.number)
            if one.id in day_of:
                days.setdefault(name, []).append(day_of[one.id])
    every = {session.day for session in plan.sessions}
    several = len(every) > 1 and plan.trial.hours is not None
    groups = []
    for kind, title in _KINDS:
        lines = [
            _line(item, rounds.get(item.id, []), days.get(item.id, []) if several else [], every)
            for item in plan.kit
            if item.kind == kind and item.served_by is None
        ]
        if lines:
            groups.append(KitGroup(title, tuple(lines)))
    return tuple(groups)


def _line(item: KitItem, rounds: Sequence[int], days: Sequence[int], every: Set[int]) -> KitLine:
    needed = few_rounds(rounds)
    if days:
        needed = "" if every <= set(days) else f"day {number_ranges(days)}"
    many = f"{item.quantity} {item.counted}".strip() if item.quantity is not None else ""
    title = f"{item.title}, {many}" if many else item.title
    accuracy = item.accuracy.replace(_SHARE, "%")
    return KitLine(item.id, title, accuracy, needed, item.kind == "instrument")


def kit_height(groups: Sequence[KitGroup]) -> float:
    """Return how high the kit stands in three columns, in millimetres."""
    heights = []
    for group in groups:
        heights.append(_GROUP)
        for line in group.lines:
            width = THIRD - _TICK - (_NUMBER if line.numbered else 0.0)
            # accuracy and rounds are smaller than the title
            words = f"{line.title} {line.accuracy} {line.needed}"
            heights.append(height(words, width, 8.3, 0.8, _LEAST))
    return _HEAD + in_columns(heights, 3)
