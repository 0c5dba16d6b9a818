"""Choosing the checks that take most risk away in the time there is, prerequisites with what needs them.

Setting up costs once for a round and once for a rule in it, so what a check costs depends on what is chosen beside it.
"""

from __future__ import annotations

from collections.abc import Collection, Hashable, Mapping, Sequence
from dataclasses import dataclass, field

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

    def more(self, number: int) -> tuple[list[int], float, float]:
        """Return what would be chosen with a candidate, and what that would cost in all and away."""
        new = [one for one in self.closures[number] if one not in self.members]
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
) -> frozenset[int]:
    """Return the numbers of the chosen candidates; those of `first` are tried before all others, the banned never."""
    closures = closures_of(candidates)
    barred = frozenset(banned)
    free = [number for number, closure in enumerate(closures) if not closure & barred]
    chosen = _Chosen(candidates, closures)
    wanted = frozenset(first)
    _greedy(chosen, limits, [number for number in free if number in wanted])
    held = frozenset(chosen.members)
    _greedy(chosen, limits, free)
    _exchange(chosen, limits, held, free)
    return frozenset(chosen.members)


def _greedy(chosen: _Chosen, limits: Limits, numbers: Collection[int]) -> None:
    """Choose, again and again, what takes most risk away for its minutes and still fits."""
    open_ = [number for number in numbers if number not in chosen.members]
    together = _together(chosen.candidates, chosen.closures)
    worth: dict[int, tuple[float, list[int], float, float]] = {}

    def weigh(number: int) -> None:
        new, cost, away = chosen.more(number)
        risk = sum(chosen.candidates[one].risk for one in new)
        worth[number] = (risk / max(cost, 0.1), new, cost, away)

    for number in open_:
        weigh(number)
    while worth:
        fitting = [n for n, (_, _, cost, away) in worth.items() if chosen.fits(cost, away, limits)]
        if not fitting:
            return
        best = max(fitting, key=lambda number: (worth[number][0], -number))
        new = worth[best][1]
        chosen.add(new)
        touched: set[int] = set()
        for one in new:
            worth.pop(one, None)
            touched |= together[one]
        for number in sorted(touched):
            if number in worth:
                weigh(number)


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
    for _ in range(4):
        helped = False
        needed = {one for number in chosen.members for one in closures[number] if one != number}
        loose = [number for number in chosen.members if number not in needed and number not in held]
        loose.sort(
            key=lambda number: (candidates[number].risk / max(candidates[number].minutes, 0.1), number)
        )
        for number in loose[:40]:
            if number not in chosen.members:
                continue
            chosen.remove([number])
            gained = _best_that_fits(chosen, limits, number, free)
            if gained is None:
                chosen.add([number])
            else:
                chosen.add(gained)
                helped = True
        if not helped:
            return


def _best_that_fits(chosen: _Chosen, limits: Limits, out: int, free: Sequence[int]) -> list[int] | None:
    """Return what is chosen in place of a candidate because it takes more risk away."""
    best: tuple[float, list[int]] | None = None
    for number in free:
        if number in chosen.members or number == out:
            continue
        new, cost, away = chosen.more(number)
        if out in new or not chosen.fits(cost, away, limits):
            continue
        risk = sum(chosen.candidates[one].risk for one in new)
        if risk > chosen.candidates[out].risk * (1 + 1e-9) and (best is None or risk > best[0]):
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
            new, cost, _ = so_far.more(number)
            found[number] = (len(new), cost)
    return found


def risk_of(candidates: Sequence[Candidate], numbers: Collection[int]) -> float:
    """Return the risk that a choice takes away."""
    return sum(candidates[number].risk for number in numbers)


def needs_by_id(ids: Sequence[str], needs: Mapping[str, Collection[str]]) -> list[tuple[int, ...]]:
    """Return what each candidate needs, as numbers; what isn't a candidate is left away."""
    number = {id: index for index, id in enumerate(ids)}
    return [tuple(sorted(number[one] for one in needs.get(id, ()) if one in number)) for id in ids]
