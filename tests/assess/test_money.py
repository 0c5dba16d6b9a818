"""What the snags come to in money, added up by hand beside each case."""

from __future__ import annotations

from typing import Any

import pytest

from plangen.assess.model import Snag
from plangen.assess.money import money_of, price_reductions, sums_held_back


def snag(number: int, state: str = "open", **more: Any) -> Snag:
    """A snag with what counts for its sum."""
    plain = {
        "check": f"c{number}@boat",
        "title": "t",
        "item": "i",
        "expected": "",
        "found": "",
        "grade": "stop",
    }
    return Snag.model_validate({"number": number, "state": state, **plain, **more})


HELD: dict[str, Any] = {"settlement": "mended-by-date", "sum": "1 250.00 EUR"}


def test_sums_are_added_by_currency_and_together() -> None:
    """1 250 + 300 held back; 400 off the price in euros, 90 in dollars; together 1 950 EUR and 90 USD."""
    snags = [
        snag(1, **HELD),
        snag(2, "disputed", sum="300.00 EUR", settlement="disputed"),
        snag(3, "accepted", settlement="price-reduced", sum="400.00 EUR"),
        snag(4, "accepted", settlement="price-reduced", sum="90 USD"),
        snag(5, "mended", settlement="mended-by-date", sum="7 000.00 EUR"),
    ]
    money = money_of(snags, "12 000 EUR")
    assert sums_held_back(snags) == {"EUR": "1 550.00"}
    assert price_reductions(snags) == {"EUR": "400.00", "USD": "90"}
    assert money.together == {"EUR": "1 950.00", "USD": "90"}
    assert money.disputed == {"EUR": "300.00"}
    assert money.left_of_holdback == "10 450.00 EUR"
    assert money.beyond_holdback is None


def test_more_than_the_contract_lets_hold_back_is_said() -> None:
    """1 250 against 1 000."""
    money = money_of([snag(1, **HELD)], "1 000 EUR")
    assert (money.left_of_holdback, money.beyond_holdback) == (None, "250.00 EUR")


def test_sums_in_another_currency_use_up_nothing_of_the_contracts_sum() -> None:
    money = money_of([snag(1, sum="500 USD")], "1 000 EUR")
    assert money.left_of_holdback == "1 000 EUR"


@pytest.mark.parametrize(
    ("state", "more", "wants"),
    [
        ("open", {}, True),
        ("open", {"settlement": "mended-before-handover"}, False),
        ("open", {"settlement": "mended-by-date"}, True),
        ("open", HELD, False),
        ("disputed", {"settlement": "disputed"}, True),
        ("accepted", {"settlement": "accepted"}, False),
        ("accepted", {"settlement": "price-reduced"}, True),
        ("mended", {"settlement": "mended-by-date"}, False),
    ],
)
def test_what_is_still_to_be_priced(state: str, more: dict[str, Any], wants: bool) -> None:
    assert money_of([snag(7, state, **more)]).to_price == ((7,) if wants else ())


@pytest.mark.parametrize(
    ("holdback", "left", "beyond"),
    [
        ("1 250 EUR", "0.00 EUR", None),
        ("900 USD", "900 USD", None),
        (None, None, None),
        ("1 249.99 EUR", None, "0.01 EUR"),
    ],
)
def test_what_is_left_counts_in_the_contract_s_currency(
    holdback: str | None, left: str | None, beyond: str | None
) -> None:
    money = money_of([snag(1, **HELD)], holdback)
    assert (money.left_of_holdback, money.beyond_holdback) == (left, beyond)
    assert money_of([snag(1, "accepted", settlement="price-reduced", sum="90 USD")]).together == {"USD": "90"}
