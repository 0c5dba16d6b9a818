"""Trying other weights for the same tasks and keeping the best timetable, in the same order every time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from random import Random

from plangen.schedule.problem import Problem, Timetable
from plangen.schedule.timetable import Run

#: How many passes are made: fewer for many tasks, whose passes take longer.
FEWEST, MOST, WORK = 4, 300, 120_000


def best_timetable(problem: Problem, passes: int | None = None) -> Timetable:
    """Return the best timetable of a number of passes; the number depends on the tasks, never on the clock."""
    tails = tails_of(problem)
    size = len(problem.tasks)
    total = passes or max(FEWEST, min(MOST, WORK // max(1, size * size)))
    longest = max(tails, default=1.0) or 1.0
    orders = [
        [tail + 0.0 * task.people for tail, task in zip(tails, problem.tasks, strict=True)],
        [tail + longest * (task.people - 1) for tail, task in zip(tails, problem.tasks, strict=True)],
        [tail - longest * (task.people - 1) for tail, task in zip(tails, problem.tasks, strict=True)],
        [float(task.work) for task in problem.tasks],
    ]
    usual = _Manner(1.0, 10.0, 0, False)
    tries = [
        (order, _Manner(patience, daring, foresight, claims))
        for daring, foresight, claims in (
            (10.0, 0, False),
            (10.0, 30, True),
            (0.0, 0, False),
            (60.0, 30, True),
        )
        for patience in (1.0, 0.2)
        for order in orders
    ][:total]
    best, base, manner = None, orders[0], usual
    for order, trial in tries:
        found = _run(problem, order, trial)
        if best is None or found.cost < best.cost:
            best, base, manner = found, order, trial
    assert best is not None
    random, floor = Random(size), lower_bound(problem)
    for _ in range(total - len(tries)):
        if not best.missing and best.span <= floor:
            break
        strength = longest * random.choice((0.03, 0.1, 0.3, 1.0))
        share = random.choice((0.1, 0.3, 1.0))
        order = [
            weight + (random.uniform(-strength, strength) if random.random() < share else 0.0)
            for weight in base
        ]
        trial = (
            manner
            if random.random() < 0.6
            else _Manner(
                random.choice((0.1, 0.3, 1.0, 3.0)),
                random.choice((0.0, 5.0, 10.0, 30.0, 100.0)),
                random.choice((0, 10, 30, 60)),
                random.random() < 0.5,
            )
        )
        found = _run(problem, order, trial)
        if found.cost <= best.cost:
            best, base, manner = found, order, trial
    return best


@dataclass(frozen=True)
class _Manner:
    """How a pass goes about changes and waiting; `Run` says what each means."""

    patience: float
    daring: float
    foresight: int
    claims: bool


def _run(problem: Problem, order: Sequence[float], manner: _Manner) -> Timetable:
    return Run(problem, order, manner.patience, manner.daring, manner.foresight, manner.claims).timetable()


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
