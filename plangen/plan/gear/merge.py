"""Several jurisdictions' demands merged to one inventory, and what is aboard taken off."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence

from plangen.packs.model import GearItem
from plangen.plan.model import Demand, GearLine
from plangen.spec.model.safety import GearAboard


def merge(
    item_demands: Sequence[tuple[str, Demand]],
    catalogue: Mapping[str, GearItem],
    aboard: Sequence[GearAboard] = (),
    day: datetime.date | None = None,
) -> tuple[GearLine, ...]:
    """Return one line for each gear item with the quantity that satisfies everyone who demands it.

    The order of the demands doesn't matter, and the same demand twice counts once.
    """
    by_item: dict[str, list[Demand]] = {}
    for item, demand in item_demands:
        listed = by_item.setdefault(item, [])
        if demand not in listed:
            listed.append(demand)
    groups = list(dict.fromkeys(entry.group for entry in catalogue.values()))
    order = {item: (groups.index(entry.group), item) for item, entry in catalogue.items()}
    return tuple(
        _line(item, by_item[item], catalogue, aboard, day) for item in sorted(by_item, key=lambda i: order[i])
    )


def _line(
    item: str,
    demands: Sequence[Demand],
    catalogue: Mapping[str, GearItem],
    aboard: Sequence[GearAboard],
    day: datetime.date | None,
) -> GearLine:
    entry = catalogue[item]
    ordered = tuple(sorted(demands, key=lambda d: (d.jurisdiction, d.requirement)))
    required = [d for d in ordered if d.strength == "required"]
    quantity = max(d.quantity for d in ordered)
    counted = [gear for gear in aboard if gear.item == item or gear.item in entry.satisfied_by]
    good = [gear for gear in counted if gear.expires is None or day is None or gear.expires >= day]
    lapsed = tuple(f"{gear.quantity} expired {gear.expires}" for gear in counted if gear not in good)
    have = float(sum(gear.quantity for gear in good))
    usable = [gear for gear in aboard if gear.expires is None or day is None or gear.expires >= day]
    return GearLine(
        item=item,
        title=entry.title,
        group=entry.group,
        quantity=quantity,
        strength="required" if required else "recommended",
        demands=ordered,
        aboard=have,
        shortfall=max(_missing(demand, have, catalogue, usable) for demand in ordered),
        expires=tuple(str(gear.expires) for gear in good if gear.expires),
        lapsed=lapsed,
        note="; ".join(filter(None, (_share_note(required, quantity), _marks_note(ordered)))) or None,
    )


def _missing(
    demand: Demand, have: float, catalogue: Mapping[str, GearItem], aboard: Sequence[GearAboard]
) -> float:
    """Return how many are missing for one demand: none where one of its alternatives is complete aboard."""

    def complete(instead: Mapping[str, float]) -> bool:
        return all(
            sum(g.quantity for g in aboard if g.item == item or g.item in catalogue[item].satisfied_by)
            >= quantity
            for item, quantity in instead.items()
        )

    if any(complete(instead) for instead in demand.alternatives):
        return 0.0
    return max(0.0, demand.quantity - have)


def _share_note(required: Sequence[Demand], quantity: float) -> str | None:
    by_law = max((demand.quantity for demand in required), default=quantity)
    return f"required {by_law:g}, the rest recommended" if by_law < quantity else None


def _marks_note(demands: Sequence[Demand]) -> str | None:
    marks = {d.jurisdiction: d.approval for d in demands if d.approval}
    if len(set(marks.values())) < 2:
        return None
    return "Each law names its own approval mark; one mark doesn't stand for another unless the authority says so."
