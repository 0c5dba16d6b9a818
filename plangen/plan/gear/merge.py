"""Several jurisdictions' demands merged: the fewest purchases that meet them all, and the inventory by item."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import ceil

from plangen.packs.law import ApprovalMark, GearGroup, GearItem
from plangen.plan.gear.lines import Demand, GearLine, GearPurchase
from plangen.plan.gear.purchases import Purchase, Stock, Wanted, purchases
from plangen.plan.gear.shopping import in_place_of, shopping_line
from plangen.plan.gear.stock import Days, Judge, stock_of
from plangen.spec.model.safety import GearAboard

Pairs = Sequence[tuple[str, Demand]]


@dataclass(frozen=True)
class Gear:
    """What the catalogue knows of gear, and the titles of the laws."""

    items: Mapping[str, GearItem]
    groups: Mapping[str, GearGroup]
    marks: Mapping[str, ApprovalMark]
    titles: Mapping[str, str]


@dataclass(frozen=True)
class Merged:
    """The inventory by item, and what to buy or find."""

    lines: tuple[GearLine, ...]
    shopping: tuple[GearPurchase, ...]


def merge(pairs: Pairs, gear: Gear, aboard: Sequence[GearAboard] = (), days: Days | None = None) -> Merged:
    """Return the inventory and the shopping list for all demands together.

    The order of the demands doesn't matter, and the same demand twice counts once. Recommendations never raise
    what is required: what they add is bought apart, or in place of something weaker.
    """
    judge = Judge(gear.items, gear.marks, days or Days())
    single = {(item, demand.key): (item, demand) for item, demand in pairs}
    known = [single[key] for key in sorted(single)]
    open_ = [
        pair for pair in known if gear.items[pair[0]].counted and not _by_alternative(pair, aboard, judge)
    ]
    stock = stock_of(aboard, open_, judge)
    required, required_rank = _wanted("required", open_, gear.items)
    recommended, recommended_rank = _wanted("recommended", open_, gear.items)
    needed = purchases(required, stock, required_rank)
    bought = [
        Stock(one.quantity, frozenset(w.id for w in recommended if w.takes(one.kind, one.mark)))
        for one in needed
    ]
    further = purchases(recommended, [*stock, *bought], recommended_rank)
    replaced = in_place_of(further, needed, required)
    order = _order(gear)
    lines = [shopping_line(one, "required", known, gear, {}) for one in needed]
    lines += [
        shopping_line(one, "recommended", known, gear, swaps)
        for one, swaps in zip(further, replaced, strict=True)
    ]
    lines.sort(key=lambda line: (line.strength == "recommended", order[line.item], line.id))
    by_item: dict[str, list[Demand]] = {}
    for item, demand in known:
        by_item.setdefault(item, []).append(demand)
    inventory = [
        _line(item, by_item[item], gear, aboard, judge, needed, further)
        for item in sorted(by_item, key=order.__getitem__)
    ]
    return Merged(tuple(inventory), tuple(lines))


def _wanted(
    strength: str, known: Pairs, items: Mapping[str, GearItem]
) -> tuple[list[Wanted], dict[str, int]]:
    """Return the demands of one strength, and which kinds come first for them."""
    mine = [(item, demand) for item, demand in known if demand.strength == strength]
    return [wanted_of(item, d, items) for item, d in mine], _rank(items, {item for item, _ in mine})


def wanted_of(item: str, demand: Demand, items: Mapping[str, GearItem]) -> Wanted:
    """Return a demand as the arithmetic of purchases takes it."""
    return Wanted(
        id=demand.key,
        quantity=ceil(round(demand.quantity, 6)),
        kinds=frozenset({item, *items[item].satisfied_by}),
        marks=frozenset(demand.marks),
        places_of=demand.jurisdiction if demand.own_place else None,
    )


def required_of(demands: Iterable[Demand], strength: str = "required") -> float:
    """Return how many units of one item the demands of a strength come to: places of their own add within a law."""
    shared: dict[str, float] = {}
    own: dict[str, float] = {}
    for demand in demands:
        if demand.strength == strength:
            by_law = own if demand.own_place else shared
            before = by_law.get(demand.jurisdiction, 0.0)
            by_law[demand.jurisdiction] = (
                before + demand.quantity if demand.own_place else max(before, demand.quantity)
            )
    return max((*shared.values(), *own.values()), default=0.0)


def _by_alternative(pair: tuple[str, Demand], aboard: Sequence[GearAboard], judge: Judge) -> bool:
    """Tell whether what the law takes in place of the item is aboard, complete and in date."""
    return any(
        all(
            _count(item, pair[1] if judge.catalogue[item].dated else None, aboard, judge) >= quantity
            for item, quantity in instead.items()
        )
        for instead in pair[1].alternatives
    )


def _count(item: str, demand: Demand | None, aboard: Sequence[GearAboard], judge: Judge) -> float:
    return sum(
        judge.amount(gear)
        for gear in aboard
        if judge.accepts(item, gear) and not judge.fault(item, demand, gear)
    )


def _rank(items: Mapping[str, GearItem], demanded: set[str]) -> dict[str, int]:
    """Rank the kinds: those that are asked for by name first, and of the others those that stand in for the least."""
    stands_in = dict.fromkeys(items, 0)
    for entry in items.values():
        for other in entry.satisfied_by:
            stands_in[other] = stands_in.get(other, 0) + 1
    ordered = sorted(items, key=lambda item: (item not in demanded, stands_in[item]))
    return {item: number for number, item in enumerate(ordered)}


def _order(gear: Gear) -> dict[str, tuple[int, int]]:
    groups = list(gear.groups)
    return {
        item: (groups.index(entry.group), number) for number, (item, entry) in enumerate(gear.items.items())
    }


def _line(
    item: str,
    demands: Sequence[Demand],
    gear: Gear,
    aboard: Sequence[GearAboard],
    judge: Judge,
    needed: Sequence[Purchase],
    further: Sequence[Purchase],
) -> GearLine:
    entry = gear.items[item]
    strength = next(
        s for s in ("required", "builder", "recommended") if any(d.strength == s for d in demands)
    )
    kinds = [one for one in aboard if judge.accepts(item, one)]
    # What counts for all who ask, and why other things don't count for some of them.
    faults = {id(one): [judge.fault(item, d, one) for d in demands] for one in kinds}
    good = [one for one in kinds if not any(faults[id(one)])]
    lapsed = dict.fromkeys(fault for one in kinds for fault in faults[id(one)] if fault)
    keys = {demand.key for demand in demands}
    buying = needed if strength == "required" else further if strength == "recommended" else ()
    instead = [one for one in (*needed, *further) if one.kind != item and one.meets & keys]
    dated = any(one.expires or one.made or one.serviced for one in kinds)
    notes = [] if judge.days.known or not dated else ["dates not judged: no day of trial or delivery"]
    return GearLine(
        item=item,
        title=entry.title,
        group=entry.group,
        quantity=required_of(demands, strength),
        strength=strength,
        recommended=required_of(demands, "recommended") if strength == "required" else 0.0,
        demands=tuple(demands),
        aboard=sum(judge.amount(one) for one in good),
        shortfall=float(sum(one.quantity for one in buying if one.kind == item)),
        met_by=tuple(dict.fromkeys(f"{one.quantity} × {gear.items[one.kind].title}" for one in instead)),
        expires=tuple(str(one.expires) for one in good if one.expires),
        lapsed=tuple(lapsed),
        seen_by=entry.seen_by,
        counted=entry.counted,
        note="; ".join(notes) or None,
    )
