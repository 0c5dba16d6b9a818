"""Choosing the checks that take most risk away in the time there is, prerequisites with what needs them.

Getting to a round and setting up cost once, so what a check costs depends on what is chosen beside it.
"""

from __future__ import annotations

import heapq
from collections.abc import Collection, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

#: So many checks at most are weighed together.
MOST_TOGETHER = 40
#: How many of what is worth least are tried to be exchanged, how often, and for how many others.
TRIED, ROUNDS, AT_MOST = 25, 3, 12
SLACK = 1e-6

Shares = tuple[tuple[Hashable, float], ...]


@dataclass(frozen=True)
class Candidate:
    """A check that may be chosen: its risk, its own minutes of work, and what it shares with others.

    `needs` are the numbers of the candidates that have to be chosen with it.
    """

    id: str
    risk: float
    minutes: float
    shares: Shares = ()
    needs: tuple[int, ...] = ()
    away: bool = False


@dataclass(frozen=True)
class Limits:
    """Person-minutes that there are, and how many of them away from the berth."""

    minutes: float
    away: float | None = None


class _Worth(NamedTuple):
    """What would be chosen together, and what it's worth for its minutes."""

    new: tuple[int, ...]
    risk: float
    cost: float
    away: float

    @property
    def density(self) -> float:
        return self.risk / max(self.cost, 0.1)


NOTHING = _Worth((), 0.0, 0.0, 0.0)


class Choice:
    """What may be chosen, with what is chosen so far and what it costs."""

    def __init__(self, candidates: Sequence[Candidate]) -> None:
        self.candidates = candidates
        self.closures = closures_of(candidates)
        keys: dict[Hashable, int] = {}
        self.shared = [tuple(keys.setdefault(key, len(keys)) for key, _ in one.shares) for one in candidates]
        self.share_minutes = [0.0] * len(keys)
        for one in candidates:
            for key, minutes in one.shares:
                self.share_minutes[keys[key]] = max(minutes, self.share_minutes[keys[key]])
        self.touched = _touched(self.shared, self.closures, len(keys))
        self.bundles = [
            tuple(sorted(one, key=lambda number: (-self._alone(number), number)))
            for one in _bundles(self.shared, self.closures)
        ]
        self.whole_risk = [sum(candidates[one].risk for one in closure) for closure in self.closures]
        self.clear()

    def _alone(self, number: int) -> float:
        """Return the risk of a candidate for its own minutes."""
        candidate = self.candidates[number]
        return candidate.risk / max(candidate.minutes, 0.1)

    def clear(self) -> None:
        """Choose nothing."""
        self.inside = bytearray(len(self.candidates))
        self.uses = [0] * len(self.share_minutes)
        self.minutes = self.away = 0.0

    @property
    def members(self) -> frozenset[int]:
        """Return what is chosen."""
        return frozenset(number for number, chosen in enumerate(self.inside) if chosen)

    def weigh(self, number: int) -> _Worth:
        """Return what a candidate would cost and be worth, with all that it needs."""
        inside = self.inside
        return self._worth_of(tuple(one for one in self.closures[number] if not inside[one]), set())

    def _worth_of(self, new: tuple[int, ...], opened: set[int]) -> _Worth:
        """Return what candidates cost and are worth together; what they share and isn't paid for yet is added to `opened`."""
        uses, candidates = self.uses, self.candidates
        risk = cost = away = 0.0
        for one in new:
            candidate = candidates[one]
            own = candidate.minutes
            for share in self.shared[one]:
                if not uses[share] and share not in opened:
                    opened.add(share)
                    own += self.share_minutes[share]
            risk += candidate.risk
            cost += own
            if candidate.away:
                away += own
        return _Worth(new, risk, cost, away)

    def add(self, numbers: Iterable[int]) -> None:
        """Choose candidates."""
        for number in sorted(numbers):
            own = self.candidates[number].minutes
            for share in self.shared[number]:
                if not self.uses[share]:
                    own += self.share_minutes[share]
                self.uses[share] += 1
            self.minutes += own
            self.away += own if self.candidates[number].away else 0.0
            self.inside[number] = 1

    def remove(self, numbers: Iterable[int]) -> None:
        """Choose them no more."""
        for number in sorted(numbers):
            own = self.candidates[number].minutes
            for share in self.shared[number]:
                self.uses[share] -= 1
                if not self.uses[share]:
                    own += self.share_minutes[share]
            self.minutes -= own
            self.away -= own if self.candidates[number].away else 0.0
            self.inside[number] = 0

    def fits(self, worth: _Worth, limits: Limits) -> bool:
        """Tell whether so much more fits."""
        return self.minutes + worth.cost <= limits.minutes + SLACK and (
            limits.away is None or self.away + worth.away <= limits.away + SLACK
        )

    def choose(
        self,
        limits: Limits,
        banned: Collection[int] = (),
        already: Collection[int] = (),
        exchange: bool = True,
    ) -> frozenset[int]:
        """Return the numbers of the chosen candidates: what is chosen `already` stays, the banned never come.

        With `exchange` what is worth least is held against what was left out; that changes little and takes as long.
        """
        barred = frozenset(banned)
        free = [number for number, closure in enumerate(self.closures) if not barred.intersection(closure)]
        self.clear()
        self.add(already)
        held = self.members
        self._greedy(limits, free)
        if exchange:
            self._exchange(limits, held, free)
        return self.members

    def _greedy(self, limits: Limits, numbers: Collection[int]) -> None:
        """Choose, again and again, what takes most risk away for its minutes and still fits.

        Checks that share a prerequisite or a visit are weighed together as well as alone, because what they share
        may be worth its minutes only for all of them.
        """
        worth = {number: self.weigh(number) for number in numbers if not self.inside[number]}
        singles = [(-one.density, number) for number, one in worth.items()]
        heapq.heapify(singles)
        bundles = [
            (-self._bundle(members, worth).density, index) for index, members in enumerate(self.bundles)
        ]
        heapq.heapify(bundles)
        while singles or bundles:
            best = self._best_single(singles, worth, limits)
            least = worth[best].density if best is not None else 0.0
            found = self._best_bundle(bundles, worth, least, limits)
            if found is None:
                if best is None:
                    return
                found = worth[best]
            self.add(found.new)
            for one in found.new:
                worth.pop(one, None)
            for number in sorted({other for one in found.new for other in self.touched[one]}):
                if number in worth:
                    worth[number] = self.weigh(number)
                    heapq.heappush(singles, (-worth[number].density, number))

    def _best_single(
        self, heap: list[tuple[float, int]], worth: Mapping[int, _Worth], limits: Limits
    ) -> int | None:
        while heap:
            density, number = heap[0]
            if number in worth and -worth[number].density == density and self.fits(worth[number], limits):
                return number
            heapq.heappop(heap)
        return None

    def _best_bundle(
        self, heap: list[tuple[float, int]], worth: Mapping[int, _Worth], least: float, limits: Limits
    ) -> _Worth | None:
        """Return the bundle that is worth more than any single candidate, if there is one; each is weighed anew first."""
        while heap and -heap[0][0] > least:
            _, index = heapq.heappop(heap)
            bundle = self._bundle(self.bundles[index], worth)
            if not bundle.new or not self.fits(bundle, limits):
                continue
            heapq.heappush(heap, (-bundle.density, index))
            if heap[0][1] == index and bundle.density > least:
                return bundle
        return None

    def _bundle(self, members: Sequence[int], worth: Mapping[int, _Worth]) -> _Worth:
        """Return the members that are worth most together: the best for their own minutes first, as long as that helps."""
        inside = self.inside
        together = NOTHING
        taken: set[int] = set()
        opened: set[int] = set()
        for number in [one for one in members if one in worth][:MOST_TOGETHER]:
            new = tuple(one for one in self.closures[number] if not inside[one] and one not in taken)
            opening = opened.copy()
            more = self._worth_of(new, opening)
            both = _Worth(
                together.new + more.new,
                together.risk + more.risk,
                together.cost + more.cost,
                together.away + more.away,
            )
            if both.density > together.density:
                together, opened = both, opening
                taken.update(more.new)
        return together

    def _exchange(self, limits: Limits, held: frozenset[int], free: Sequence[int]) -> None:
        """Take out what is worth least for its minutes where something worth more then fits, as long as that helps."""
        candidates = self.candidates
        order = sorted(free, key=lambda number: (-self.whole_risk[number], number))
        for _ in range(ROUNDS):
            helped = False
            members = self.members
            needed = {one for number in members for one in self.closures[number] if one != number}
            loose = sorted(
                members - needed - held,
                key=lambda number: (self._alone(number), number),
            )
            for number in loose[:TRIED]:
                if not self.inside[number]:
                    continue
                self.remove((number,))
                gained: list[int] = []
                while len(gained) < AT_MOST and (more := self._best_that_fits(limits, number, order)):
                    self.add(more)
                    gained += more
                if sum(candidates[one].risk for one in gained) > candidates[number].risk * (1 + 1e-9):
                    helped = True
                else:
                    self.remove(gained)
                    self.add((number,))
            if not helped:
                return

    def _best_that_fits(self, limits: Limits, out: int, order: Sequence[int]) -> tuple[int, ...]:
        """Return what takes most risk away of all that fits in place of a candidate."""
        best = NOTHING
        for number in order:
            if self.whole_risk[number] <= best.risk:
                break
            if self.inside[number] or number == out or out in self.closures[number]:
                continue
            found = self.weigh(number)
            if found.risk > best.risk and self.fits(found, limits):
                best = found
        return best.new


def closures_of(candidates: Sequence[Candidate]) -> list[tuple[int, ...]]:
    """Return for each candidate all that has to be chosen with it, itself included."""
    found: list[tuple[int, ...]] = []
    for number in range(len(candidates)):
        seen, heap = {number}, [number]
        while heap:
            for one in candidates[heap.pop()].needs:
                if one not in seen:
                    seen.add(one)
                    heap.append(one)
        found.append(tuple(sorted(seen)))
    return found


def _touched(
    shared: Sequence[Sequence[int]], closures: Sequence[Sequence[int]], shares: int
) -> list[set[int]]:
    """Return for each candidate those whose cost may change when it is chosen."""
    by_share: list[set[int]] = [set() for _ in range(shares)]
    found: list[set[int]] = [set() for _ in closures]
    for number, closure in enumerate(closures):
        for one in closure:
            found[one].add(number)
            for share in shared[one]:
                by_share[share].add(number)
    for number, own in enumerate(shared):
        for share in own:
            found[number] |= by_share[share]
    return found


def _bundles(shared: Sequence[Sequence[int]], closures: Sequence[Sequence[int]]) -> list[tuple[int, ...]]:
    """Return the sets of candidates that share a prerequisite, a visit or setting up."""
    sets: dict[tuple[str, int], list[int]] = {}
    for number, closure in enumerate(closures):
        for one in closure:
            if one != number:
                sets.setdefault(("needs", one), []).append(number)
        for share in shared[number]:
            sets.setdefault(("shares", share), []).append(number)
    return sorted({tuple(members) for members in sets.values() if len(members) > 1})


def choose(
    candidates: Sequence[Candidate],
    limits: Limits,
    banned: Collection[int] = (),
    already: Collection[int] = (),
) -> frozenset[int]:
    """Return the numbers of the chosen candidates."""
    return Choice(candidates).choose(limits, banned, already)


def cost_of(candidates: Sequence[Candidate], numbers: Collection[int]) -> tuple[float, float]:
    """Return the person-minutes of a choice, in all and away."""
    choice = Choice(candidates)
    choice.add(numbers)
    return choice.minutes, choice.away


def risk_of(candidates: Sequence[Candidate], numbers: Collection[int]) -> float:
    """Return the risk that a choice takes away."""
    return sum(candidates[number].risk for number in numbers)


def needs_by_id(ids: Sequence[str], needs: Mapping[str, Collection[str]]) -> list[tuple[int, ...]]:
    """Return what each candidate needs, as numbers; what isn't a candidate is left away."""
    number = {id: index for index, id in enumerate(ids)}
    return [tuple(sorted(number[one] for one in needs.get(id, ()) if one in number)) for id in ids]
