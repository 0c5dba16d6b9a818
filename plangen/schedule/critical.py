"""Which rounds fix when the trial ends."""

from __future__ import annotations

from plangen.schedule.problem import Problem, Timetable
from plangen.schedule.tasks import FINISH


def critical_path(problem: Problem, timetable: Timetable) -> tuple[str, ...]:
    """Return the rounds, back from the last: each ends where the next could begin only because of it.

    What held a round up is what came before it by order, or what its people were busy with.
    """
    placed = [one for one in timetable.placed if one.task is not None or one.people]
    tasks = [one for one in placed if one.task is not None]
    if not tasks:
        return ()
    current = max(tasks, key=lambda one: (one.end, one.start))
    path = []
    while True:
        if current.task is not None:
            path.append(problem.tasks[current.task].id.removesuffix(FINISH))
        earlier = [one for one in placed if one.end <= current.start and one is not current]
        if not earlier:
            break
        before = (
            {index for index, _ in problem.tasks[current.task].after} if current.task is not None else set()
        )
        current = max(
            earlier,
            key=lambda one: (
                one.end,
                one.task in before,
                bool(set(one.people) & set(current.people)),
                one.start,
            ),
        )
    return tuple(dict.fromkeys(reversed(path)))
