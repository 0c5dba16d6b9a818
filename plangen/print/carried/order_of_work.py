"""The rounds in their order of work with their minutes: what a plan without hours has in place of a timetable."""

from __future__ import annotations

from dataclasses import dataclass

from plangen.plan.model import Plan
from plangen.print.carried.words import counted, hours, plain_title


@dataclass(frozen=True)
class WorkRow:
    """One round: where, how long, how many checks, and how many people."""

    id: str
    number: int
    title: str
    minutes: int
    people: int


@dataclass(frozen=True)
class WorkGroup:
    """The rounds of one setting."""

    title: str
    facts: str
    rows: tuple[WorkRow, ...]


def order_of_work(plan: Plan) -> tuple[WorkGroup, ...]:
    """Return the rounds by setting, each in their order, as they stand on the clipboards."""
    titles = {line.setting: line.title for line in plan.settings}
    groups = []
    for setting in dict.fromkeys(one.setting for one in plan.rounds):
        rounds = [one for one in plan.rounds if one.setting == setting]
        work = sum(one.person_minutes for one in rounds)
        facts = f"{counted(len(rounds), 'round')}, {hours(work)} of one person's work"
        rows = [
            WorkRow(one.id, one.number, plain_title(one.title), round(one.minutes + one.finish), one.people)
            for one in rounds
        ]
        groups.append(WorkGroup(titles.get(setting, setting), facts, tuple(rows)))
    return tuple(groups)
