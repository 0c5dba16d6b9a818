"""Fitting a plan to the days and the people: scope, choice, rounds, timetable, codes."""

from __future__ import annotations

import hashlib
import heapq
import json
from collections.abc import Sequence

from plangen.packs.library import Library
from plangen.plan.day import Round, Trial
from plangen.plan.draft import Draft, with_checks
from plangen.plan.model import Plan, PlannedCheck
from plangen.schedule.codes import with_codes
from plangen.schedule.plant import Plant
from plangen.schedule.rounds import Group, group_checks, kind_finder, kinds_of, rounds_of
from plangen.schedule.scope import outside_scope, without
from plangen.schedule.wishes import Instead, Wishes, wishes_of
from plangen.spec.load import LoadedSpec


def schedule(draft: Draft, loaded: LoadedSpec, library: Library, instead: Instead | None = None) -> Plan:
    """Return the plan fitted to the trial that the spec and the command line ask for.

    Raises `InputProblems` where the spec names a scope that the catalogue doesn't know.
    """
    instead = instead or Instead()
    wishes = wishes_of(loaded, library, instead)
    plan = draft.plan
    outside = outside_scope(plan.checks, wishes, library)
    checks = without(plan.checks, {one.check for one in outside})
    rounds = _rounds(checks, draft, loaded, library)
    return with_checks(plan, with_codes(checks, rounds), library).model_copy(
        update={
            "digest": _digest(plan.digest, instead),
            "trial": _trial(wishes, plan.checks, rounds),
            "rounds": rounds,
            "outside_scope": outside,
        }
    )


def _rounds(
    checks: Sequence[PlannedCheck], draft: Draft, loaded: LoadedSpec, library: Library
) -> tuple[Round, ...]:
    zone_kinds = {zone.name: zone.kind for zone in loaded.spec.zones}
    plant = Plant.of(draft.facts, library)
    groups = group_checks(checks, kind_finder(library, zone_kinds), kinds_of(library), plant, library)
    return rounds_of(groups, _in_order(groups, library))


def _in_order(groups: Sequence[Group], library: Library) -> list[int]:
    """Return the rounds' places in an order that respects what comes first, by setting and kind."""
    waiting = [group.before.bit_count() for group in groups]
    ready = [_place(groups, index, library) for index, count in enumerate(waiting) if not count]
    heapq.heapify(ready)
    ordered = []
    while ready:
        index = heapq.heappop(ready)[-1]
        ordered.append(index)
        for other, group in enumerate(groups):
            if group.before >> index & 1:
                waiting[other] -= 1
                if not waiting[other]:
                    heapq.heappush(ready, _place(groups, other, library))
    return ordered


def _place(groups: Sequence[Group], index: int, library: Library) -> tuple[int, int, int]:
    group = groups[index]
    return library.settings[group.checks[0].setting].order, group.kind.order, index


def _trial(wishes: Wishes, checks: Sequence[PlannedCheck], rounds: Sequence[Round]) -> Trial:
    chosen = {id for one in rounds for id in one.checks}
    return Trial(
        people=wishes.people,
        days=wishes.days or 1,
        hours=wishes.minutes / 60 if wishes.minutes is not None else None,
        sea_hours=wishes.sea_minutes / 60 if wishes.sea_minutes is not None else None,
        priority=wishes.priority,
        checks_apart=round(sum(check.minutes * check.people for check in checks if check.id in chosen), 1),
        rounds_together=round(sum(one.person_minutes for one in rounds), 1),
    )


def _digest(digest: str, instead: Instead) -> str:
    if not instead.stated:
        return digest
    return hashlib.sha256(json.dumps([digest, instead.stated], sort_keys=True).encode()).hexdigest()
