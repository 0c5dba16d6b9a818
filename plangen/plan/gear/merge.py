"""Several jurisdictions' demands merged to one inventory, and what is aboard taken off."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from plangen.packs.law import GearItem
from plangen.plan.model import Demand, GearLine
from plangen.spec.model.safety import GearAboard

#: Groups whose gear carries a mark of approval; elsewhere `approval` only says what the thing has to be like.
APPROVED_GROUPS = ("flotation", "distress", "fire", "survival", "radio", "pollution")


@dataclass(frozen=True)
class Days:
    """The days on which dates are judged: that of the trial and that of delivery."""

    trial: datetime.date | None = None
    delivery: datetime.date | None = None

    def passed(self, date: datetime.date) -> str:
        """Return by which of the days a date has passed, or nothing.

        >>> Days(datetime.date(2027, 5, 1), datetime.date(2027, 6, 1)).passed(datetime.date(2027, 5, 20))
        'before delivery'
        """
        if self.trial is not None and date < self.trial:
            return "before the trial"
        return "before delivery" if self.delivery is not None and date < self.delivery else ""


def merge(
    item_demands: Sequence[tuple[str, Demand]],
    catalogue: Mapping[str, GearItem],
    aboard: Sequence[GearAboard] = (),
    days: Days | None = None,
) -> tuple[GearLine, ...]:
    """Return one line for each gear item with the quantity that satisfies everyone who demands it.

    The order of the demands doesn't matter, and the same demand twice counts once. What is out of date on the
    day of trial or of delivery doesn't count as aboard.
    """
    by_item: dict[str, list[Demand]] = {}
    for item, demand in item_demands:
        listed = by_item.setdefault(item, [])
        if demand not in listed:
            listed.append(demand)
    groups = list(dict.fromkeys(entry.group for entry in catalogue.values()))
    order = {item: (groups.index(entry.group), item) for item, entry in catalogue.items()}
    shopping = _Shopping(by_item, catalogue, aboard, days or Days())
    return tuple(
        _line(item, by_item[item], catalogue[item], shopping)
        for item in sorted(by_item, key=lambda i: order[i])
    )


class _Shopping:
    """What is aboard, and what is still to be got."""

    def __init__(
        self,
        by_item: Mapping[str, Sequence[Demand]],
        catalogue: Mapping[str, GearItem],
        aboard: Sequence[GearAboard],
        days: Days,
    ) -> None:
        self._by_item = by_item
        self._catalogue = catalogue
        self._aboard = aboard
        self._days = days
        self._missing: dict[str, float] = {}

    def counted(self, item: str) -> list[GearAboard]:
        """Return what is aboard of the item, or of what stands in for it, in date or not."""
        accepted = {item, *self._catalogue[item].satisfied_by}
        return [gear for gear in self._aboard if gear.item in accepted]

    def good(self, item: str) -> list[GearAboard]:
        """Return what of it is in date."""
        return [gear for gear in self.counted(item) if not self.lapse(item, gear)]

    def lapse(self, item: str, gear: GearAboard) -> str:
        """Return why gear that is aboard doesn't count, or nothing where it's in date."""
        if gear.expires is not None and (late := self._days.passed(gear.expires)):
            return f"{gear.quantity} expired {gear.expires}, {late}"
        intervals = (
            [d.service_days for d in self._by_item[item] if d.service_days is not None]
            if item in self._by_item
            else []
        )
        if gear.serviced is not None and intervals:
            due = gear.serviced + datetime.timedelta(days=min(intervals))
            if late := self._days.passed(due):
                return f"{gear.quantity} due for service {due}, {late}"
        return ""

    def have(self, item: str) -> float:
        """Return how many are aboard in date."""
        return float(sum(gear.quantity for gear in self.good(item)))

    def missing(self, item: str) -> float:
        """Return how many are to be got so that everyone who demands the item is satisfied."""
        if item not in self._missing:
            self._missing[item] = max(self._missing_for(item, demand) for demand in self._by_item[item])
        return self._missing[item]

    def _missing_for(self, item: str, demand: Demand) -> float:
        if any(self._complete(instead) for instead in demand.alternatives):
            return 0.0
        return max(0.0, demand.quantity - self.have(item) - self._got_anyway(item, demand.jurisdiction))

    def _complete(self, instead: Mapping[str, float]) -> bool:
        return all(self.have(item) >= quantity for item, quantity in instead.items())

    def _got_anyway(self, item: str, jurisdiction: str) -> float:
        """Return how many will be got because the same law requires things that stand in for the item."""
        return sum(
            self.missing(other)
            for other in self._catalogue[item].satisfied_by
            if any(
                demand.jurisdiction == jurisdiction and demand.strength == "required"
                for demand in self._by_item.get(other, ())
            )
        )


def _line(item: str, demands: Sequence[Demand], entry: GearItem, shopping: _Shopping) -> GearLine:
    ordered = tuple(sorted(demands, key=lambda d: (d.jurisdiction, d.requirement)))
    required = [d for d in ordered if d.strength == "required"]
    quantity = max(d.quantity for d in ordered)
    good = shopping.good(item)
    return GearLine(
        item=item,
        title=entry.title,
        group=entry.group,
        quantity=quantity,
        strength="required" if required else "recommended",
        demands=ordered,
        aboard=shopping.have(item),
        shortfall=shopping.missing(item) if entry.counted else 0.0,
        expires=tuple(str(gear.expires) for gear in good if gear.expires),
        lapsed=tuple(why for gear in shopping.counted(item) if (why := shopping.lapse(item, gear))),
        note="; ".join(filter(None, (_share_note(required, quantity), _marks_note(entry.group, ordered))))
        or None,
    )


def _share_note(required: Sequence[Demand], quantity: float) -> str | None:
    by_law = max((demand.quantity for demand in required), default=quantity)
    return f"required {by_law:g}, the rest recommended" if by_law < quantity else None


def _marks_note(group: str, demands: Sequence[Demand]) -> str | None:
    if group not in APPROVED_GROUPS:
        return None
    marks = {d.jurisdiction: d.approval for d in demands if d.approval}
    if len(set(marks.values())) < 2:
        return None
    return "Each law names its own approval mark; one mark doesn't stand for another unless the authority says so."
