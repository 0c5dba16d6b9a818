"""Choosing the checks that take most risk away in the time there is, prerequisites with what needs them.

Setting up costs once for a round and once for a rule in it, so what a check costs depends on what is chosen beside it.
"""

from __future__ import annotations

import heapq
from collections.abc import Collection, Hashable, Mapping, Sequence
from dataclasses import dataclass, field

#: So many checks at most are weighed together.
MOST_TOGETHER = 24

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


@dataclass
class _Chosen:
    """What is chosen so far, and what it costs."""

    candidates: Sequence[Candidate]
    closures: Sequence[frozenset[int]]
    members: set[int] = field(default_factory=set)
    uses: dict[Hashable, int] = field(default_factory=dict)
    minutes: float = 0.0
    away: float = 0.0

    def more(self, numbers: Collection[int]) -> tuple[list[int], float, float]:
        """Return what would be chosen with candidates, and what that would cost in all and away."""
        wanted = frozenset().union(*(self.closures[number] for number in numbers))
        new = [one for one in wanted if one not in self.members]
        cost = away = 0.0
        opened: set[Hashable] = set()
        for one in new:
            candidate = self.candidates[one]
            own = candidate.minutes
            for key, minutes in candidate.shares:
                if not self.uses.get(key) and key not in opened:
                    opened.add(key)
                    own += minutes
            cost += own
            if candidate.away:
                away += own
        return new, cost, away

    def add(self, numbers: Collection[int]) -> None:
        """Choose candidates."""
        for number in sorted(numbers):
            candidate = self.candidates[number]
            own = candidate.minutes
            for key, minutes in candidate.shares:
                if not self.uses.get(key):
                    own += minutes
                self.uses[key] = self.uses.get(key, 0) + 1
            self.minutes += own
            self.away += own if candidate.away else 0.0
            self.members.add(number)

    def remove(self, numbers: Collection[int]) -> None:
        """Choose them no more."""
        for number in sorted(numbers):
            candidate = self.candidates[number]
            own = candidate.minutes
            for key, minutes in candidate.shares:
                self.uses[key] -= 1
                if not self.uses[key]:
                    own += minutes
            self.minutes -= own
            self.away -= own if candidate.away else 0.0
            self.members.discard(number)

    def fits(self, cost: float, away: float, limits: Limits) -> bool:
        """Tell whether so much more fits."""
        slack = 1e-6
        return self.minutes + cost <= limits.minutes + slack and (
            limits.away is None or self.away + away <= limits.away + slack
        )


def closures_of(candidates: Sequence[Candidate]) -> list[frozenset[int]]:
    """Return for each candidate all that has to be chosen with it, itself included."""
    found: list[frozenset[int]] = []
    for number in range(len(candidates)):
        seen, heap = {number}, [number]
        while heap:
            for one in candidates[heap.pop()].needs:
                if one not in seen:
                    seen.add(one)
                    heap.append(one)
        found.append(frozenset(seen))
    return found


def choose(
    candidates: Sequence[Candidate],
    limits: Limits,
    first: Collection[int] = (),
    banned: Collection[int] = (),
    already: Collection[int] = (),
) -> frozenset[int]:
    """Return the numbers of the chosen candidates.

    What is chosen `already` stays, those of `first` are tried before all others, and the banned never.
    """
    closures = closures_of(candidates)
    barred = frozenset(banned)
    free = [number for number, closure in enumerate(closures) if not closure & barred]
    chosen = _Chosen(candidates, closures)
    chosen.add(already)
    wanted = frozenset(first)
    together = _together(candidates, closures)
    _greedy(chosen, limits, [number for number in free if number in wanted], together)
    held = frozenset(chosen.members)
    _greedy(chosen, limits, free, together)
    _exchange(chosen, limits, held, free)
    return frozenset(chosen.members)


def _greedy(chosen: _Chosen, limits: Limits, numbers: Collection[int], together: Sequence[set[int]]) -> None:
    """Choose, again and again, what takes most risk away for its minutes and still fits.

    Checks that share a prerequisite or a visit are weighed together as well as alone, because what they share
    may be worth its minutes only for all of them.
    """
    worth: dict[int, _Worth] = {
        number: _worth(chosen, (number,)) for number in numbers if number not in chosen.members
    }
    bundles = [(_bundle(chosen, members, worth), members) for members in _sharing(chosen, worth)]
    heap = [(-bundle.density, index) for index, (bundle, _) in enumerate(bundles)]
    heapq.heapify(heap)
    while worth:
        fitting = [number for number, one in worth.items() if chosen.fits(one.cost, one.away, limits)]
        best = max(fitting, key=lambda number: (worth[number].density, -number), default=None)
        least = worth[best].density if best is not None else 0.0
        new = _best_bundle(chosen, bundles, heap, worth, least, limits)
        if new is None:
            if best is None:
                return
            new = worth[best].new
        chosen.add(new)
        touched: set[int] = set()
        for one in new:
            worth.pop(one, None)
            touched |= together[one]
        for number in sorted(touched):
            if number in worth:
                worth[number] = _worth(chosen, (number,))


@dataclass(frozen=True)
class _Worth:
    """What would be chosen together, and what it's worth for its minutes."""

    new: list[int]
    density: float
    cost: float
    away: float


def _worth(chosen: _Chosen, numbers: Collection[int]) -> _Worth:
    new, cost, away = chosen.more(numbers)
    risk = sum(chosen.candidates[one].risk for one in new)
    return _Worth(new, risk / max(cost, 0.1), cost, away)


def _sharing(chosen: _Chosen, numbers: Collection[int]) -> list[list[int]]:
    """Return the sets of candidates that share a prerequisite or a visit."""
    sets: dict[Hashable, list[int]] = {}
    for number in numbers:
        for needed in chosen.closures[number]:
            if needed != number:
                sets.setdefault(needed, []).append(number)
        for key, _ in chosen.candidates[number].shares[:1]:
            sets.setdefault(("visit", key), []).append(number)
    unique = {tuple(members) for members in sets.values() if len(members) > 1}
    return [list(members) for members in sorted(unique)]


def _bundle(chosen: _Chosen, members: Sequence[int], worth: Mapping[int, _Worth]) -> _Worth:
    """Return the members that are worth most together: the best for their own minutes first, as long as that helps."""
    left = [number for number in members if number in worth]
    candidates = chosen.candidates
    left.sort(key=lambda number: (-candidates[number].risk / max(candidates[number].minutes, 0.1), number))
    taken: list[int] = []
    best = _Worth([], 0.0, 0.0, 0.0)
    for number in left[:MOST_TOGETHER]:
        more = _worth(chosen, (*taken, number))
        if more.density > best.density:
            taken.append(number)
            best = more
    return best


def _best_bundle(
    chosen: _Chosen,
    bundles: list[tuple[_Worth, list[int]]],
    heap: list[tuple[float, int]],
    worth: Mapping[int, _Worth],
    least: float,
    limits: Limits,
) -> list[int] | None:
    """Return the bundle that is worth more than any single candidate, if there is one; each is weighed anew first."""
    while heap and -heap[0][0] > least:
        _, index = heapq.heappop(heap)
        bundle = _bundle(chosen, bundles[index][1], worth)
        if not bundle.new or not chosen.fits(bundle.cost, bundle.away, limits):
            continue
        if heap and bundle.density < -heap[0][0] and bundle.density > 0:
            heapq.heappush(heap, (-bundle.density, index))
            continue
        if bundle.density > least:
            heapq.heappush(heap, (-bundle.density, index))
            return bundle.new
    return None


def _together(candidates: Sequence[Candidate], closures: Sequence[frozenset[int]]) -> list[set[int]]:
    """Return for each candidate those whose cost may change when it is chosen."""
    sharing: dict[Hashable, set[int]] = {}
    for number, closure in enumerate(closures):
        for one in closure:
            for key, _ in candidates[one].shares:
                sharing.setdefault(key, set()).add(number)
    found: list[set[int]] = [set() for _ in candidates]
    for number, closure in enumerate(closures):
        for one in closure:
            found[one].add(number)
    for number, candidate in enumerate(candidates):
        for key, _ in candidate.shares:
            found[number] |= sharing[key]
    return found


def _exchange(chosen: _Chosen, limits: Limits, held: frozenset[int], free: Sequence[int]) -> None:
    """Take out what is worth least for its minutes where something worth more then fits, as long as that helps."""
    candidates, closures = chosen.candidates, chosen.closures
    for _ in range(3):
        helped = False
        needed = {one for number in chosen.members for one in closures[number] if one != number}
        loose = [number for number in chosen.members if number not in needed and number not in held]
        loose.sort(
            key=lambda number: (candidates[number].risk / max(candidates[number].minutes, 0.1), number)
        )
        for number in loose[:15]:
            if number not in chosen.members:
                continue
            chosen.remove([number])
            gained: list[int] = []
            while len(gained) < 12 and (more := _best_that_fits(chosen, limits, number, free)):
                chosen.add(more)
                gained += more
            if sum(candidates[one].risk for one in gained) > candidates[number].risk * (1 + 1e-9):
                helped = True
            else:
                chosen.remove(gained)
                chosen.add([number])
        if not helped:
            return


def _best_that_fits(chosen: _Chosen, limits: Limits, out: int, free: Sequence[int]) -> list[int] | None:
    """Return what takes most risk away of all that fits in place of a candidate."""
    best: tuple[float, list[int]] | None = None
    for number in free:
        if number in chosen.members or number == out:
            continue
        new, cost, away = chosen.more((number,))
        if out in new or not chosen.fits(cost, away, limits):
            continue
        risk = sum(chosen.candidates[one].risk for one in new)
        if best is None or risk > best[0]:
            best = (risk, new)
    return best[1] if best else None


def cost_of(candidates: Sequence[Candidate], numbers: Collection[int]) -> tuple[float, float]:
    """Return the person-minutes of a choice, in all and away."""
    chosen = _Chosen(candidates, ())
    chosen.add(numbers)
    return chosen.minutes, chosen.away


def costs_beside(candidates: Sequence[Candidate], chosen: Collection[int]) -> dict[int, tuple[int, float]]:
    """Return for each candidate that isn't chosen how many more would have to be, and for how many minutes."""
    so_far = _Chosen(candidates, closures_of(candidates))
    so_far.add(chosen)
    found = {}
    for number in range(len(candidates)):
        if number not in so_far.members:
            new, cost, _ = so_far.more((number,))
            found[number] = (len(new), cost)
    return found


def risk_of(candidates: Sequence[Candidate], numbers: Collection[int]) -> float:
    """Return the risk that a choice takes away."""
    return sum(candidates[number].risk for number in numbers)


def needs_by_id(ids: Sequence[str], needs: Mapping[str, Collection[str]]) -> list[tuple[int, ...]]:
    """Return what each candidate needs, as numbers; what isn't a candidate is left away."""
    number = {id: index for index, id in enumerate(ids)}
    return [tuple(sorted(number[one] for one in needs.get(id, ()) if one in number)) for id in ids]
