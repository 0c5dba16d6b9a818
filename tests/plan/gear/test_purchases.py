"""The fewest purchases, held against properties, a search through everything, and cases from the law counted by hand."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from itertools import combinations_with_replacement, permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plangen.plan.gear.purchases import Purchase, Stock, Wanted, purchases, served

KINDS = ("a", "b", "c", "d")
MARKS = ("x", "y")
MANY = settings(max_examples=400, deadline=None)

demands = st.lists(
    st.builds(
        Wanted,
        id=st.uuids().map(str),
        quantity=st.integers(1, 3),
        kinds=st.frozensets(st.sampled_from(KINDS), min_size=1),
        marks=st.frozensets(st.sampled_from(MARKS), max_size=2),
        places_of=st.sampled_from([None, None, "one law", "another"]),
    ),
    min_size=1,
    max_size=5,
)


@st.composite
def with_stock(draw: st.DrawFn) -> tuple[list[Wanted], list[Stock]]:
    """Draw demands and a few units aboard that meet some of them."""
    wanted = draw(demands)
    meets = st.frozensets(st.sampled_from([one.id for one in wanted]))
    stock = draw(st.lists(st.builds(Stock, quantity=st.integers(1, 3), meets=meets), max_size=2))
    return wanted, stock


def enough(wanted: Sequence[Wanted], units: Iterable[frozenset[str]]) -> bool:
    """Tell whether single units meet every demand: shared ones by counting, own places by trying every order.

    Written apart from the code under test: a place is given to a unit by a plain flow of one unit at a time.
    """
    each = list(units)
    places: dict[str, list[str]] = {}
    for one in wanted:
        if one.places_of is None:
            if sum(one.id in unit for unit in each) < one.quantity:
                return False
        else:
            places.setdefault(one.places_of, []).extend([one.id] * one.quantity)
    return all(_seated(tuple(seats), tuple(each)) for seats in places.values())


def _seated(seats: tuple[str, ...], units: tuple[frozenset[str], ...]) -> bool:
    if not seats:
        return True
    rest = seats[1:]
    tried: set[frozenset[str]] = set()
    for index, unit in enumerate(units):
        if seats[0] in unit and unit not in tried:
            tried.add(unit)
            if _seated(rest, units[:index] + units[index + 1 :]):
                return True
    return False


def singles(bought: Sequence[Purchase], stock: Sequence[Stock]) -> list[frozenset[str]]:
    """Return every single unit by the demands that it meets."""
    bags = [*((one.quantity, one.meets) for one in bought), *((one.quantity, one.meets) for one in stock)]
    return [meets for quantity, meets in bags for _ in range(quantity)]


def total(bought: Sequence[Purchase]) -> int:
    """Return how many units are bought."""
    return sum(one.quantity for one in bought)


@MANY
@given(with_stock())
def test_every_demand_is_met_by_purchases_and_stock(drawn: tuple[list[Wanted], list[Stock]]) -> None:
    wanted, stock = drawn
    assert enough(wanted, singles(purchases(wanted, stock), stock))


@MANY
@given(with_stock())
def test_what_a_purchase_meets_is_what_its_kind_and_mark_meet(
    drawn: tuple[list[Wanted], list[Stock]],
) -> None:
    wanted, stock = drawn
    for one in purchases(wanted, stock):
        assert one.meets == {d.id for d in wanted if d.takes(one.kind, one.mark)}


@MANY
@given(with_stock())
def test_no_purchase_can_be_left_out(drawn: tuple[list[Wanted], list[Stock]]) -> None:
    wanted, stock = drawn
    units = singles(purchases(wanted, stock), ())
    aboard = singles((), stock)
    for index in range(len(units)):
        assert not enough(wanted, [*units[:index], *units[index + 1 :], *aboard])


@MANY
@given(with_stock())
def test_adding_a_demand_never_buys_less(drawn: tuple[list[Wanted], list[Stock]]) -> None:
    wanted, stock = drawn
    fewer = [Stock(s.quantity, s.meets - {wanted[-1].id}) for s in stock]
    assert total(purchases(wanted[:-1], fewer)) <= total(purchases(wanted, stock))


@MANY
@given(with_stock(), st.randoms(use_true_random=False))
def test_the_order_of_demands_and_stock_does_not_matter(
    drawn: tuple[list[Wanted], list[Stock]], random: st.DataObject
) -> None:
    wanted, stock = drawn
    mixed, other = list(wanted), list(stock)
    random.shuffle(mixed)  # type: ignore[attr-defined]
    random.shuffle(other)  # type: ignore[attr-defined]
    assert purchases(mixed, other) == purchases(wanted, stock)


@settings(max_examples=150, deadline=None)
@given(with_stock())
def test_nothing_smaller_would_do(drawn: tuple[list[Wanted], list[Stock]]) -> None:
    """Against a search through every smaller basket."""
    wanted, stock = drawn
    found = total(purchases(wanted, stock))
    offered = sorted(
        {
            tuple(sorted(d.id for d in wanted if d.takes(kind, mark)))
            for kind in KINDS
            for mark in ("", *MARKS)
        }
        - {()}
    )
    if found == 0 or found > 7:
        return
    aboard = singles((), stock)
    for basket in combinations_with_replacement([frozenset(one) for one in offered], found - 1):
        assert not enough(wanted, [*basket, *aboard])


@MANY
@given(with_stock())
def test_the_proof_gives_each_demand_its_number(drawn: tuple[list[Wanted], list[Stock]]) -> None:
    wanted, stock = drawn
    units = [*stock, *(Stock(one.quantity, one.meets) for one in purchases(wanted, stock))]
    proof = served(wanted, units)
    used: dict[str, Counter[int]] = {}
    for one in wanted:
        assert sum(count for _, count in proof[one.id]) == one.quantity
        assert all(one.id in units[index].meets for index, _ in proof[one.id])
        if one.places_of is not None:
            used.setdefault(one.places_of, Counter()).update(dict(proof[one.id]))
    for counts in used.values():
        assert all(count <= units[index].quantity for index, count in counts.items())


SMALL, MIDDLE, LARGE = frozenset({"13B", "21B", "34B"}), frozenset({"21B", "34B"}), frozenset({"34B"})
RANK = {"13B": 1, "21B": 2, "34B": 3, "50": 1, "100": 2, "150": 3, "275": 4}


def names(bought: Sequence[Purchase]) -> dict[str, int]:
    """Return what is bought by kind."""
    return {one.kind: one.quantity for one in bought}


def test_extinguishers_with_a_place_each_add() -> None:
    """Two of 13B, one of 21B and one of 34B, each at its own place: four, though a 34B would do at any of them."""
    wanted = [
        Wanted("cabins", 2, SMALL, places_of="law"),
        Wanted("helm", 1, MIDDLE, places_of="law"),
        Wanted("engine", 1, LARGE, places_of="law"),
    ]
    assert names(purchases(wanted, rank=RANK)) == {"13B": 2, "21B": 1, "34B": 1}
    all_three = frozenset({"cabins", "helm", "engine"})
    assert names(purchases(wanted, [Stock(2, all_three)], RANK)) == {"13B": 2}
    assert purchases(wanted, [Stock(4, all_three)], RANK) == ()


def test_the_same_unit_serves_two_laws_at_its_place() -> None:
    wanted = [
        Wanted("one cabin", 2, SMALL, places_of="one"),
        Wanted("one engine", 1, LARGE, places_of="one"),
        Wanted("another", 3, MIDDLE),
    ]
    assert names(purchases(wanted, rank=RANK)) == {"21B": 2, "34B": 1}


def test_jackets_of_two_laws_are_bought_once() -> None:
    """Nine of level 275 for one, eight of level 150 for the other: nine of level 275."""
    wanted = [
        Wanted("code", 9, frozenset({"275"})),
        Wanted("flag", 8, frozenset({"150", "275"})),
    ]
    assert names(purchases(wanted, rank=RANK)) == {"275": 9}
    one = [Wanted("code", 1, frozenset({"275"})), Wanted("flag", 8, frozenset({"150", "275"}))]
    assert names(purchases(one, rank=RANK)) == {"275": 1, "150": 7}


def test_a_mark_that_both_take_is_bought_once_and_else_each_its_own() -> None:
    flares = frozenset({"flare"})
    both = [
        Wanted("one", 3, flares, frozenset({"wheel", "ce"})),
        Wanted("two", 4, flares, frozenset({"wheel"})),
    ]
    assert [(one.mark, one.quantity) for one in purchases(both)] == [("wheel", 4)]
    apart = [
        Wanted("one", 3, flares, frozenset({"160.021"})),
        Wanted("two", 4, flares, frozenset({"AS 2092"})),
    ]
    assert [(one.mark, one.quantity) for one in purchases(apart)] == [("160.021", 3), ("AS 2092", 4)]


@pytest.mark.parametrize("order", list(permutations(range(3))))
def test_a_kind_that_stands_in_for_two_is_bought_in_their_place(order: tuple[int, ...]) -> None:
    wanted = [
        Wanted("fixed", 1, frozenset({"fixed", "fixed-dsc"})),
        Wanted("dsc", 1, frozenset({"fixed-dsc"})),
        Wanted("any", 1, frozenset({"fixed", "fixed-dsc", "portable"})),
    ]
    assert names(purchases([wanted[i] for i in order])) == {"fixed-dsc": 1}


def test_very_many_units_are_bought_in_time() -> None:
    wanted = [
        Wanted("one", 400, frozenset("abc")),
        Wanted("two", 350, frozenset("bcd")),
        Wanted("three", 300, frozenset("ad")),
    ]
    bought = purchases(wanted)
    assert total(bought) >= 400
    assert total(bought) <= 1050
