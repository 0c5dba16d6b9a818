"""Putting checks in an order that respects what must come first."""

from __future__ import annotations

import heapq
from collections.abc import Sequence

from plangen.packs.library import Library
from plangen.plan.drafted import DraftedCheck
from plangen.plan.model import PlannedCheck


def predecessors(drafted: Sequence[DraftedCheck]) -> dict[str, tuple[str, ...]]:
    """Return for each check the checks that must come before it.

    A rule that comes after another waits for that rule's check of the same item where both run over the
    same list, and otherwise for all its checks. A check that follows the wet ones waits for every check that
    wets its zones.
    """
    by_rule: dict[str, list[DraftedCheck]] = {}
    for one in drafted:
        by_rule.setdefault(one.rule.id, []).append(one)
    wet = [one for one in drafted if one.check.wets is not None]
    found: dict[str, tuple[str, ...]] = {}
    for one in drafted:
        before: dict[str, None] = {}
        for rule_id in one.rule.earlier:
            others = by_rule.get(rule_id, [])
            same_list = (
                one.rule.for_each is not None and others and others[0].rule.for_each == one.rule.for_each
            )
            before.update((o.check.id, None) for o in others if not same_list or o.subject == one.subject)
        if one.zones_after_wet is not None:
            zones = one.zones_after_wet
            before.update(
                (o.check.id, None) for o in wet if o is not one and (not zones or o.check.wets in zones)
            )
        found[one.check.id] = tuple(before)
    return found


def in_order(drafted: Sequence[DraftedCheck], library: Library) -> list[PlannedCheck]:
    """Return the checks in an order that respects what must come first and changes setting and system seldom.

    Whatever can be done in the present setting is done before the setting is left, and within it whatever
    can be done in the present system.
    """
    before = predecessors(drafted)
    waiting = {id: len(ids) for id, ids in before.items()}
    after: dict[str, list[DraftedCheck]] = {}
    for one in drafted:
        for id in before[one.check.id]:
            after.setdefault(id, []).append(one)
    ready = _Ready(library)
    for one in drafted:
        if waiting[one.check.id] == 0:
            ready.add(one)
    ordered: list[PlannedCheck] = []
    while (taken := ready.take()) is not None:
        id = taken.check.id
        ordered.append(taken.check.model_copy(update={"after": before[id]}))
        for follower in after.get(id, []):
            waiting[follower.check.id] -= 1
            if waiting[follower.check.id] == 0:
                ready.add(follower)
    if len(ordered) < len(drafted):
        stuck = sorted(id for id, count in waiting.items() if count > 0)
        raise ValueError(f"checks that wait for one another: {', '.join(stuck[:6])}")
    return ordered


class _Ready:
    """The checks that may be done now, by setting and system."""

    def __init__(self, library: Library) -> None:
        self._orders = {name: setting.order for name, setting in library.settings.items()}
        self._heaps: dict[int, dict[int, list[tuple[int, int, str, DraftedCheck]]]] = {}
        self._setting = 0
        self._system = 0

    def add(self, one: DraftedCheck) -> None:
        system, rule, item = one.place
        systems = self._heaps.setdefault(self._orders[one.check.setting], {})
        heapq.heappush(systems.setdefault(system, []), (rule, item, one.check.id, one))

    def take(self) -> DraftedCheck | None:
        if not self._heaps:
            return None
        if self._setting not in self._heaps:
            self._setting = min(self._heaps)
            self._system = 0
        systems = self._heaps[self._setting]
        if self._system not in systems:
            self._system = min((s for s in systems if s > self._system), default=min(systems))
        heap = systems[self._system]
        taken = heapq.heappop(heap)[3]
        if not heap:
            del systems[self._system]
        if not systems:
            del self._heaps[self._setting]
        return taken
