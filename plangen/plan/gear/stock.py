"""Which of the gear aboard counts for which demand: its kind, its marks and its dates."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from plangen.packs.law import ApprovalMark, GearItem
from plangen.plan.gear.lines import Demand
from plangen.plan.gear.purchases import Stock
from plangen.spec.model.safety import GearAboard
from plangen.spec.quantity import parse_quantity


@dataclass(frozen=True)
class Days:
    """The days on which dates are judged: that of the trial and that of delivery."""

    trial: datetime.date | None = None
    delivery: datetime.date | None = None

    @property
    def known(self) -> bool:
        """Tell whether there is a day at all."""
        return self.trial is not None or self.delivery is not None

    def passed(self, date: datetime.date) -> str:
        """Return by which of the days a date has passed, or nothing; on the day itself it hasn't.

        >>> Days(datetime.date(2027, 5, 1), datetime.date(2027, 6, 1)).passed(datetime.date(2027, 5, 20))
        'before delivery'
        >>> Days(datetime.date(2027, 5, 1)).passed(datetime.date(2027, 5, 1))
        ''
        """
        if self.trial is not None and date < self.trial:
            return "before the trial"
        return "before delivery" if self.delivery is not None and date < self.delivery else ""


@dataclass(frozen=True)
class Judge:
    """Judges gear that is aboard against a demand for an item."""

    catalogue: Mapping[str, GearItem]
    marks: Mapping[str, ApprovalMark]
    days: Days

    def accepts(self, item: str, gear: GearAboard) -> bool:
        """Tell whether the gear is of the item's kind or of one that stands in for it."""
        return gear.item == item or gear.item in self.catalogue[item].satisfied_by

    def fault(self, item: str, demand: Demand | None, gear: GearAboard) -> str:
        """Return why gear of the right kind doesn't count for the demand, or nothing where it does."""
        return self._lapse(item, demand, gear) or self._unmarked(demand, gear)

    def _lapse(self, item: str, demand: Demand | None, gear: GearAboard) -> str:
        entry = self.catalogue.get(gear.item, self.catalogue[item])
        if gear.expires is not None and (late := self.days.passed(gear.expires)):
            return f"{self.amount(gear):g} expired {gear.expires}, {late}"
        life = (demand.life_days if demand else None) or _days(entry.life)
        if gear.made is not None and life is not None:
            end = gear.made + datetime.timedelta(days=life)
            if late := self.days.passed(end):
                return f"{self.amount(gear):g} made {gear.made}, past their life on {end}, {late}"
        every = (demand.service_days if demand else None) or _days(entry.service_every)
        since = gear.serviced or gear.made
        if since is not None and every is not None:
            due = since + datetime.timedelta(days=every)
            if late := self.days.passed(due):
                return f"{self.amount(gear):g} due for service {due}, {late}"
        return ""

    def _unmarked(self, demand: Demand | None, gear: GearAboard) -> str:
        if demand is None or not demand.marks or gear.approval is None:
            return ""
        borne = marks_on(gear.approval, self.marks)
        if borne & set(demand.marks):
            return ""
        wanted = " or ".join(self.marks[mark].title for mark in demand.marks)
        return f"{self.amount(gear):g} marked {gear.approval}, which isn't {wanted}"

    def amount(self, gear: GearAboard) -> float:
        """Return how much a thing counts for: persons where the item is counted in places.

        >>> raft = GearItem(title="Liferaft", group="survival", counts="places")
        >>> Judge({"raft": raft}, {}, Days()).amount(GearAboard(item="raft", quantity=2, persons=6))
        12
        """
        places = gear.item in self.catalogue and self.catalogue[gear.item].counts == "places"
        return gear.quantity * (gear.persons if places and gear.persons is not None else 1)


def _days(text: str | None) -> float | None:
    return None if text is None else float(parse_quantity(text).to("day").magnitude)


def marks_on(label: str, marks: Mapping[str, ApprovalMark]) -> set[str]:
    """Return the marks whose words stand on a label.

    >>> wheel = ApprovalMark(title="wheel mark", written=("wheel mark", "MED"))
    >>> marks_on("MED / wheel mark 0000", {"wheel": wheel}), marks_on("Medium", {"wheel": wheel})
    ({'wheel'}, set())
    """
    words = f" {''.join(c if c.isalnum() or c == '.' else ' ' for c in label.lower())} "
    plain = " ".join(words.split())
    return {
        name
        for name, mark in marks.items()
        if any(f" {' '.join(written.lower().split())} " in f" {plain} " for written in mark.written)
    }


def stock_of(
    aboard: Sequence[GearAboard], demands: Sequence[tuple[str, Demand]], judge: Judge
) -> list[Stock]:
    """Return each thing aboard with the demands that it counts for."""
    return [
        Stock(
            int(judge.amount(gear)),
            frozenset(
                demand.key
                for item, demand in demands
                if judge.accepts(item, gear) and not judge.fault(item, demand, gear)
            ),
        )
        for gear in aboard
    ]
