"""Choice and timetable beside an exact solver: how much shorter, and how much more risk, could they be at most?

Run with `python -m pytest tests/benchmarks --benchmark-only` after `pip install plangen[benchmarks]`. The solver's
problem is the easier one: it needs no hands for a change of state, and none for going out and coming in a second
time. So what it proves holds for ours too. Where the time proves nothing, our span is held against its best plan.
"""

from __future__ import annotations

import statistics
from collections.abc import Callable
from typing import Any

import pytest

from plangen import api
from plangen.plan.draft import draft_plan
from plangen.schedule.choice import Candidate, Limits, choose, risk_of
from plangen.schedule.fit import fit
from plangen.schedule.improve import best_timetable
from plangen.schedule.problem import Day, Problem
from plangen.schedule.schedule import ground_of
from plangen.schedule.scope import outside_scope, without
from plangen.schedule.select import candidates_of, field_of, select
from plangen.schedule.wishes import Instead, wishes_of
from tests.conftest import SPECS
from tests.schedule.problems import problem_by_chance

exact = pytest.importorskip("tests.benchmarks.exact", reason="OR-tools isn't installed")

READY = ("monohull.yaml", "catamaran.yaml", "yard/hull-101.yaml", "yard/hull-102.yaml")
SECONDS = 3.0
Bench = Callable[..., Any]


def field_with(name: str, hours: float, people: int) -> Any:
    """The checks of a ready boat with what they need, for a day of so many hours and people."""
    boat = api.load_spec(SPECS / name)
    draft = draft_plan(boat.spec, boat.library)
    wishes = wishes_of(boat.spec, boat.library, Instead(hours, people, 1, 3))
    outside = {one.check for one in outside_scope(draft.plan.checks, wishes, boat.library)}
    checks = without(draft.plan.checks, outside)
    return field_of(checks, draft.checks, wishes, ground_of(draft, boat.spec, boat.library))


def candidates_for(name: str, hours: float, people: int) -> list[Candidate]:
    """The same as candidates of the choice."""
    field = field_with(name, hours, people)
    return candidates_of(field, field.checks)


@pytest.mark.parametrize(("hours", "people"), [(4, 1), (8, 1), (10, 2)])
@pytest.mark.parametrize("name", READY)
def test_the_choice_keeps_nearly_all_the_risk_that_can_be_kept(
    name: str, hours: float, people: int, benchmark: Bench
) -> None:
    candidates, limits = candidates_for(name, hours, people), Limits(hours * 60 * people)
    ours = benchmark.pedantic(choose, (candidates, limits), rounds=1)  # type: ignore[attr-defined]
    best, bound = exact.exact_choice(candidates, limits, SECONDS * 5, ours)
    kept = risk_of(candidates, ours)
    benchmark.extra_info.update(kept=kept, best=best, bound=bound)  # type: ignore[attr-defined]
    assert kept >= 0.98 * best


def test_made_up_trials_are_nearly_as_short_as_can_be(benchmark: Bench) -> None:
    problems = [problem_by_chance(seed, 6 + seed % 4 * 4, 2 + seed % 2) for seed in range(50)]
    ours = benchmark.pedantic(lambda: [best_timetable(one) for one in problems], rounds=1)  # type: ignore[attr-defined]
    gaps = [
        gap
        for problem, timetable in zip(problems, ours, strict=True)
        if (gap := gap_of(problem, timetable.span)) is not None
    ]
    benchmark.extra_info.update(median=statistics.median(gaps), worst=max(gaps))  # type: ignore[attr-defined]
    assert len(gaps) >= 50
    assert statistics.median(gaps) <= MEDIAN
    assert max(gaps) <= WORST


#: Made-up trials go out twice and change states back, for which the solver needs no hands, and
#: where it proves nothing within seconds its plan may be one that no crew could follow.
MEDIAN, WORST = 0.05, 0.15


@pytest.mark.parametrize("name", READY)
def test_the_day_of_a_ready_boat_is_nearly_as_short_as_can_be(name: str, benchmark: Bench) -> None:
    field = field_with(name, 10, 2)
    chosen = select(field).checks
    fitted = benchmark.pedantic(fit, (chosen, field.wishes, field.ground), rounds=1)  # type: ignore[attr-defined]
    one_day = (Day(fitted.problem.days[0].start, fitted.problem.days[0].start + 2000),)
    problem = Problem(
        **{**vars(fitted.problem), "days": one_day, "meal": 0, "last_look": 0, "away_minutes": None}
    )
    ours = best_timetable(problem)
    gap = gap_of(problem, ours.span, SECONDS * 20)
    benchmark.extra_info.update(gap=gap, span=ours.span)  # type: ignore[attr-defined]
    assert gap is not None
    assert gap <= 0.15


def gap_of(problem: Problem, span: int, seconds: float = SECONDS) -> float | None:
    """Return by how much a span is longer than what is proven, or than the solver's best where nothing is."""
    found = exact.exact_timetable(problem, seconds)
    if found is None:
        return None
    least = found.bound if found.proven else found.span
    return float(span / least - 1)
