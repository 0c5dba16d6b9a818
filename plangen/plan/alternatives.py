"""Readings of a check of which one suffices: how they are told apart, and joined in words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from plangen.plan.model import Expectation


def way_of(expected: Expectation) -> tuple[str, str] | None:
    """Return the group of a reading and the way in which it decides it; nothing where it stands by itself."""
    return None if expected.one_of is None else (expected.one_of, expected.way or expected.id)


def only_alternatives(readings: Iterable[Expectation]) -> tuple[Expectation, ...]:
    """Return the readings, those no longer as alternatives of which only one way is left on this boat."""
    listed = list(readings)
    ways: dict[str, set[str]] = {}
    for one in listed:
        if (way := way_of(one)) is not None:
            ways.setdefault(way[0], set()).add(way[1])
    return tuple(
        one.model_copy(update={"one_of": None, "way": None})
        if one.one_of is not None and len(ways[one.one_of]) < 2
        else one
        for one in listed
    )


def words_of(readings: Sequence[Expectation], index: int) -> str:
    """Return a reading's words as they stand among the others: alternatives with `either` and `or` before them."""
    one = readings[index]
    words = f"{one.reading}, one point is enough" if one.any_point else one.reading
    way = way_of(one)
    if way is None:
        return words
    before = [way_of(other) for other in readings[:index]]
    if way in before:
        return words
    return f"{'or' if any(other and other[0] == way[0] for other in before) else 'either'} {words}"
