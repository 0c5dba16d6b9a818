"""Putting checks in an order that respects what must come first."""

from __future__ import annotations

import heapq
from collections.abc import Sequence

from plangen.packs.library import Library
from plangen.plan.expand import DraftedCheck
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
    wet = [one for one in drafted if one.check.wet is not None]
    found: dict[str, tuple[str, ...]] = {}
    for one in drafted:
        before: dict[str, None] = {}
        for rule_id in one.rule.after:
            others = by_rule.get(rule_id, [])
            same_list = (
                one.rule.for_each is not None and others and others[0].rule.for_each == one.rule.for_each
            )
            before.update((o.check.id, None) for o in others if not same_list or o.subject == one.subject)
        if one.zones_after_wet is not None:
            zones = one.zones_after_wet
            before.update(
                (o.check.id, None) for o in wet if o is not one and (not zones or o.check.wet in zones)
            )
        found[one.check.id] = tuple(before)
    return found


def in_order(drafted: Sequence[DraftedCheck], library: Library) -> list[PlannedCheck]:
    """Return the checks in an order that respects what must come first, by setting where that leaves a choice."""
    before = predecessors(drafted)
    waiting = {id: len(ids) for id, ids in before.items()}
    after: dict[str, list[DraftedCheck]] = {}
    rank: dict[str, tuple[int, int, int, int]] = {}
    for one in drafted:
        rank[one.check.id] = (library.settings[one.check.setting].order, *one.place)
        for id in before[one.check.id]:
            after.setdefault(id, []).append(one)
    by_id = {one.check.id: one for one in drafted}
    ready = [(rank[id], id) for id, count in waiting.items() if count == 0]
    heapq.heapify(ready)
    ordered: list[PlannedCheck] = []
    while ready:
        _, id = heapq.heappop(ready)
        ordered.append(by_id[id].check.model_copy(update={"after": before[id]}))
        for follower in after.get(id, []):
            name = follower.check.id
            waiting[name] -= 1
            if waiting[name] == 0:
                heapq.heappush(ready, (rank[name], name))
    if len(ordered) < len(drafted):
        stuck = sorted(id for id, count in waiting.items() if count > 0)
        raise ValueError(f"checks that wait for one another: {', '.join(stuck[:6])}")
    return ordered
