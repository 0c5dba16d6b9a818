"""Timetables: whatever the trial, nothing is done before what must come first, without its states or in two places."""

from __future__ import annotations

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from plangen.schedule.improve import best_timetable, lower_bound
from plangen.schedule.problem import Day, Problem, Task
from tests.schedule.holding import faults
from tests.schedule.problems import SHORE, TwoPlaces, problem_by_chance

TWO_DAYS = (Day(480, 1080, (360, 1260), ((1260, 1800),)), Day(1920, 2520, (1800, 2700), ((2700, 3240),)))
SLOW = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@given(st.integers(0, 100_000), st.integers(1, 30), st.integers(1, 4))
@SLOW
def test_any_timetable_holds(seed: int, size: int, people: int) -> None:
    problem = problem_by_chance(seed, size, people)
    timetable = best_timetable(problem, 6)
    assert faults(problem, timetable) == []
    assert timetable.missing == ()


@given(st.integers(0, 100_000), st.integers(10, 40), st.integers(1, 3))
@SLOW
def test_any_timetable_of_two_days_holds_with_what_finds_no_place(seed: int, size: int, people: int) -> None:
    problem = problem_by_chance(seed, size, people, TWO_DAYS)
    assert faults(problem, best_timetable(problem, 6)) == []


@given(st.integers(0, 100_000), st.integers(1, 25))
@SLOW
def test_the_same_trial_gives_the_same_timetable_and_none_beats_the_bound(seed: int, size: int) -> None:
    problem = problem_by_chance(seed, size)
    first, second = best_timetable(problem, 10), best_timetable(problem, 10)
    assert first == second
    assert first.span >= lower_bound(problem)


def trial(*tasks: Task, people: int = 2, days: tuple[Day, ...] = TWO_DAYS) -> Problem:
    """A trial at the berth with the engine cold and everything off."""
    states = {"gas": "off", "engine": "cold", "fresh water": "off"}
    return Problem(tasks, people, days, TwoPlaces(), states, SHORE, frozenset({SHORE}))


def test_a_wait_runs_beside_other_work() -> None:
    tasks = (Task("fill", 5, 1), Task("read", 5, 1, after=((0, 60),)), Task("other", 55, 1))
    assert best_timetable(trial(*tasks, people=1)).span == 70


def test_cold_engines_come_before_hot_ones_although_these_are_heavier() -> None:
    hot = {"engine": frozenset({"hot"})}
    cold = {"engine": frozenset({"cold"})}
    tasks = (Task("full load", 200, 1, needs=hot), Task("oil", 10, 1, needs=cold))
    timetable = best_timetable(trial(*tasks, people=1))
    order = [one.task for one in timetable.placed if one.task is not None]
    assert order == [1, 0]
    assert timetable.span == 10 + 4 + 15 + 200


def test_lights_wait_for_the_dark() -> None:
    early = best_timetable(trial(Task("lights", 20, 1, light="dark")))
    assert early.missing == (0,)
    late = (Day(780, 1380, (360, 1260), ((1260, 1800),)),)
    placed = best_timetable(trial(Task("lights", 20, 1, light="dark"), days=late)).placed
    assert [one.start for one in placed] == [1260]


def test_the_bilges_are_looked_into_again_before_a_day_with_wet_work_ends() -> None:
    problem = Problem(
        (Task("hose", 30, 1, wets=True),),
        1,
        TWO_DAYS,
        TwoPlaces(),
        {},
        SHORE,
        frozenset({SHORE}),
        last_look=5,
    )
    assert [one.kind for one in best_timetable(problem).placed] == ["task", "look"]


def test_she_is_home_before_the_day_ends() -> None:
    at_sea = [Task(f"run {n}", 100, 1, place="under-way", away=True) for n in range(9)]
    problem = trial(*at_sea, people=1)
    timetable = best_timetable(problem)
    assert faults(problem, timetable) == []
    for day in problem.days:
        steps = [one for one in timetable.placed if day.start <= one.start < day.end]
        assert steps[-1].kind == "move"
        assert steps[-1].change is not None
        assert steps[-1].change.state == SHORE
