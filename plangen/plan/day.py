"""Rounds, the timetable, and what is left out of a trial."""

from __future__ import annotations

from typing import Literal

from plangen.plan.base import PlanModel


class Help(PlanModel):
    """How long one more person is needed in a round, and how many minutes after its beginning that is."""

    after: float
    minutes: float


class Round(PlanModel):
    """What one person does in one visit: checks of one place, setting and set of plant states.

    `id` is made of kind, place, setting and states and stays the same when the timetable changes; `number` is
    what is printed. `minutes` is the work of whoever leads, with setting up, `wait` what then runs by itself until
    the readings of the `finishing` checks can be taken, which takes `finish` minutes more. `helpers` are the people
    needed beside for a part of it, and `people` all who take part.
    """

    id: str
    number: int
    kind: str
    title: str
    zone: str | None = None
    zones: tuple[str, ...] = ()
    setting: str
    states: tuple[str, ...] = ()
    leaves: tuple[str, ...] = ()
    minutes: float
    wait: float = 0.0
    finish: float = 0.0
    finishing: tuple[str, ...] = ()
    people: int = 1
    helpers: tuple[Help, ...] = ()
    cautions: tuple[str, ...] = ()
    instruments: tuple[str, ...] = ()
    wets: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    checks: tuple[str, ...]

    @property
    def person_minutes(self) -> float:
        """Return the work of all who take part."""
        return self.minutes + self.finish + sum(one.minutes for one in self.helpers)


class TimetableStep(PlanModel):
    """Something that happens at a time: a round, help with one or its finish, a change of plant state or setting, a meal, a look.

    `start` counts minutes from midnight at the beginning of the session's day; `people` are the lanes that it
    takes up, none for what runs by itself. `caution` is what stands beside a change, in words.
    """

    kind: Literal["round", "help", "finish", "wait", "change", "meal", "bilges-again"]
    round: str | None = None
    title: str = ""
    start: float
    minutes: float
    people: tuple[str, ...] = ()
    caution: str | None = None

    @property
    def end(self) -> float:
        """Return the minute at which it is over."""
        return self.start + self.minutes

    @property
    def clock(self) -> str:
        """Return the time of day at which it begins."""
        return clock(self.start)


class StateBar(PlanModel):
    """How long something aboard is in one state, for the bars of the timetable."""

    subject: str
    state: str
    start: float
    end: float


class Daylight(PlanModel):
    """Light on a day at the place, in minutes from midnight of the place's time; nothing where the sun doesn't do it.

    `always` says so where it's light or dark all day and night.
    """

    zone: str
    always: Literal["light", "dark"] | None = None
    first_light: float | None = None
    sunrise: float | None = None
    sunset: float | None = None
    last_light: float | None = None


class PersonTime(PlanModel):
    """How long one person works in a session."""

    person: str
    minutes: float


class Session(PlanModel):
    """One day of the trial as it is worked: who does which round when."""

    id: str
    day: int
    date: str | None = None
    start: float
    end: float
    people: tuple[str, ...]
    daylight: Daylight | None = None
    rounds: tuple[str, ...] = ()
    steps: tuple[TimetableStep, ...] = ()
    bars: tuple[StateBar, ...] = ()
    work: tuple[PersonTime, ...] = ()

    def lane(self, person: str) -> tuple[TimetableStep, ...]:
        """Return what one person does, in order of time."""
        return tuple(step for step in self.steps if person in step.people)

    def leader(self, round: str) -> str:
        """Return who leads a round; nobody where it isn't begun in it."""
        found = (step.people for step in self.steps if step.kind == "round" and step.round == round)
        return next((people[0] for people in found if people), "")

    def help_with(self, round: str) -> tuple[TimetableStep, ...]:
        """Return who helps with a round, when and for how long."""
        return tuple(step for step in self.steps if step.kind == "help" and step.round == round)


class LeftOut(PlanModel):
    """A check that the plan doesn't hold because of time, people or light, and what stays unknown without it.

    `minutes` is the work that would bring it back, with what it needs done before it.
    """

    check: str
    title: str
    priority: int
    grade: str
    why: Literal["priority", "time", "sea-time", "people", "darkness", "daylight", "order", "series"]
    words: str
    minutes: float
    unknown: str


class SeriesTurn(PlanModel):
    """Whether a hull of a series is tried in full, why, and what she has because it failed on hulls before her."""

    full: bool
    why: str
    after_fails: dict[str, str] = {}


class OutsideScope(PlanModel):
    """A check for which something would have to be agreed that isn't."""

    check: str
    title: str
    scope: str
    why: str
    minutes: float
    unknown: str


class Infeasible(PlanModel):
    """A wish that can't be met, in words, and the smallest change that would do."""

    wish: str
    why: str
    change: str
    checks: tuple[str, ...] = ()


class Trial(PlanModel):
    """The days and people that the plan was fitted to, and how well it fits.

    `prepare` are the plant states that the other side is asked for before the trial begins.
    `checks_apart` is the person-minutes of the checks one by one, `rounds_together` those of the rounds.
    `critical_path` names the rounds that fix when the trial ends; `lower_bound` is the shortest that any order
    could take, and `span` what this one takes, in minutes. `in_hand` is the share of the hours that only what decides
    may use, the rest being kept for what goes wrong.
    """

    people: tuple[str, ...] = ()
    days: int = 1
    hours: float | None = None
    sea_hours: float | None = None
    in_hand: float = 0.0
    priority: int = 3
    prepare: tuple[str, ...] = ()
    checks_apart: float = 0.0
    rounds_together: float = 0.0
    span: float = 0.0
    lower_bound: float = 0.0
    critical_path: tuple[str, ...] = ()
    infeasible: tuple[Infeasible, ...] = ()


def clock(minute: float) -> str:
    """Write minutes from midnight as time of day.

    >>> clock(750), clock(1450)
    ('12:30', '00:10')
    """
    whole = round(minute)
    return f"{whole // 60 % 24:02d}:{whole % 60:02d}"
