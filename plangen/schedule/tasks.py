"""Rounds become tasks of a timetable."""

from __future__ import annotations

import heapq
from collections.abc import Mapping, Sequence
from itertools import count
from math import ceil, floor

from plangen.packs.library import Library
from plangen.packs.model import Exclusion, Move
from plangen.plan.day import Round
from plangen.plan.model import PlannedCheck
from plangen.schedule.plant import Change, Plant
from plangen.schedule.problem import Task

FINISH = "#finish"


def tasks_of(
    rounds: Sequence[Round],
    checks: Mapping[str, PlannedCheck],
    plant: Plant,
    library: Library,
    people: int,
    risks: Mapping[str, float],
) -> tuple[Task, ...]:
    """Return a task for each round, and one more for each that is finished after a wait."""
    finishing = [index for index, one in enumerate(rounds) if one.finish]
    last = {rounds[index].id: len(rounds) + number for number, index in enumerate(finishing)}
    done = {
        id: last[one.id] if id in one.finishing else index
        for index, one in enumerate(rounds)
        for id in one.checks
    }
    excludes = exclusions(rounds, library.exclusions)
    tasks = []
    for index, one in enumerate(rounds):
        setting = library.settings[one.setting]
        waiting = [checks[id] for id in one.finishing]
        minutes = max(1, ceil(one.minutes))
        own = {index, last.get(one.id, index)}
        leaves = plant.leaves(one.leaves)
        holds = plant.needs([text for check in waiting for text in (*check.needs, *check.leaves)])
        tasks.append(
            Task(
                id=one.id,
                minutes=minutes,
                people=min(one.people, people),
                helpers=_helpers(one, minutes, people),
                place=None if setting.anywhere else setting.at or one.setting,
                light=setting.light,
                away=setting.away,
                needs=plant.needs_together([checks[id].needs for id in one.checks]),
                leaves=leaves,
                after=tuple(
                    (task, 0)
                    for task in sorted(
                        {done[id] for check in one.checks for id in checks[check].after if id in done}
                    )
                    if task not in own
                ),
                excludes=excludes[index],
                holds=frozenset(holds),
                until=last.get(one.id),
                wets=bool(one.wets),
                worth=sum(risks.get(id, 1.0) for id in one.checks),
                decides=any(checks[id].priority == 1 for id in one.checks),
                gathers=library.rounds[one.kind].gathers,
            )
        )
    for index in finishing:
        one = rounds[index]
        tasks.append(
            Task(
                id=one.id + FINISH,
                minutes=max(1, ceil(one.finish)),
                people=1,
                after=((index, ceil(one.wait)),),
            )
        )
    return tuple(tasks)


def _helpers(one: Round, minutes: int, people: int) -> tuple[tuple[int, int], ...]:
    """Return when the others are needed, in whole minutes within the round, as far as so many people come."""
    found = []
    for help in one.helpers[: people - 1]:
        start = min(floor(help.after), minutes - 1)
        found.append((start, min(ceil(help.after + help.minutes), minutes) - start))
    return tuple(found)


def exclusions(rounds: Sequence[Round], rules: Sequence[Exclusion]) -> list[int]:
    """Return for each round a bit for every round that is never done beside it."""
    masks = [0] * len(rounds)
    cautions = [frozenset(one.cautions) for one in rounds]
    zones = [frozenset((*one.zones, *((one.zone,) if one.zone else ()))) for one in rounds]
    for rule in rules:
        dangerous, beside = frozenset(rule.cautions), frozenset(rule.beside)
        first = [index for index, own in enumerate(cautions) if own & dangerous]
        second = [index for index, own in enumerate(cautions) if not beside or own & beside]
        for one in first:
            for other in second:
                if one != other and (rule.where == "boat" or zones[one] & zones[other]):
                    masks[one] |= 1 << other
                    masks[other] |= 1 << one
    return masks


class Berths:
    """The ways between the settings, and how states change: what a timetable asks of a boat."""

    def __init__(self, plant: Plant, moves: Sequence[Move]) -> None:
        self._plant = plant
        self._ways: dict[str, list[Move]] = {}
        for move in moves:
            self._ways.setdefault(move.from_, []).append(move)
        self._known: dict[tuple[str, str], tuple[Change, ...]] = {}

    def change(self, subject: str, before: str, states: frozenset[str]) -> Change:
        """Return the quickest way from one state into one of several."""
        return self._plant.change(subject, before, states)

    def by_itself(self, subject: str, minutes: float) -> str | None:
        """Return the state that something comes into when nobody touches it for so long."""
        return self._plant.by_itself(subject, minutes)

    def moves(self, before: str, after: str) -> Sequence[Change]:
        """Return the quickest steps from one setting to another; none where there is no way."""
        key = (before, after)
        if key not in self._known:
            self._known[key] = self._search(before, after)
        return self._known[key]

    def _search(self, before: str, after: str) -> tuple[Change, ...]:
        heap: list[tuple[float, int, str, tuple[Change, ...]]] = [(0.0, -1, before, ())]
        seen: set[str] = set()
        found = count()
        while heap:
            minutes, _, place, steps = heapq.heappop(heap)
            if place == after:
                return steps
            if place in seen:
                continue
            seen.add(place)
            for move in self._ways.get(place, ()):
                makes = self._plant.makes(move.makes)
                step = Change("", move.to, move.minutes, 0.0, move.people, move.do, move.caution, makes)
                heapq.heappush(heap, (minutes + move.minutes, next(found), move.to, (*steps, step)))
        return ()
