"""Trials made up by chance: rounds of a few minutes to an hour, states with changes, a berth and the sea."""

from __future__ import annotations

from random import Random

from plangen.schedule.plant import Change
from plangen.schedule.problem import Day, Problem, Task

SHORE, SEA = "alongside", "under-way"
SWITCHES = ("shore power", "fresh water", "gas", "electronics")


class TwoPlaces:
    """Switches that turn within minutes, an engine that warms up and cools only overnight, a berth and the sea."""

    def change(self, subject: str, before: str, states: frozenset[str]) -> Change:
        """Return the quickest way from one state into one of several."""
        state = min(states)
        if subject == "engine":
            if "hot" in states:
                return Change(subject, "hot", 4, 15, 1, "warm up", None)
            return Change(subject, "cold", 0, 480, 0, "let it cool", None)
        return Change(subject, state, 3, 0, 1, f"{subject} {state}", None)

    def moves(self, before: str, after: str) -> tuple[Change, ...]:
        """Return the steps from one place to another."""
        return (Change("", after, 10 if after == SEA else 15, 0, 2, "go", None),) if before != after else ()

    def by_itself(self, subject: str, minutes: float) -> str | None:
        """Return the state that something comes into when nobody touches it for so long."""
        return "cold" if subject == "engine" and minutes >= 480 else None


def problem_by_chance(seed: int, size: int, people: int = 2, days: tuple[Day, ...] | None = None) -> Problem:
    """Return a trial of so many rounds, the same for the same seed."""
    chance = Random(seed)
    tasks: list[Task] = []
    for number in range(size):
        part = number / size
        at_sea = chance.random() < (0.0 if part < 0.4 else 0.6 if part < 0.8 else 0.1)
        needs = {
            subject: frozenset({"on" if chance.random() < 0.2 + 0.7 * part else "off"})
            for subject in SWITCHES
            if chance.random() < 0.15
        }
        early = part < 0.3 and chance.random() < 0.2
        engine = "hot" if at_sea and chance.random() < 0.4 else "cold" if early else None
        if engine:
            needs["engine"] = frozenset({engine})
        before = [
            (other, chance.choice((0, 0, 0, 20)))
            for other in chance.sample(range(number), min(number, 3))
            if chance.random() < 0.3
        ]
        minutes = chance.randrange(5, 61)
        shared = people > 1 and chance.random() < 0.3
        alone = chance.randrange(minutes) if shared and chance.random() < 0.5 else 0
        tasks.append(
            Task(
                id=f"round-{number}",
                minutes=minutes,
                people=2 if shared else 1,
                helpers=((alone, chance.randint(1, minutes - alone)),) if shared else (),
                place=SEA if at_sea else None if chance.random() < 0.15 else SHORE,
                light="day" if at_sea else "any",
                away=at_sea,
                needs=needs,
                after=tuple(before),
                wets=chance.random() < 0.2,
            )
        )
    tasks = _excluding(tasks, chance)
    days = days or (Day(480, 480 + 4000),)
    states = dict.fromkeys(SWITCHES, "off") | {"engine": "cold"}
    return Problem(tuple(tasks), people, days, TwoPlaces(), states, SHORE, frozenset({SHORE}))


def _excluding(tasks: list[Task], chance: Random) -> list[Task]:
    masks = [0] * len(tasks)
    for _ in range(len(tasks) // 5):
        one, other = chance.sample(range(len(tasks)), 2)
        masks[one] |= 1 << other
        masks[other] |= 1 << one
    return [Task(**{**vars(task), "excludes": mask}) for task, mask in zip(tasks, masks, strict=True)]
