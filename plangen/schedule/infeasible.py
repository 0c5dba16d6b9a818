"""Wishes that can't be met, in words, and the smallest change that would do."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from math import ceil

from plangen.plan.day import Infeasible, LeftOut, clock
from plangen.plan.model import PlannedCheck
from plangen.schedule.choice import cost_of
from plangen.schedule.course import each_of
from plangen.schedule.fit import fit
from plangen.schedule.light import windows
from plangen.schedule.scope import without
from plangen.schedule.select import BUSY, Field, Selection, all_needed, candidates_of
from plangen.schedule.wishes import Wishes

LONGEST_DAY = 16 * 60
FURTHEST = 240


def infeasible_of(field: Field, selection: Selection) -> tuple[Infeasible, ...]:
    """Return the wishes that the selection doesn't meet."""
    return (*_people(field, selection), *_light(field, selection), *_first_priority(field, selection))


def _people(field: Field, selection: Selection) -> Iterator[Infeasible]:
    wishes = field.wishes
    have = len(wishes.people)
    if wishes.minutes is None:
        more = [one for one in selection.fitted.rounds if one.people > have and wishes.people_stated]
        ids = tuple(id for one in more for id in one.checks)
        hours = sum(one.minutes + one.finish for one in more) / 60
        want = max((one.people for one in more), default=0)
    else:
        by_id = {check.id: check for check in field.checks}
        few = [by_id[one.check] for one in selection.left_out if one.why == "people"]
        ids = tuple(check.id for check in few)
        hours = sum(each_of(check) for check in few) / 60
        want = max((field.ground.grouped.kinds.hands(check) for check in few), default=0)
    if not ids:
        return
    first = sum(1 for check in field.checks if check.id in set(ids) and check.priority == 1)
    decide = f", {first} of them of priority 1" if first else ""
    yield Infeasible(
        wish=f"all of it with {_count(have, 'person', 'people')}",
        why=f"{_count(len(ids), 'check needs', 'checks need')} up to {want} people{decide}.",
        change=f"{_count(want - have, 'more person', 'more people')} for {_hours(hours)}.",
        checks=ids,
    )


def _light(field: Field, selection: Selection) -> Iterator[Infeasible]:
    missing = [one for one in selection.left_out if one.why == "darkness"]
    ids = [one.check for one in missing]
    if field.wishes.minutes is None:
        lost = {selection.fitted.problem.tasks[index].id for index in selection.fitted.timetable.missing}
        settings = field.ground.library.settings
        ids += [
            id
            for one in selection.fitted.rounds
            if one.id in lost and settings[one.setting].light == "dark"
            for id in one.checks
        ]
    if not ids:
        return
    dark = windows(field.ground.light_on(0))[1]
    if dark == ():
        date = next((number for number in range(1, FURTHEST) if windows(field.ground.light(number))[1]), None)
        change = (
            f"Begin {date} days later, the first night that gets dark."
            if date
            else "Another place or season."
        )
        why = "The sky doesn't get dark there on that day."
    else:
        begin = max((begin for begin, _ in dark or ()), default=0)
        minutes = sum(check.minutes for check in field.checks if check.id in set(ids)) / len(
            field.wishes.people
        )
        start = begin + minutes + 10 - field.wishes.day_minutes
        why = f"It is dark from {clock(begin)}, after the work of the day has ended."
        change = f"Begin at {clock(5 * ceil(start / 5))}, or stay until {clock(begin + minutes + 10)}."
    yield Infeasible(
        wish=f"{_count(len(ids), 'check', 'checks')} after dark", why=why, change=change, checks=tuple(ids)
    )


def _first_priority(field: Field, selection: Selection) -> Iterator[Infeasible]:
    wishes = field.wishes
    short = [
        one
        for one in selection.left_out
        if one.priority == 1 and one.why not in ("people", "darkness", "priority")
    ]
    short = [one for one in short if not (one.why == "order" and _without_people(one, selection))]
    if wishes.minutes is None or not short:
        return
    out = {one.check for one in selection.left_out if one.why in ("people", "darkness")}
    needed = all_needed(
        field, {check.id for check in field.checks if check.priority == 1 and check.id not in out}
    )
    checks = without(
        field.checks, {check.id for check in field.checks if check.id not in needed or check.id in out}
    )
    candidates = candidates_of(field, checks)
    work = cost_of(candidates, range(len(candidates)))[0]
    have = wishes.minutes * (wishes.days or 1) * len(wishes.people)
    ways = [*_longer_day(checks, field), *_more_days(checks, field), *_more_people(checks, field)]
    yield Infeasible(
        wish=f"everything of priority 1 in {_wished(wishes)}",
        why=(
            f"{_count(len(short), 'check', 'checks')} of priority 1 found no place. "
            f"All of priority 1 with what it needs is {_hours(work / 60)} of work; there are {_hours(have / 60)}, "
            "and changes, moves and waiting for each other take a part of them."
        ),
        change=f"{', or '.join(ways)}." if ways else _roughly(work, wishes),
        checks=tuple(one.check for one in short),
    )


def _roughly(work: float, wishes: Wishes) -> str:
    """Say how many such days the work takes where no one change alone gives everything its place."""
    a_day = (wishes.minutes or 1.0) * len(wishes.people) * BUSY
    return f"About {ceil(work / a_day)} such days, or fewer checks of priority 1."


def _without_people(one: LeftOut, selection: Selection) -> bool:
    return "people" in one.words and any(other.why == "people" for other in selection.left_out)


def _fits(checks: Sequence[PlannedCheck], wishes: Wishes, field: Field) -> bool:
    """Tell whether checks find their places; those with more work than there are hours aren't even tried."""
    have = (wishes.minutes or 0.0) * (wishes.days or 1) * len(wishes.people)
    work = sum(
        each_of(check) * min(field.ground.grouped.kinds.hands(check), len(wishes.people)) for check in checks
    )
    return work <= have and not fit(checks, wishes, field.ground, 1).missing


def _longer_day(checks: Sequence[PlannedCheck], field: Field) -> Iterator[str]:
    """Say the shortest longer day that would do, to the half hour."""
    wishes = field.wishes
    low = int((wishes.minutes or 0) // 30) + 1
    steps = range(low, LONGEST_DAY // 30 + 1)
    found = _least(steps, lambda half: _fits(checks, replace(wishes, minutes=half * 30.0), field))
    if found is not None:
        days = " a day" if (wishes.days or 1) > 1 else ""
        yield f"{found / 2:g} h{days} in place of {(wishes.minutes or 0) / 60:g} h"


def _more_days(checks: Sequence[PlannedCheck], field: Field) -> Iterator[str]:
    have = field.wishes.days or 1
    found = _least(
        range(have + 1, have + 9), lambda days: _fits(checks, replace(field.wishes, days=days), field)
    )
    if found is not None:
        yield f"{found} days"


def _more_people(checks: Sequence[PlannedCheck], field: Field) -> Iterator[str]:
    names = field.wishes.people
    for more in (1, 2):
        people = (*names, *(f"person {number + 1} more" for number in range(more)))
        if _fits(checks, replace(field.wishes, people=people), field):
            yield f"{len(people)} people"
            return


def _least(steps: range, fits: Callable[[int], bool]) -> int | None:
    """Return the least step that fits, where more always does as well as less."""
    low, high = 0, len(steps) - 1
    if high < 0 or not fits(steps[high]):
        return None
    while low < high:
        middle = (low + high) // 2
        if fits(steps[middle]):
            high = middle
        else:
            low = middle + 1
    return steps[low]


def _wished(wishes: Wishes) -> str:
    days = f"{wishes.days} days of " if (wishes.days or 1) > 1 else ""
    return f"{days}{(wishes.minutes or 0) / 60:g} h with {_count(len(wishes.people), 'person', 'people')}"


def _count(number: int, one: str, many: str) -> str:
    return f"{number} {one if number == 1 else many}"


def _hours(hours: float) -> str:
    return f"{hours:.1f} h"
