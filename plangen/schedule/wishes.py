"""Who comes, for how long, and what was agreed: the spec's trial with what the command line says instead."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from plangen.packs.library import Library
from plangen.packs.model import UsualDay
from plangen.schedule.codes import letter
from plangen.spec.load import LoadedSpec
from plangen.spec.model.vessel import Trial
from plangen.spec.problems import InputProblems, Problem, name_list, nearest_name


@dataclass(frozen=True)
class Instead:
    """What is taken instead of the spec's trial."""

    hours: float | None = None
    people: int | None = None
    days: int | None = None
    priority: int | None = None

    @property
    def stated(self) -> dict[str, float]:
        """Return what is said."""
        return {key: value for key, value in vars(self).items() if value is not None}


@dataclass(frozen=True)
class Wishes:
    """The trial that is wanted; minutes a day are nothing where the plan is to be whole."""

    people: tuple[str, ...]
    people_stated: bool
    days: int | None
    minutes: float | None
    sea_minutes: float | None
    priority: int
    start: float | None
    agreed: Mapping[str, bool]
    usual: UsualDay

    @property
    def day_minutes(self) -> float:
        """Return how long a day of the trial is."""
        return self.minutes if self.minutes is not None else self.usual.hours * 60


def wishes_of(loaded: LoadedSpec, library: Library, instead: Instead) -> Wishes:
    """Return the trial that is wanted.

    Raises `InputProblems` for a scope that the catalogue doesn't know.
    """
    trial: Trial = loaded.spec.trial
    problems = [
        Problem(loaded.mark_of(("trial", "scope", name)), f"trial.scope.{name}", f"unknown scope {name!r}",
                name_list(list(library.scopes), 40), nearest_name(name, list(library.scopes)))
        for name in trial.scope
        if name not in library.scopes
    ]  # fmt: skip
    if problems:
        raise InputProblems(problems)
    usual = library.usual_day or UsualDay(start="08:00", hours=8, people=2, why="")
    people = instead.people if instead.people is not None else trial.people
    hours = instead.hours
    if hours is None and trial.hours is not None:
        hours = float(trial.hours.to("hour").magnitude)
    sea = float(trial.sea_trial.to("minute").magnitude) if trial.sea_trial is not None else None
    return Wishes(
        people=_names(people if people is not None else usual.people),
        people_stated=people is not None,
        days=instead.days or trial.days or (1 if hours is not None else None),
        minutes=hours * 60 if hours is not None else None,
        sea_minutes=sea,
        priority=instead.priority or trial.priority or 3,
        start=_minute(trial.start) if trial.start else None,
        agreed={name: trial.scope.get(name, scope.agreed) for name, scope in library.scopes.items()},
        usual=usual,
    )


def _names(people: int | tuple[str, ...]) -> tuple[str, ...]:
    if isinstance(people, int):
        return tuple(letter(number).upper() for number in range(people))
    return tuple(people)


def _minute(time: str) -> float:
    hour, minute = time.split(":")
    return int(hour) * 60.0 + int(minute)
