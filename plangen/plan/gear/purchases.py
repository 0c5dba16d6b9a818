"""The fewest purchases that meet every demand, with what is aboard taken off.

A demand takes units of several kinds and, where it names marks, only units that bear one of them. Demands whose
units have a place of their own are met by units that nothing else of the same group uses; any other demand is met
by whatever fits, whoever else counts it too. Nothing here knows boats or laws.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from plangen.plan.gear.covering import Limit, fewest_units

#: The mark of a purchase that no demand asks a mark of.
NO_MARK = ""


@dataclass(frozen=True)
class Wanted:
    """One demand: how many units, of which kinds and marks, and the group that no unit serves twice."""

    id: str
    quantity: int
    kinds: frozenset[str]
    marks: frozenset[str] = frozenset()
    places_of: str | None = None

    def takes(self, kind: str, mark: str) -> bool:
        """Tell whether a unit of the kind with the mark meets the demand."""
        return kind in self.kinds and (not self.marks or mark in self.marks)


@dataclass(frozen=True)
class Stock:
    """Units that are there, and the demands that each of them meets."""

    quantity: int
    meets: frozenset[str]


@dataclass(frozen=True)
class Purchase:
    """Units to be bought, and the demands that each of them meets."""

    kind: str
    mark: str
    quantity: int
    meets: frozenset[str]


def purchases(
    wanted: Sequence[Wanted], stock: Sequence[Stock] = (), rank: Mapping[str, int] | None = None
) -> tuple[Purchase, ...]:
    """Return the fewest units that, with the stock, meet every demand; none is stricter than it has to be.

    Where several kinds would do, the one of the lowest rank is taken. The order of the demands doesn't matter.
    """
    ranks = rank or {}
    found: list[Purchase] = []
    for group in _apart(sorted(wanted, key=lambda one: one.id), stock):
        found.extend(_for_group(group, stock, ranks))
    return tuple(sorted(found, key=lambda one: (ranks.get(one.kind, 0), one.kind, one.mark)))


def _for_group(
    group: Sequence[Wanted], stock: Sequence[Stock], rank: Mapping[str, int]
) -> Iterator[Purchase]:
    offered = _offered(group, rank)
    limits = [
        Limit(
            max(0, sum(one.quantity for one in some) - sum(s.quantity for s in stock if s.meets & ids)),
            frozenset(i for i, unit in enumerate(offered) if unit.meets & ids),
        )
        for some in _together(group)
        for ids in [frozenset(one.id for one in some)]
    ]
    counts = fewest_units(limits, len(offered))
    bought = [replace(unit, quantity=n) for unit, n in zip(offered, counts, strict=True) if n]
    yield from _alike_together(bought)


def _alike_together(bought: Sequence[Purchase]) -> list[Purchase]:
    """Put units of one kind on one line where a mark that is bought anyway serves for both."""
    lines: list[Purchase] = []
    for one in sorted(bought, key=lambda unit: -len(unit.meets)):
        wider = next((line for line in lines if line.kind == one.kind and one.meets <= line.meets), None)
        if wider is None:
            lines.append(one)
        else:
            lines[lines.index(wider)] = replace(wider, quantity=wider.quantity + one.quantity)
    return lines


def _offered(group: Sequence[Wanted], rank: Mapping[str, int]) -> list[Purchase]:
    """Return one unit for each set of demands that a unit can meet, of the lowest rank that meets it."""
    kinds = sorted({kind for one in group for kind in one.kinds}, key=lambda kind: (rank.get(kind, 0), kind))
    marks = [NO_MARK, *sorted({mark for one in group for mark in one.marks})]
    best: dict[frozenset[str], Purchase] = {}
    for kind in kinds:
        for mark in marks:
            meets = frozenset(one.id for one in group if one.takes(kind, mark))
            if meets:
                best.setdefault(meets, Purchase(kind, mark, 0, meets))
    return list(best.values())


def _together(group: Sequence[Wanted]) -> Iterator[tuple[Wanted, ...]]:
    """Yield the sets of demands that units must suffice for: by the marriage theorem, all within a group of places."""
    places: dict[str, list[Wanted]] = {}
    for one in group:
        if one.places_of is None:
            yield (one,)
        else:
            places.setdefault(one.places_of, []).append(one)
    for members in places.values():
        for size in range(1, len(members) + 1):
            yield from combinations(members, size)


def _apart(wanted: Sequence[Wanted], stock: Sequence[Stock]) -> list[list[Wanted]]:
    """Return the demands in groups that have no unit in common, bought or aboard."""

    def near_to(one: Wanted, other: Wanted) -> bool:
        return bool(one.kinds & other.kinds) or any({one.id, other.id} <= unit.meets for unit in stock)

    groups: list[list[Wanted]] = []
    for one in wanted:
        near = [group for group in groups if any(near_to(one, other) for other in group)]
        groups = [group for group in groups if group not in near]
        groups.append([*(member for group in near for member in group), one])
    return groups


def served(wanted: Sequence[Wanted], units: Sequence[Stock]) -> dict[str, list[tuple[int, int]]]:
    """Return for each demand which units serve it, as pairs of the unit's place in the list and how many.

    Where all demands can't be met, as many units as possible are given a demand.
    """
    given: dict[str, list[tuple[int, int]]] = {}
    places: dict[str, list[Wanted]] = {}
    for one in wanted:
        if one.places_of is None:
            given[one.id] = _shared(one, units)
        else:
            places.setdefault(one.places_of, []).append(one)
    for members in places.values():
        given.update(_own(members, units))
    return given


def _shared(one: Wanted, units: Sequence[Stock]) -> list[tuple[int, int]]:
    pairs: list[tuple[int, int]] = []
    open_ = one.quantity
    for index, unit in enumerate(units):
        count = min(open_, unit.quantity) if one.id in unit.meets else 0
        if count:
            pairs.append((index, count))
            open_ -= count
    return pairs


def _own(members: Sequence[Wanted], units: Sequence[Stock]) -> dict[str, list[tuple[int, int]]]:
    """Give each unit to one demand at most, by augmenting paths."""
    ordered = sorted(members, key=lambda one: one.id)
    single = [index for index, unit in enumerate(units) for _ in range(unit.quantity)]
    seats = [one for one in ordered for _ in range(one.quantity)]
    holder: dict[int, int] = {}

    def seat(place: int, tried: set[int]) -> bool:
        for number, index in enumerate(single):
            if number not in tried and seats[place].id in units[index].meets:
                tried.add(number)
                if number not in holder or seat(holder[number], tried):
                    holder[number] = place
                    return True
        return False

    for place in range(len(seats)):
        seat(place, set())
    given: dict[str, dict[int, int]] = {one.id: {} for one in ordered}
    for number, place in holder.items():
        counts = given[seats[place].id]
        counts[single[number]] = counts.get(single[number], 0) + 1
    return {id: sorted(counts.items()) for id, counts in given.items()}
