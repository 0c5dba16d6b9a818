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
#: A line that says how many more there are.
_MORE = 4.0


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
    """Return what is left out by reason, as much of it as stands in so much height, and the height that it takes.

    Where reasons alone are too many they are told in short, and of the last no check is named.
    """
    told = _told(plan)
    every = [_rows(rows) for _, _, rows in told]
    both = (room - _HEAD) * 2 - _SLACK
    for in_short, named in [(False, len(told)), *((True, many) for many in range(len(told), -1, -1))]:
        titles = [short if in_short else words for words, short, _ in told]
        heads = sum(_GROUP + height(f"{title}: 999 checks", HALF, 10.6) + _MORE for title in titles)
        firsts = sum(rows[0].height for rows in every[:named])
        if heads + firsts <= both:
            break
    left = both - heads - firsts
    counts = [1 if number < named else 0 for number in range(len(told))]
    growing = True
    while growing:
        growing = False
        for number, rows in enumerate(every[:named]):
            if counts[number] < len(rows) and rows[counts[number]].height <= left:
                left -= rows[counts[number]].height
                counts[number] += 1
                growing = True
    groups = tuple(
        Group(title, len(own), tuple(rows[:count]), len(own) - sum(row.alike for row in rows[:count]))
        for title, (_, _, own), rows, count in zip(titles, told, every, counts, strict=True)
    )
    used = heads + sum(row.height for group in groups for row in group.rows) + _SLACK
    return groups, _HEAD + used / 2 if groups else 0.0


def _told(plan: Plan) -> list[tuple[str, str, Sequence[LeftOut | OutsideScope]]]:
    """Return for each reason its words, the same in short, and what is left out for it."""
    told: list[tuple[str, str, Sequence[LeftOut | OutsideScope]]] = []
    for why, words in _WHY_LEFT_OUT.items():
        rows = [row for row in plan.left_out if row.why == why]
        if rows:
            told.append((words, words, rows))
    for scope in dict.fromkeys(row.scope for row in plan.outside_scope):
        own = [row for row in plan.outside_scope if row.scope == scope]
        short = f"Outside the agreed scope, {scope.replace('-', ' ')}"
        told.append((f"{short}. {own[0].why.rstrip('.')}", short, own))
    return told


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
