"""Trying other weights for the same tasks and keeping the best timetable, in the same order every time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from random import Random

from plangen.schedule.problem import Problem, Timetable
from plangen.schedule.timetable import Run

#: How many passes are made: at most so many for few tasks, fewer for many, whose passes take longer.
MOST, WORK = 800, 9_600_000
SOME, WORK_OF_MANY, FEWEST = 16, 2_700, 2


def passes_for(size: int) -> int:
    """Return how many passes are made for so many tasks.

    >>> [passes_for(size) for size in (10, 50, 160, 800)]
    [800, 76, 16, 3]
    """
    few = min(MOST, WORK // max(1, size**3))
    many = max(FEWEST, min(SOME, WORK_OF_MANY // max(1, size)))
    return max(few, many)


def best_timetable(problem: Problem, passes: int | None = None, way: int = 0) -> Timetable:
    """Return the best timetable of a number of passes; the number depends on the tasks, never on the clock.

    The usual ways are tried in turn, beginning with `way`.
    """
    size = len(problem.tasks)
    total = passes or passes_for(size)
    orders = orders_of(problem)
    longest = max(tails_of(problem), default=1.0) or 1.0
    best, base, manner = None, orders[0], _USUAL[0]
    floor = lower_bound(problem)
    usual = [(order, trial) for trial in _USUAL for order in orders]
    ways = [(way + number) % len(usual) for number in range(min(total, len(usual)))]
    for number in ways:
        order, trial = usual[number]
        found = replace(_run(problem, order, trial), way=number)
        if best is None or found.cost < best.cost:
            best, base, manner = found, order, trial
            if not best.missing and best.span <= floor and best.days == 1:
                return best
    assert best is not None
    random = Random(size)
    for _ in range(total - len(ways)):
        if not best.missing and best.span <= floor and best.days == 1:
            break
        order = _beside(base, longest, random)
        trial = manner if random.random() < 0.75 else _any_manner(random)
        found = replace(_run(problem, order, trial), way=best.way)
        if found.cost <= best.cost:
            best, base, manner = found, order, trial
    return best


def _beside(order: Sequence[float], longest: float, random: Random) -> list[float]:
    """Return weights near others: a few tasks moved beside another one, or some of all weights shaken."""
    near = list(order)
    kind = random.random()
    if kind < 0.7:
        for _ in range(random.choice((1, 1, 2, 3))):
            one, other = random.randrange(len(near)), random.randrange(len(near))
            near[one] = near[other] + random.uniform(-0.01, 0.01)
    elif kind < 0.85:
        strength = longest * random.choice((0.03, 0.1, 0.3))
        share = random.choice((0.1, 0.3, 1.0))
        near = [
            weight + (random.uniform(-strength, strength) if random.random() < share else 0.0)
            for weight in near
        ]
    return near


def orders_of(problem: Problem) -> list[list[float]]:
    """Return the weights that are tried first: by what must still follow; with that, what is done away from the berth
    and all before it early, so that the light lasts; what decides first; that with what is worth most; what takes several people early or late;
    and what is most work early.
    """
    tails = tails_of(problem)
    longest = max(tails, default=1.0) or 1.0
    tasks = problem.tasks
    early = [0.0] * len(tasks)
    for index, task in enumerate(tasks):
        early[index] = longest if task.away or task.light == "dark" else 0.0
    decides = [2 * longest if task.decides else 0.0 for task in tasks]
    worth = [task.worth / task.work for task in tasks]
    most = max(worth, default=1.0) or 1.0
    for index in sorted(range(len(tasks)), key=lambda index: tails[index]):
        for before, _ in tasks[index].after:
            early[before] = max(early[before], early[index])
            worth[before] = max(worth[before], worth[index])
            decides[before] = max(decides[before], decides[index])
    away = [tail + first for tail, first in zip(tails, early, strict=True)]
    limited = any(early)
    return [
        [
            one + longest * value / most + first
            for one, value, first in zip(away, worth, decides, strict=True)
        ],
        [one + first for one, first in zip(tails, decides, strict=True)],
        tails,
        *([away] if limited else []),
        [tail + longest * (task.people - 1) for tail, task in zip(tails, tasks, strict=True)],
        [tail - longest * (task.people - 1) for tail, task in zip(tails, tasks, strict=True)],
        [float(task.work) for task in tasks],
    ]


@dataclass(frozen=True)
class _Manner:
    """How a pass goes about changes and waiting; `Run` says what each means."""

    patience: float
    daring: float
    foresight: int
    claims: bool
    keen: bool = False


def _any_manner(random: Random) -> _Manner:
    return _Manner(
        random.choice((0.1, 0.3, 1.0, 3.0)),
        random.choice((0.0, 5.0, 10.0, 30.0, 100.0)),
        random.choice((0, 10, 30, 60)),
        random.random() < 0.5,
        random.random() < 0.4,
    )


_USUAL = (
    _Manner(1.0, 10.0, 0, True, True),
    _Manner(1.0, 10.0, 30, False, True),
    _Manner(1.0, 60.0, 30, True),
    _Manner(1.0, 10.0, 0, False),
    _Manner(1.0, 10.0, 30, True),
    _Manner(1.0, 0.0, 0, False),
    _Manner(0.2, 10.0, 0, False),
    _Manner(0.2, 10.0, 30, True),
    _Manner(0.2, 60.0, 30, True),
    _Manner(0.2, 0.0, 0, False),
)


def _run(problem: Problem, order: Sequence[float], manner: _Manner) -> Timetable:
    return Run(
        problem, order, manner.patience, manner.daring, manner.foresight, manner.claims, manner.keen
    ).timetable()


def tails_of(problem: Problem) -> list[float]:
    """Return for each task the time from its beginning to the end of all that must follow it."""
    followers: list[list[tuple[int, int]]] = [[] for _ in problem.tasks]
    for index, task in enumerate(problem.tasks):
        for before, lag in task.after:
            followers[before].append((index, lag))
    tails: list[float | None] = [None] * len(problem.tasks)

    def tail(index: int) -> float:
        known = tails[index]
        if known is None:
            known = problem.tasks[index].minutes + max(
                (lag + tail(follower) for follower, lag in followers[index]), default=0.0
            )
            tails[index] = known
        return known

    return [tail(index) for index in range(len(problem.tasks))]


def lower_bound(problem: Problem) -> int:
    """Return a span that no timetable can beat: the longest chain, or all work shared by all people."""
    work = sum(task.work for task in problem.tasks)
    alone = sum(task.held_by(problem.people // 2 + 1) for task in problem.tasks)
    chain = max(tails_of(problem), default=0.0)
    first = problem.days[0] if problem.days else None
    if first is not None and chain > first.end - first.start:
        chain = 0.0  # waits that run overnight take no working time
    return max(-(-work // problem.people), alone, round(chain))
