"""What isn't in the trial and what stays unknown without it: the heaviest first, as much as has room on a page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from plangen.plan.day import LeftOut, OutsideScope
from plangen.plan.model import Plan
from plangen.print.carried.page import HALF, height
from plangen.print.carried.words import hours

_WHY_LEFT_OUT = {
    "priority": "Of lower priority than was asked for",
    "time": "No time",
    "sea-time": "No time at sea",
    "people": "More people needed",
    "darkness": "No darkness in the hours of the trial",
    "daylight": "No daylight in the hours of the trial",
    "series": "Not routine on this hull of the series",
    "order": "What has to come before is left out",
}
#: Millimetres: the heading, what a group's title has above and below, what a row has above and below.
_HEAD, _GROUP, _PAD = 16.0, 3.5, 1.2


#: What two columns may differ by, for a row isn't parted.
_SLACK = 14.0


@dataclass(frozen=True)
class Row:
    """One check, or alike ones of one rule, and what stays unknown."""

    title: str
    unknown: str
    minutes: str
    alike: int

    @property
    def height(self) -> float:
        """Return how high it stands in a column, in millimetres."""
        return height(f"{self.title} {self.unknown} {self.minutes}", HALF, 10.4, _PAD)


@dataclass(frozen=True)
class Group:
    """What is left out for one reason: how many checks, the heaviest rows, how many more there are."""

    title: str
    count: int
    rows: tuple[Row, ...]
    more: int


def left_out_of(plan: Plan, room: float) -> tuple[tuple[Group, ...], float]:
    """Return what is left out by reason, as much of it as stands in so much height, and the height that it takes."""
    groups = [
        (words, [row for row in plan.left_out if row.why == why]) for why, words in _WHY_LEFT_OUT.items()
    ]
    told: list[tuple[str, Sequence[LeftOut | OutsideScope]]] = [
        (words, rows) for words, rows in groups if rows
    ]
    for scope in dict.fromkeys(row.scope for row in plan.outside_scope):
        own = [row for row in plan.outside_scope if row.scope == scope]
        told.append((f"Outside the agreed scope, {scope.replace('-', ' ')}. {own[0].why.rstrip('.')}", own))
    every = [_rows(rows) for _, rows in told]
    heads = sum(
        _GROUP + height(f"{words}: 999 checks", HALF, 10.6) + height("more", HALF, 8) for words, _ in told
    )
    left = (room - _HEAD) * 2 - heads - _SLACK
    counts = [min(len(rows), 1) for rows in every]
    left -= sum(rows[0].height for rows in every if rows)
    growing = True
    while growing:
        growing = False
        for number, rows in enumerate(every):
            if counts[number] < len(rows) and rows[counts[number]].height <= left:
                left -= rows[counts[number]].height
                counts[number] += 1
                growing = True
    groups_shown = tuple(
        Group(words, len(own), tuple(rows[:count]), len(own) - sum(row.alike for row in rows[:count]))
        for (words, own), rows, count in zip(told, every, counts, strict=True)
    )
    used = heads + sum(row.height for group in groups_shown for row in group.rows) + _SLACK
    return groups_shown, _HEAD + used / 2 if groups_shown else 0.0


def _rows(rows: Sequence[LeftOut | OutsideScope]) -> list[Row]:
    alike: dict[tuple[str, str], list[LeftOut | OutsideScope]] = {}
    for row in rows:
        alike.setdefault((row.check.partition("@")[0], row.unknown), []).append(row)
    return [
        Row(
            own[0].title if len(own) == 1 else f"{own[0].title}, and {len(own) - 1} alike",
            own[0].unknown,
            hours(own[0].minutes) + (" each" if len(own) > 1 else ""),
            len(own),
        )
        for own in alike.values()
    ]
