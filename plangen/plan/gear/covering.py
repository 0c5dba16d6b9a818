"""Whole numbers of units, as few as possible, that reach every one of several limits."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from math import prod

#: How many states an exact search may visit; beyond it the units that serve most are taken first.
LARGEST_SEARCH = 60_000


@dataclass(frozen=True)
class Limit:
    """How many units there have to be of certain sorts together."""

    at_least: int
    sorts: frozenset[int]


def fewest_units(limits: Sequence[Limit], sorts: int) -> list[int]:
    """Return how many units of each sort reach every limit: the fewest, and none that serves more than it has to.

    >>> fewest_units([Limit(9, frozenset({0})), Limit(8, frozenset({0, 1}))], 2)
    [9, 0]
    >>> fewest_units([Limit(1, frozenset({0})), Limit(4, frozenset({0, 1}))], 2)
    [1, 3]
    """
    binding = _binding(limits)
    serves = [frozenset(i for i, limit in enumerate(binding) if sort in limit.sorts) for sort in range(sorts)]
    useful = [
        sort
        for sort in range(sorts)
        if serves[sort]
        and not any(
            serves[sort] < serves[other] or (serves[sort] == serves[other] and other < sort)
            for other in range(sorts)
        )
    ]
    start = tuple(limit.at_least for limit in binding)
    exact = prod(limit + 1 for limit in start) <= LARGEST_SEARCH
    counts = [0] * sorts
    for sort in (_searched if exact else _greedy)(start, [(sort, serves[sort]) for sort in useful]):
        counts[sort] += 1
    return _eased(counts, limits)


def _binding(limits: Sequence[Limit]) -> list[Limit]:
    """Leave out the limits that another one implies."""
    open_ = sorted(
        {limit for limit in limits if limit.at_least > 0},
        key=lambda limit: (len(limit.sorts), -limit.at_least, sorted(limit.sorts)),
    )
    kept: list[Limit] = []
    for limit in open_:
        if not any(other.at_least >= limit.at_least and other.sorts <= limit.sorts for other in kept):
            kept.append(limit)
    return kept


Serving = Sequence[tuple[int, frozenset[int]]]


def _bought(open_: tuple[int, ...], serves: frozenset[int]) -> tuple[int, ...]:
    return tuple(left - 1 if i in serves and left else left for i, left in enumerate(open_))


def _searched(start: tuple[int, ...], serving: Serving) -> list[int]:
    """Return the fewest units, found by trying for the hardest open limit every sort that serves it."""

    @cache
    def fewest(open_: tuple[int, ...]) -> tuple[int, int | None]:
        hardest = max(range(len(open_)), key=lambda i: open_[i], default=None)
        if hardest is None or not open_[hardest]:
            return 0, None
        floor = max(open_)
        best: tuple[int, int | None] = (sum(open_) + 1, None)
        for sort, serves in serving:
            if hardest in serves:
                count = 1 + fewest(_bought(open_, serves))[0]
                if count < best[0]:
                    best = (count, sort)
                if count == floor:
                    break
        return best

    by_sort = dict(serving)
    taken: list[int] = []
    open_ = start
    while (sort := fewest(open_)[1]) is not None:
        taken.append(sort)
        open_ = _bought(open_, by_sort[sort])
    return taken


def _greedy(start: tuple[int, ...], serving: Serving) -> list[int]:
    taken: list[int] = []
    open_ = start
    while any(open_):
        sort, serves = max(
            serving, key=lambda one: (sum(open_[i] for i in one[1]), sum(1 for i in one[1] if open_[i]))
        )
        taken.append(sort)
        open_ = _bought(open_, serves)
    return taken


def _eased(counts: Sequence[int], limits: Sequence[Limit]) -> list[int]:
    """Take away units that no limit needs, and put units that serve less in place of those that serve more."""
    left = list(counts)
    serves = [
        frozenset(i for i, limit in enumerate(limits) if sort in limit.sorts) for sort in range(len(left))
    ]

    def spare(places: frozenset[int]) -> int:
        return min(
            (sum(left[s] for s in limits[i].sorts) - max(0, limits[i].at_least) for i in places),
            default=10**9,
        )

    strict_first = sorted(range(len(left)), key=lambda sort: (-len(serves[sort]), sort))
    for sort in strict_first:
        left[sort] -= min(left[sort], spare(serves[sort]))
    for sort in strict_first:
        for other in reversed(strict_first):
            if serves[other] < serves[sort] and left[sort]:
                moved = min(left[sort], spare(serves[sort] - serves[other]))
                left[sort] -= moved
                left[other] += moved
    return left
