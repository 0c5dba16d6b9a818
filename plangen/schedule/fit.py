"""Rounds and timetable of a set of checks, for the days and the people that there are."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from math import ceil

from plangen.packs.library import Library
from plangen.plan.day import Daylight, Round
from plangen.plan.model import PlannedCheck
from plangen.schedule.improve import best_timetable, lower_bound
from plangen.schedule.light import windows
from plangen.schedule.plant import Plant
from plangen.schedule.problem import Day, Problem, Task, Timetable
from plangen.schedule.rounds import Grouped, rounds_of
from plangen.schedule.tasks import Berths, tasks_of
from plangen.schedule.wishes import Wishes

DAY = 1440
MOST_DAYS = 60
LAST_MINUTE = 5
LONG_WAIT = 120


@dataclass
class Ground:
    """What doesn't change while checks are chosen: the boat's plant, the catalogue, the light."""

    library: Library
    plant: Plant
    grouped: Grouped
    light: Callable[[int], Daylight | None]
    risks: Mapping[str, float]
    berths: Berths = field(init=False)
    _lights: dict[int, Daylight | None] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.berths = Berths(self.plant, self.library.moves)

    def light_on(self, number: int) -> Daylight | None:
        """Return the light on a day of the trial, counted from 0."""
        if number not in self._lights:
            self._lights[number] = self.light(number)
        return self._lights[number]


@dataclass(frozen=True)
class Fit:
    """Rounds with their timetable."""

    rounds: tuple[Round, ...]
    problem: Problem
    timetable: Timetable

    @property
    def missing(self) -> frozenset[str]:
        """Return the rounds that found no place, wholly or with their finish."""
        return frozenset(self.problem.tasks[index].id.partition("#")[0] for index in self.timetable.missing)


def fit(
    checks: Sequence[PlannedCheck],
    wishes: Wishes,
    ground: Ground,
    passes: int | None = None,
    way: int = 0,
) -> Fit:
    """Return rounds and timetable of the checks; those that find no place in the days stay without one."""
    rounds = rounds_of(ground.grouped, checks)
    by_id = {check.id: check for check in checks}
    people = len(wishes.people)
    tasks = tasks_of(rounds, by_id, ground.plant, ground.library, people, ground.risks)
    if wishes.minutes is not None:
        days = days_of(tasks, wishes, ground, wishes.days or 1)
        problem = _problem(tasks, days, wishes, ground)
        return _numbered(rounds, problem, best_timetable(problem, passes, way))
    count = 2 + ceil(1.6 * lower_bound(_problem(tasks, (), wishes, ground)) / wishes.day_minutes)
    problem = _problem(
        tasks, days_of(tasks, wishes, ground, min(count, MOST_DAYS), shift=False), wishes, ground
    )
    first = best_timetable(problem, 1)
    latest = max(
        (one.start for one in first.placed if one.task is not None and not tasks[one.task].gathers), default=0
    )
    used = max((number for number, day in enumerate(problem.days) if day.start <= latest), default=0)
    for count in range(max(1, used - 1), used + 5):
        problem = _problem(tasks, days_of(tasks, wishes, ground, count), wishes, ground)
        found = best_timetable(problem, passes)
        if not found.missing:
            break
    return _numbered(rounds, problem, found)


def days_of(
    tasks: Sequence[Task], wishes: Wishes, ground: Ground, count: int, shift: bool = True
) -> tuple[Day, ...]:
    """Return the working days; one begins later where work in the dark has to fit in: the last, or the one before
    where something comes after it."""
    hour, minute = wishes.usual.start.split(":")
    base = int(wishes.start) if wishes.start is not None else int(hour) * 60 + int(minute)
    length = int(wishes.day_minutes)
    in_dark, followed = _minutes_in_dark(tasks, len(wishes.people))
    evening = max(0, count - 2) if followed else count - 1
    days = []
    for number in range(count):
        light, dark = windows(ground.light_on(number))
        start = base
        if shift and number == evening and in_dark and dark and wishes.start is None:
            last_light = max(begin for begin, _ in dark)
            start = max(base, 5 * ceil((last_light + in_dark + wishes.usual.bilges_again - length) / 5))
        offset = number * DAY
        days.append(
            Day(
                offset + start,
                offset + start + length,
                (offset + light[0], offset + light[1]) if light else None,
                tuple((offset + begin, offset + end) for begin, end in dark) if dark is not None else None,
            )
        )
    return tuple(days)


def _minutes_in_dark(tasks: Sequence[Task], people: int) -> tuple[int, bool]:
    """Return how long the work in the dark takes, with what it is finished by, and whether something follows it."""
    dark = {index for index, task in enumerate(tasks) if task.light == "dark"}
    longest = max((tasks[index].minutes for index in dark), default=0)
    minutes = max(longest, ceil(sum(tasks[index].work for index in dark) / people)) + LAST_MINUTE * len(dark)
    followed = False
    for task in tasks:
        wait = max((lag for before, lag in task.after if before in dark), default=0)
        if task.light != "any" or not any(before in dark for before, _ in task.after):
            continue
        followed = True
        if wait <= LONG_WAIT:
            minutes += wait + task.minutes + LAST_MINUTE
    return minutes, followed


def _problem(tasks: tuple[Task, ...], days: tuple[Day, ...], wishes: Wishes, ground: Ground) -> Problem:
    subjects = {subject for task in tasks for subject in (*task.needs, *task.leaves)}
    states = {subject: state for subject in sorted(subjects) if (state := ground.plant.at_start(subject))}
    home = frozenset(
        name
        for name, setting in ground.library.settings.items()
        if not (setting.away or setting.anywhere or setting.at)
    )
    return Problem(
        tasks=tasks,
        people=len(wishes.people),
        days=days,
        changes=ground.berths,
        states=states,
        place=_first_place(tasks, home, ground.library),
        home=home,
        away_minutes=int(wishes.sea_minutes) if wishes.sea_minutes is not None else None,
        meal=int(wishes.usual.meal),
        meal_after=int(wishes.usual.meal_after * 60),
        last_look=int(wishes.usual.bilges_again),
    )


def _first_place(tasks: Sequence[Task], home: frozenset[str], library: Library) -> str:
    """Return where she lies when the trial begins: the first setting in which something can be done at once."""
    free = [
        task.place
        for task in tasks
        if task.place in home and all(tasks[before].place in (None, task.place) for before, _ in task.after)
    ]
    counted = Counter(place for place in free if place)
    if counted:
        return min(counted, key=lambda place: library.settings[place].order)
    return max(home, key=lambda place: library.settings[place].order, default="")


def _numbered(rounds: Sequence[Round], problem: Problem, timetable: Timetable) -> Fit:
    """Number the rounds in the order in which they begin; the tasks keep their own order."""
    begins = {one.task: (one.start, one.people) for one in timetable.placed if one.task is not None}
    order = sorted(
        range(len(rounds)), key=lambda index: (index not in begins, begins.get(index, (0, ())), index)
    )
    number = {index: place for place, index in enumerate(order, start=1)}
    numbered = [one.model_copy(update={"number": number[index]}) for index, one in enumerate(rounds)]
    return Fit(tuple(sorted(numbered, key=lambda one: one.number)), problem, timetable)


def without_rounds(checks: Sequence[PlannedCheck], fitted: Fit) -> frozenset[str]:
    """Return the checks of the rounds that found no place, and not only because what comes before them found none."""
    missing = fitted.missing
    first = [one for one in fitted.rounds if one.id in missing and not missing & set(one.after)]
    return frozenset(id for one in first for id in one.checks)
