"""The carried plan as one HTML document."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from plangen.assess.model import Snag
from plangen.plan.day import LeftOut, OutsideScope, clock
from plangen.plan.model import KitItem, Plan
from plangen.print.carried.clipboards import clipboards_of
from plangen.print.carried.rows import GRID
from plangen.print.carried.timetable import timetable_of
from plangen.print.html import Document, Paper, foot_of, render
from plangen.print.zone_map import symbol_of_key, zone_map_svg

#: The style of all that is carried.
STYLE = "carried/carried.css"
#: Snags that stand on one sheet, and checks for which one more sheet is carried.
_CHECKS_FOR_A_SHEET = 150
#: Rows of what is left out that are printed; the rest is counted.
_MOST_ROWS = 22

#: Runs of rounds that are written out.
_MOST_RANGES = 8

_WHY_LEFT_OUT = {
    "priority": "Left out: of lower priority than was asked for",
    "time": "Left out: no time",
    "sea-time": "Left out: no time at sea",
    "people": "Left out: more people needed",
    "darkness": "Left out: no darkness in the hours of the trial",
    "daylight": "Left out: no daylight in the hours of the trial",
    "order": "Left out: what has to come before is left out",
}


_WHY_SHORT = {
    "priority": "lower priority",
    "time": "no time",
    "sea-time": "no time at sea",
    "people": "too few people",
    "darkness": "no darkness",
    "daylight": "no daylight",
    "order": "what comes before is out",
}


@dataclass(frozen=True)
class Cover:
    """What the cover says: the figures, what comes first, what is in and what isn't."""

    figures: tuple[tuple[str, str], ...]
    first: tuple[str, ...]
    short: tuple[object, ...]
    in_and_out: tuple[tuple[str, str, str], ...]
    parties: tuple[str, ...]


@dataclass(frozen=True)
class KitLine:
    """One thing to bring, and the rounds that need it."""

    id: str
    title: str
    accuracy: str
    rounds: str
    checks: int


class Rows(list[LeftOut | OutsideScope]):
    """The rows that are printed for one reason, and how many more there are."""

    more: int = 0


def carried_document(plan: Plan, paper: Paper = "A4") -> Document:
    """Return what is carried aboard."""
    boards = clipboards_of(plan)
    html = render(
        "carried/plan.html.j2",
        plan=plan,
        paper=paper,
        heading="Trial plan",
        boards=boards,
        grid_widths=GRID,
        cover=_cover(plan),
        contents=_contents(plan, [(board.title, board.anchor) for board in boards]),
        timetable=timetable_of(plan),
        hazards=_hazards(plan),
        kit=_kit(plan),
        zone_map=zone_map_svg(plan.zone_map) if plan.zone_map else "",
        symbol=symbol_of_key,
        zone_rounds=_zone_rounds(plan),
        left_out=_left_out(plan),
        snag_sheets=_snag_sheets(plan),
    )
    return Document(html, STYLE, foot=foot_of(plan))


def retest_document(plan: Plan, paper: Paper = "A4", also_found: Sequence[Snag] = ()) -> Document:
    """Return the sheets of what is to be done again, and the snags of no check that are to be seen mended."""
    html = render(
        "carried/retest.html.j2",
        plan=plan,
        paper=paper,
        heading="Retest",
        boards=clipboards_of(plan),
        grid_widths=GRID,
        also_found=also_found,
    )
    return Document(html, STYLE, foot=foot_of(plan))


def _snag_sheets(plan: Plan) -> int:
    return min(1 + len(plan.checks) // _CHECKS_FOR_A_SHEET, 4)


def _counted(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}"


def _hours(minutes: float) -> str:
    hours, rest = divmod(round(minutes), 60)
    return f"{hours} h {rest:02d}" if hours else f"{rest} min"


def _cover(plan: Plan) -> Cover:
    measured = sum(any(e.numeric for e in check.expect) for check in plan.checks)
    work = sum(one.person_minutes for one in plan.rounds)
    figures = [
        (str(len(plan.checks)), f"checks, {measured} of them read with an instrument"),
        (str(len(plan.rounds)), "rounds, by place and state of the boat"),
    ]
    if plan.sessions:
        days = _counted(len(plan.sessions), "day")
        first, last = plan.sessions[0], plan.sessions[-1]
        figures.append(
            (
                _hours(sum(s.end - s.start for s in plan.sessions)),
                f"in {days}, {clock(first.start)} to {clock(last.end)}",
            )
        )
        people = plan.trial.people
        figures.append(
            (str(len(people)), ", ".join(people) if len(people) < 4 else "people who do the checks")
        )
    else:
        figures.append((_hours(work), "of one person's work; no hours are given, so the plan is whole"))
    return Cover(
        figures=tuple(figures),
        first=_at_the_start(plan),
        short=tuple(plan.trial.infeasible),
        in_and_out=_in_and_out(plan),
        parties=("For the buyer", "For the seller or yard", "Skipper in charge", "Witness"),
    )


def _at_the_start(plan: Plan) -> tuple[str, ...]:
    """Say how the boat has to be found, what is in one state together: off: gas, shore power; cold: port engine."""
    by_state: dict[str, list[str]] = {}
    for words in plan.trial.prepare:
        subject, _, state = words.rpartition(" ")
        by_state.setdefault(state.replace("-", " "), []).append(subject.replace("-", " "))
    if not by_state:
        return ()
    said = "; ".join(f"{state}: {', '.join(subjects)}" for state, subjects in by_state.items())
    return (f"Ask for her like this before the start, {said}.",)


def _in_and_out(plan: Plan) -> tuple[tuple[str, str, str], ...]:
    by_priority = [sum(check.priority == level for check in plan.checks) for level in (1, 2, 3)]
    words = ("that decide", "of a thorough trial", "for the yard's record or on suspicion")
    parts = [f"{count} {text}" for count, text in zip(by_priority, words, strict=True) if count]
    lines = [("In the plan", _counted(len(plan.checks), "check"), ", ".join(parts) + ".")]
    if plan.left_out:
        reasons = Counter(_WHY_SHORT[row.why] for row in plan.left_out)
        why = ", ".join(f"{words} {count}" for words, count in reasons.items())
        heaviest = f"{why[:1].upper()}{why[1:]}. Heaviest: {_titles(plan.left_out)}."
        lines.append(("Left out", _counted(len(plan.left_out), "check"), heaviest))
    if plan.outside_scope:
        counts = Counter(row.scope.replace("-", " ") for row in plan.outside_scope)
        said = ", ".join(f"{scope} {count}" for scope, count in counts.items())
        lines.append(("Outside the agreed scope", _counted(len(plan.outside_scope), "check"), f"{said}."))
    if plan.not_in_plan:
        said = ", ".join(dict.fromkeys(one.title for one in plan.not_in_plan))
        lines.append(
            (
                "Not in this plan",
                "",
                f"The spec doesn't say whether she has: {said}. If one is aboard, it isn't checked.",
            )
        )
    return tuple(lines)


def _titles(rows: Sequence[LeftOut | OutsideScope], most: int = 3) -> str:
    titles = list(dict.fromkeys(row.title for row in rows))
    more = f" and {len(titles) - most} more" if len(titles) > most else ""
    return "; ".join(titles[:most]) + more


def _contents(plan: Plan, boards: Sequence[tuple[str, str]]) -> list[tuple[str, str, str]]:
    rows = (
        [("Timetable", "timetable", "timetable-end" if len(plan.sessions) > 1 else "")]
        if plan.sessions
        else []
    )
    rows += [("Morning briefing", "briefing", ""), ("Kit to bring", "kit", "")]
    rows += [("Zone map", "zone-map", "")] if plan.zone_map else []
    rows += [(title, anchor, f"{anchor}-end") for title, anchor in boards]
    if plan.shopping:
        rows.append(("Safety equipment to buy or find", "shopping", ""))
    if plan.left_out or plan.outside_scope:
        rows.append(("Not in this trial", "left-out", "left-out-end"))
    rows.append(("Snag sheets", "snag-sheets", "snag-sheets-end" if _snag_sheets(plan) > 1 else ""))
    return rows


def _hazards(plan: Plan) -> list[tuple[str, str]]:
    rounds: dict[str, list[int]] = {}
    for one in plan.rounds:
        for name in one.cautions:
            rounds.setdefault(name, []).append(one.number)
    return [
        (text, few_rounds(rounds[name])) for name, text in plan.cautions_in_short.items() if name in rounds
    ]


_KINDS = (
    ("instrument", "Instruments"),
    ("tool", "Tools"),
    ("protection", "Protection"),
    ("consumable", "Consumables"),
)


def _kit(plan: Plan) -> list[tuple[str, list[KitLine]]]:
    rounds: dict[str, list[int]] = {}
    for one in plan.rounds:
        for name in one.instruments:
            rounds.setdefault(name, []).append(one.number)
    groups = [
        (title, [_kit_line(item, rounds.get(item.id, [])) for item in plan.kit if item.kind == kind])
        for kind, title in _KINDS
    ]
    return [(title, items) for title, items in groups if items]


def _kit_line(item: KitItem, rounds: Sequence[int]) -> KitLine:
    return KitLine(item.id, item.title, item.accuracy, few_rounds(rounds), item.checks)


def few_rounds(numbers: Sequence[int]) -> str:
    """Write the numbers of rounds where they are few, and else how many they are."""
    shown = number_ranges(numbers)
    return shown if shown.count(",") < _MOST_RANGES else f"{len(set(numbers))} rounds"


def number_ranges(numbers: Iterable[int]) -> str:
    """Write numbers in order, runs of three and more as a range.

    >>> number_ranges([7, 3, 4, 5, 9, 10])
    '3–5, 7, 9, 10'
    """
    ordered = sorted(set(numbers))
    parts: list[str] = []
    start = 0
    for place, number in enumerate(ordered):
        if place + 1 == len(ordered) or ordered[place + 1] != number + 1:
            run = ordered[start : place + 1]
            parts += [f"{run[0]}–{run[-1]}"] if len(run) > 2 else [str(one) for one in run]
            start = place + 1
    return ", ".join(parts)


def _zone_rounds(plan: Plan) -> dict[str, list[int]]:
    names = {zone.name: list[int]() for zone in plan.zone_map.zones} if plan.zone_map else {}
    for one in plan.rounds:
        for zone in dict.fromkeys([*(one.zones or ()), *([one.zone] if one.zone else [])]):
            if zone in names:
                names[zone].append(one.number)
    return {zone: sorted(numbers) for zone, numbers in names.items()}


def _left_out(plan: Plan) -> list[tuple[str, Rows]]:
    """Return the heaviest of what is left out, by reason; checks of one rule for several items are one row."""
    tables: list[tuple[str, Rows]] = []
    for why, words in _WHY_LEFT_OUT.items():
        tables.append((words, _rows([row for row in plan.left_out if row.why == why])))
    for scope in dict.fromkeys(row.scope for row in plan.outside_scope):
        own = [row for row in plan.outside_scope if row.scope == scope]
        tables.append((f"Outside the agreed scope: {scope.replace('-', ' ')}. {own[0].why}", _rows(own)))
    tables = [(words, rows) for words, rows in tables if rows]
    room = _MOST_ROWS
    shown: list[tuple[str, Rows]] = []
    for number, (words, rows) in enumerate(tables):
        share = max(2, room // (len(tables) - number))
        kept = Rows(rows[:share])
        kept.more = len(rows) - len(kept)
        room -= len(kept)
        shown.append((words, kept))
    return shown


def _rows(rows: Sequence[LeftOut | OutsideScope]) -> Rows:
    alike: dict[tuple[str, str], list[LeftOut | OutsideScope]] = {}
    for row in rows:
        alike.setdefault((row.check.partition("@")[0], row.unknown), []).append(row)
    return Rows(
        own[0]
        if len(own) == 1
        else own[0].model_copy(update={"title": f"{own[0].title}, and {len(own) - 1} alike"})
        for own in alike.values()
    )
