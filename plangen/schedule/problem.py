"""The timetable as a problem of numbers: tasks, people, days, states and places, with nothing of any boat in it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Protocol

from plangen.schedule.plant import Change

Light = str  # any, day or dark


@dataclass(frozen=True)
class Task:
    """Work without a break: a round, or the finish of one that had to wait.

    One person leads it from beginning to end. `people` is how many take part; `helpers` says for each of the others
    how many minutes after the beginning they are needed and for how long: all the time where nothing is said. `after` gives the tasks that come first, each with minutes that must lie between. `holds` are the subjects
    whose state nobody may change until the task `until` is over. What `gathers` comes after all that is done of what it
    follows: on the last day its time is kept for it.
    """

    id: str
    minutes: int
    people: int
    place: str | None = None
    light: Light = "any"
    away: bool = False
    needs: Mapping[str, frozenset[str]] = field(default_factory=dict)
    leaves: Mapping[str, str] = field(default_factory=dict)
    after: tuple[tuple[int, int], ...] = ()
    excludes: int = 0
    holds: frozenset[str] = frozenset()
    until: int | None = None
    wets: bool = False
    worth: float = 1.0
    decides: bool = False
    gathers: bool = False
    helpers: tuple[tuple[int, int], ...] = ()

    def __post_init__(self) -> None:
        if len(self.helpers) != self.people - 1:
            object.__setattr__(self, "helpers", ((0, self.minutes),) * (self.people - 1))

    @property
    def work(self) -> int:
        """Return the person-minutes."""
        return self.minutes + sum(minutes for _, minutes in self.helpers)

    def held_by(self, people: int) -> int:
        """Return for how many minutes so many people at least are at it."""
        if people == 1:
            return self.minutes
        return self.helpers[people - 2][1] if people <= self.people else 0


@dataclass(frozen=True)
class Day:
    """A working day in minutes from midnight of the first day; light and dark as (from, to), where known."""

    start: int
    end: int
    light: tuple[int, int] | None = None
    dark: tuple[tuple[int, int], ...] | None = None

    def lit(self, light: Light, start: int, end: int) -> bool:
        """Tell whether the light is right from start to end."""
        if light == "day" and self.light is not None:
            return self.light[0] <= start and end <= self.light[1]
        if light == "dark" and self.dark is not None:
            return any(begin <= start and end <= close for begin, close in self.dark)
        return True

    def next_lit(self, light: Light, start: int, minutes: int) -> int | None:
        """Return the first minute from start on at which the light is right for so long."""
        windows: tuple[tuple[int, int], ...] | None = None
        if light == "day" and self.light is not None:
            windows = (self.light,)
        elif light == "dark":
            windows = self.dark
        if windows is None:
            return start
        starts = [max(start, begin) for begin, close in windows if max(start, begin) + minutes <= close]
        return min(starts, default=None)


class Changes(Protocol):
    """What says how a state is made and how a place is reached."""

    def change(self, subject: str, before: str, states: frozenset[str]) -> Change:
        """Return the quickest way from one state into one of several."""
        ...

    def by_itself(self, subject: str, minutes: float) -> str | None:
        """Return the state that something comes into when nobody touches it for so long."""
        ...

    def moves(self, before: str, after: str) -> Sequence[Change]:
        """Return the steps from one place to another."""
        ...


@dataclass(frozen=True)
class Problem:
    """What has to be put into a timetable."""

    tasks: tuple[Task, ...]
    people: int
    days: tuple[Day, ...]
    changes: Changes
    states: Mapping[str, str] = field(default_factory=dict)
    place: str = ""
    home: frozenset[str] = frozenset()
    away_minutes: int | None = None
    meal: int = 0
    meal_after: int = 300
    last_look: int = 0


@dataclass(frozen=True)
class Placed:
    """A task, or a change where it has no task, in the timetable. People are numbers of lanes.

    Help with a task has the `kind` help and says which task it `helps`.
    """

    start: int
    minutes: int
    people: tuple[int, ...]
    task: int | None = None
    change: Change | None = None
    kind: str = "task"
    helps: int | None = None

    @property
    def end(self) -> int:
        """Return the minute at which it is over."""
        return self.start + self.minutes


@dataclass(frozen=True)
class Timetable:
    """When everything happens, what found no place, and in which states the trial must begin.

    `changed` counts the changes of state, a move of the boat for several. `way` is the number of the usual way of
    making it that gave it, or that it was improved from.
    """

    placed: tuple[Placed, ...]
    missing: tuple[int, ...]
    prepared: Mapping[str, str]
    span: int
    changed: int
    lost: float = 0.0
    way: int = 0
    days: int = 1

    @property
    def cost(self) -> tuple[float, int, int]:
        """Return what is kept small: the worth of tasks without a place, then span and changes.

        On one day the span comes first, so that time is left over. In several days nothing is won by an earlier end
        of the last, but much by going out once instead of three times.
        """
        if self.days > 1:
            return round(self.lost, 3), self.changed, self.span
        return round(self.lost, 3), self.span, self.changed


def working_minutes(days: Sequence[Day], minute: int) -> int:
    """Return how much of the days lies before a minute."""
    return sum(max(0, min(minute, day.end) - day.start) for day in days)
