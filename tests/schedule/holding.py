"""What must hold of any timetable, worked out from its steps alone and not from how it was made."""

from __future__ import annotations

from itertools import combinations, pairwise

from plangen.schedule.problem import Placed, Problem, Timetable


def faults(problem: Problem, timetable: Timetable) -> list[str]:
    """Return everything that is wrong with a timetable."""
    done = {one.task: one for one in timetable.placed if one.task is not None}
    return [
        *_lost_or_twice(problem, timetable),
        *_order(problem, done),
        *_hands(problem, timetable),
        *_beside(problem, done),
        *_days(problem, timetable),
        *_states(problem, timetable),
    ]


def _lost_or_twice(problem: Problem, timetable: Timetable) -> list[str]:
    placed = [one.task for one in timetable.placed if one.task is not None]
    everything = sorted([*placed, *timetable.missing])
    return [] if everything == list(range(len(problem.tasks))) else [f"lost or twice: {everything}"]


def _order(problem: Problem, done: dict[int | None, Placed]) -> list[str]:
    found = []
    for index, task in enumerate(problem.tasks):
        for before, lag in task.after:
            if index in done and (before not in done or done[index].start < done[before].end + lag):
                found.append(f"{task.id} before {problem.tasks[before].id} is over")
    return found


def _hands(problem: Problem, timetable: Timetable) -> list[str]:
    found = []
    for person in range(problem.people):
        own = sorted((one.start, one.end) for one in timetable.placed if person in one.people and one.minutes)
        found += [
            f"person {person} in two places at {second[0]}"
            for first, second in pairwise(own)
            if second[0] < first[1]
        ]
    for one in timetable.placed:
        if one.task is None:
            continue
        task = problem.tasks[one.task]
        helping = sorted(
            (help.start - one.start, help.minutes, help.people)
            for help in timetable.placed
            if help.helps == one.task
        )
        if len(one.people) != 1 or [part[:2] for part in helping] != sorted(task.helpers):
            found.append(f"{task.id} with {len(one.people)} people and {helping} helping")
    return found


def _beside(problem: Problem, done: dict[int | None, Placed]) -> list[str]:
    found = []
    for one, other in combinations([index for index in done if index is not None], 2):
        overlap = done[one].start < done[other].end and done[other].start < done[one].end
        if overlap and problem.tasks[one].excludes >> other & 1:
            found.append(f"{problem.tasks[one].id} beside {problem.tasks[other].id}")
    return found


def _days(problem: Problem, timetable: Timetable) -> list[str]:
    found = []
    for one in timetable.placed:
        if one.task is None:
            continue
        task = problem.tasks[one.task]
        day = next((day for day in problem.days if day.start <= one.start and one.end <= day.end), None)
        if day is None:
            found.append(f"{task.id} outside the days")
        elif not day.lit(task.light, one.start, one.end):
            found.append(f"{task.id} without its light")
    for day in problem.days:
        own = [
            one for one in timetable.placed if day.start <= one.start < day.end + 240 and one.kind != "wait"
        ]
        if any(one.end > day.end for one in own):
            found.append("work after the end of the day")
    return found


def _states(problem: Problem, timetable: Timetable) -> list[str]:
    """Follow the steps and hold what each task needs against what is there while it lasts."""
    found = []
    states = {**timetable.prepared, **problem.states}
    place = problem.place
    turns: list[tuple[int, str, str]] = []
    unsure: list[tuple[int, int, str]] = []
    for one in sorted(timetable.placed, key=lambda one: one.start):
        if one.change is not None and one.kind != "wait":
            end = one.start + round(one.change.whole)
            unsure.append((one.start, end, one.change.subject))
            turns.append((end, one.change.subject, one.change.state))
        elif one.task is not None:
            for subject, state in problem.tasks[one.task].leaves.items():
                turns.append((one.end, subject, state))
    nights = [(day.start, problem.days[number - 1].end) for number, day in enumerate(problem.days) if number]

    def state_at(subject: str, minute: int) -> str | None:
        state = place if subject == "" else states.get(subject)
        at = -1
        for when, name, new in sorted(turns):
            if name == subject and when <= minute:
                state, at = new, when
        for morning, evening in nights:
            if subject and at < morning <= minute:
                night = morning - max(
                    (one.end for one in timetable.placed if one.start < morning), default=evening
                )
                state = problem.changes.by_itself(subject, night) or state
        return state

    for one in timetable.placed:
        if one.task is None:
            continue
        task = problem.tasks[one.task]
        if task.place is not None and state_at("", one.start) != task.place:
            found.append(f"{task.id} at {state_at('', one.start)}, not {task.place}")
        for subject, wanted in task.needs.items():
            state = state_at(subject, one.start)
            if state is not None and state not in wanted:
                found.append(f"{task.id} with {subject} {state}")
        for begin, end, subject in unsure:
            concerned = subject in task.needs or (subject == "" and task.place is not None)
            if concerned and begin < one.end and one.start < end:
                found.append(f"{task.id} while {subject or 'the place'} changes")
    return found
