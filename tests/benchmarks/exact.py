"""The same problems for an exact solver (OR-tools CP-SAT), which proves how short any timetable must be.

The solver's timetable is easier than ours: changes of state need time between tasks but nobody's hands. So its bound
holds for ours too, and the gap that is reported is never too small.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from itertools import combinations

from ortools.sat.python import cp_model

from plangen.schedule.choice import Candidate, Limits
from plangen.schedule.plant import Change
from plangen.schedule.problem import Problem, Task, working_minutes


@dataclass(frozen=True)
class Exact:
    """The span of the solver's best timetable, the span that is proven to be needed, and whether they are the same."""

    span: int
    bound: int
    proven: bool


def exact_timetable(problem: Problem, seconds: float, workers: int = 2) -> Exact | None:
    """Return what the solver finds and proves within a time; nothing where it finds no timetable."""
    model = cp_model.CpModel()
    horizon = problem.days[-1].end
    starts, intervals = [], []
    for task in problem.tasks:
        domain = cp_model.Domain.from_intervals(_windows(problem, task))
        start = model.new_int_var_from_domain(domain, task.id)
        starts.append(start)
        intervals.append(model.new_fixed_size_interval_var(start, task.minutes, task.id))
    hands = [1] * len(intervals)
    for task, start in zip(problem.tasks, starts, strict=True):
        for after, minutes in task.helpers:
            intervals.append(model.new_fixed_size_interval_var(start + after, minutes, f"{task.id} help"))
            hands.append(1)
    for interval, people in _surely_changed(model, problem, starts):
        intervals.append(interval)
        hands.append(people)
    model.add_cumulative(intervals, hands, problem.people)
    end = model.new_int_var(0, horizon, "end")
    for index, task in enumerate(problem.tasks):
        home = _home(problem, task)
        model.add(end >= starts[index] + task.minutes + home)
        model.add(starts[index] >= problem.days[0].start + _first(problem, task))
        for before, lag in task.after:
            model.add(starts[index] >= starts[before] + problem.tasks[before].minutes + lag)
    later = _later(problem)
    for one, other in combinations(range(len(problem.tasks)), 2):
        if later[other] >> one & 1 or later[one] >> other & 1:
            first, second = (one, other) if later[other] >> one & 1 else (other, one)
            gap = _gap(problem, problem.tasks[first], problem.tasks[second])
            if gap:
                model.add(starts[second] >= starts[first] + problem.tasks[first].minutes + gap)
            continue
        there = _gap(problem, problem.tasks[one], problem.tasks[other])
        back = _gap(problem, problem.tasks[other], problem.tasks[one])
        if there is None and back is None and not problem.tasks[one].excludes >> other & 1:
            continue
        order = model.new_bool_var("")
        model.add(starts[other] >= starts[one] + problem.tasks[one].minutes + (there or 0)).only_enforce_if(
            order
        )
        model.add(starts[one] >= starts[other] + problem.tasks[other].minutes + (back or 0)).only_enforce_if(
            ~order
        )
    model.minimize(end)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = workers
    solver.parameters.random_seed = 1
    status = solver.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    return Exact(
        span=working_minutes(problem.days, round(solver.objective_value)),
        bound=working_minutes(problem.days, round(solver.best_objective_bound)),
        proven=status == cp_model.OPTIMAL,
    )


def _surely_changed(
    model: cp_model.CpModel, problem: Problem, starts: Sequence[cp_model.IntVar]
) -> list[tuple[cp_model.IntervalVar, int]]:
    """Return the changes that no timetable does without, with the hands that they take.

    The first move away from where she lies comes before everything elsewhere, the last move home after everything
    away, and the first change of a state before everything that the state at the start doesn't serve.
    """
    sure: list[tuple[cp_model.IntervalVar, int]] = []

    def step(minutes: float, people: int) -> cp_model.IntVar:
        start = model.new_int_var(problem.days[0].start, problem.days[-1].end, "change")
        if people:
            interval = model.new_fixed_size_interval_var(start, round(minutes), "change")
            sure.append((interval, min(people, problem.people)))
        return start

    elsewhere = [i for i, task in enumerate(problem.tasks) if task.place not in (None, problem.place)]
    if elsewhere:
        ways = [problem.changes.moves(problem.place, str(problem.tasks[i].place))[0] for i in elsewhere]
        first = step(min(way.minutes for way in ways), min(way.people for way in ways))
        for index in elsewhere:
            model.add(starts[index] >= first + round(min(way.minutes for way in ways)))
    away = [i for i, task in enumerate(problem.tasks) if _home(problem, task)]
    if away:
        back = [
            problem.changes.moves(str(problem.tasks[i].place), home)[-1]
            for i in away
            for home in problem.home
        ]
        last = step(min(way.minutes for way in back), min(way.people for way in back))
        for index in away:
            model.add(last >= starts[index] + problem.tasks[index].minutes)
    for subject, state in problem.states.items():
        others = [
            (i, task.needs[subject])
            for i, task in enumerate(problem.tasks)
            if subject in task.needs and state not in task.needs[subject]
        ]
        made = any(subject in task.leaves for task in problem.tasks)
        if others and not made and subject not in {s for m in _moves(problem) for s, _, _ in m.makes}:
            ways = [
                problem.changes.change(subject, state, frozenset({one}))
                for _, states in others
                for one in states
            ]
            least, hands = min(way.minutes for way in ways), min(way.people for way in ways)
            start = step(least, hands)
            for index, _ in others:
                model.add(starts[index] >= start + round(least))
    return sure


def _moves(problem: Problem) -> list[Change]:
    places = {task.place for task in problem.tasks if task.place} | {problem.place}
    return [step for one in places for other in places for step in problem.changes.moves(one, other)]


def _windows(problem: Problem, task: Task) -> list[tuple[int, int]]:
    windows = []
    for day in problem.days:
        last = day.end - task.minutes - _home(problem, task)
        for begin, close in _lit(day, task):
            if max(day.start, begin) <= min(last, close - task.minutes):
                windows.append((max(day.start, begin), min(last, close - task.minutes)))
    return windows


def _lit(day: object, task: Task) -> Sequence[tuple[int, int]]:
    always = ((day.start, day.end),)  # type: ignore[attr-defined]
    if task.light == "day":
        return (day.light,) if day.light is not None else always  # type: ignore[attr-defined]
    if task.light == "dark":
        return day.dark if day.dark is not None else always  # type: ignore[attr-defined, no-any-return]
    return always


def _home(problem: Problem, task: Task) -> int:
    if not task.away or task.place is None or task.place in problem.home:
        return 0
    return min(
        round(sum(step.whole for step in problem.changes.moves(task.place, home))) for home in problem.home
    )


def _later(problem: Problem) -> list[int]:
    """Return for each task a bit for every task that surely comes before it; what comes first stands first or later."""
    masks = [0] * len(problem.tasks)
    changed = True
    while changed:
        changed = False
        for index, task in enumerate(problem.tasks):
            mask = masks[index]
            for before, _ in task.after:
                mask |= 1 << before | masks[before]
            if mask != masks[index]:
                masks[index], changed = mask, True
    return masks


def _first(problem: Problem, task: Task) -> int:
    """Return how long it takes from the beginning until the states of the task can be there."""
    times = [0.0]
    if task.place is not None and task.place != problem.place:
        times.append(sum(step.whole for step in problem.changes.moves(problem.place, task.place)))
    for subject, states in task.needs.items():
        state = problem.states.get(subject)
        if state is not None and state not in states:
            times.append(_quickest(problem, subject, frozenset({state}), states))
    return round(max(times))


def _gap(problem: Problem, one: Task, other: Task) -> int | None:
    """Return the time that must lie between two tasks in this order; nothing where they may overlap."""
    times: list[float] = []
    if one.place is not None and other.place is not None and one.place != other.place:
        times.append(sum(step.whole for step in problem.changes.moves(one.place, other.place)))
    for subject in {*one.needs, *one.leaves} & {*other.needs, *other.leaves}:
        after = frozenset({one.leaves[subject]}) if subject in one.leaves else one.needs[subject]
        if subject not in other.needs:
            continue
        if not after & other.needs[subject]:
            times.append(_quickest(problem, subject, after, other.needs[subject]))
        elif subject in one.leaves and not one.needs.get(subject, frozenset()) & other.needs[subject]:
            times.append(0.0)
    return round(max(times)) if times else None


def _quickest(problem: Problem, subject: str, before: Collection[str], after: frozenset[str]) -> float:
    """Return the quickest way from one of several states to one of several, over others where that's quicker."""
    seen: dict[str, float] = dict.fromkeys(before, 0.0)
    heap = list(before)
    known = {
        state
        for task in problem.tasks
        for states in (task.needs.get(subject, ()), (task.leaves.get(subject),))
        for state in states
        if state
    }
    while heap:
        state = min(heap, key=lambda one: seen[one])
        heap.remove(state)
        for other in sorted(known):
            step = problem.changes.change(subject, state, frozenset({other}))
            if step.state == other and seen[state] + step.whole < seen.get(other, float("inf")):
                seen[other] = seen[state] + step.whole
                heap.append(other)
    return min((minutes for state, minutes in seen.items() if state in after), default=0.0)


def exact_choice(
    candidates: Sequence[Candidate],
    limits: Limits,
    seconds: float,
    hint: Collection[int] = (),
    workers: int = 2,
) -> tuple[float, float]:
    """Return the risk of the solver's best choice, which begins at the `hint`, and the risk that no choice can exceed."""
    model = cp_model.CpModel()
    chosen = [model.new_bool_var(candidate.id) for candidate in candidates]
    shared: dict[object, cp_model.IntVar] = {}
    minutes: list[cp_model.LinearExprT] = []
    away: list[cp_model.LinearExprT] = []
    for index, candidate in enumerate(candidates):
        minutes.append(chosen[index] * round(candidate.minutes * 10))
        if candidate.away:
            away.append(chosen[index] * round(candidate.minutes * 10))
        for needed in candidate.needs:
            model.add_implication(chosen[index], chosen[needed])
        for key, cost in candidate.shares:
            if key not in shared:
                shared[key] = model.new_bool_var("")
                minutes.append(shared[key] * round(cost * 10))
                if candidate.away:
                    away.append(shared[key] * round(cost * 10))
            model.add_implication(chosen[index], shared[key])
    model.add(sum(minutes) <= round(limits.minutes * 10))
    if limits.away is not None:
        model.add(sum(away) <= round(limits.away * 10))
    model.maximize(
        sum(chosen[index] * round(candidate.risk * 1000) for index, candidate in enumerate(candidates))
    )
    opened = {key for index in hint for key, _ in candidates[index].shares}
    for index, variable in enumerate(chosen if hint else ()):
        model.add_hint(variable, int(index in hint))
    for key, variable in shared.items() if hint else ():
        model.add_hint(variable, int(key in opened))
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = workers
    solver.parameters.random_seed = 1
    solver.solve(model)
    return solver.objective_value / 1000, solver.best_objective_bound / 1000
