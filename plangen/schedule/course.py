"""What happens in a round, line by line: the order of its checks, when hands are needed, and what is read after a wait."""

from __future__ import annotations

import heapq
from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass

from plangen.plan.model import PlannedCheck


@dataclass(frozen=True)
class Course:
    """The lines of a round with its times in minutes.

    `minutes` is the work of whoever leads until the waiting begins, `wait` what then still runs by itself, and `finish` what
    reading the `finishing` checks takes after it. `helpers` says for each further person from when on and for how
    long they are needed.
    """

    checks: tuple[PlannedCheck, ...]
    minutes: float
    wait: float
    finish: float
    finishing: tuple[str, ...]
    helpers: tuple[tuple[float, float], ...]


def each_of(check: PlannedCheck) -> float:
    """Return the minutes of a check without setting up."""
    return max(0.0, check.minutes - check.minutes_once)


def in_lines(
    checks: Sequence[PlannedCheck], hands: Callable[[PlannedCheck], int]
) -> tuple[PlannedCheck, ...]:
    """Return the checks of a round in the order of its lines.

    Nothing comes before what it follows; what more than one person does stands together, so that the second is
    needed once; and what has to wait is begun early.
    """
    inside = {check.id for check in checks}
    before = {check.id: [id for id in check.after if id in inside] for check in checks}
    shared = {check.id for check in checks if hands(check) > 1}
    if not shared and not any(check.minutes_wait for check in checks):
        return tuple(checks)
    followers: dict[str, list[str]] = {check.id: [] for check in checks}
    for id, earlier in before.items():
        for one in earlier:
            followers[one].append(id)
    first, last = _reached(shared, before), _reached(shared, followers)
    waits = {check.id: check.minutes_wait for check in checks}
    waiting = _reached([id for id, wait in waits.items() if wait], before)

    def part(check: PlannedCheck) -> int:
        if check.id in shared or (check.id in first and check.id in last):
            return 1
        if check.id in first:
            return 0
        return 0 if check.id in waiting and check.id not in last else 2

    rank = {
        check.id: (part(check), -hands(check), check.id not in waiting, place)
        for place, check in enumerate(checks)
    }
    by_id = {check.id: check for check in checks}
    missing = {id: len(earlier) for id, earlier in before.items()}
    ready = [(rank[id], id) for id, count in missing.items() if not count]
    heapq.heapify(ready)
    lines = []
    while ready:
        _, id = heapq.heappop(ready)
        lines.append(by_id[id])
        for one in followers[id]:
            missing[one] -= 1
            if not missing[one]:
                heapq.heappush(ready, (rank[one], one))
    return tuple(lines)


def _reached(ids: Collection[str], ways: dict[str, list[str]]) -> set[str]:
    found: set[str] = set()
    heap = [one for id in ids for one in ways[id]]
    while heap:
        id = heap.pop()
        if id not in found:
            found.add(id)
            heap += ways[id]
    return found


def course_of(
    checks: Sequence[PlannedCheck],
    once: float,
    set_up: Collection[str],
    hands: Callable[[PlannedCheck], int],
) -> Course:
    """Return the course of a round whose lines are in order.

    `once` is the time to get there, and `set_up` are the rules for which everything was set up in an earlier round.
    A check that waits is half done before the wait and half after it.
    """
    now = once
    known = set(set_up)
    begins: list[float] = []
    ends: list[float] = []
    for check in checks:
        if check.rule not in known:
            known.add(check.rule)
            now += check.minutes_once
        begins.append(now)
        now += each_of(check) / (2 if check.minutes_wait else 1)
        ends.append(now)
    later = {check.id: each_of(check) / 2 for check in checks if check.minutes_wait}
    whole = now + sum(later.values())
    due = {
        check.id: end + check.minutes_wait
        for check, end in zip(checks, ends, strict=True)
        if check.minutes_wait
    }
    finishing = tuple(check.id for check in checks if due.get(check.id, 0.0) > whole)
    finish = sum(later[id] for id in finishing)
    minutes = whole - finish
    wait = max((due[id] for id in finishing), default=minutes) - minutes
    return Course(
        tuple(checks),
        round(minutes, 1),
        round(max(wait, 0.0), 1),
        round(finish, 1),
        finishing,
        _helpers(checks, begins, ends, hands),
    )


def _helpers(
    checks: Sequence[PlannedCheck],
    begins: Sequence[float],
    ends: Sequence[float],
    hands: Callable[[PlannedCheck], int],
) -> tuple[tuple[float, float], ...]:
    """Return for each further person from when on they are needed, and for how long."""
    most = max((hands(check) for check in checks), default=1)
    found = []
    for person in range(2, most + 1):
        own = [place for place, check in enumerate(checks) if hands(check) >= person]
        start = begins[own[0]]
        found.append((round(start, 1), round(ends[own[-1]] - start, 1)))
    return tuple(found)
