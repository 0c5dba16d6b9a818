"""What the snags come to in money, beside the sum that the contract lets the buyer hold back."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from plangen.assess.model import Money, Snag

#: Settlements under which a snag needs no price.
_NEEDS_NO_PRICE = ("mended-before-handover", "accepted")


def money_of(snags: Sequence[Snag], holdback: str | None = None) -> Money:
    """Return the sums by currency: held back, disputed, off the price, all of these together, and what has no price yet.

    A snag is still to be priced where it is open or disputed without a sum and isn't to be mended before handover, or where
    the price is to be reduced and nothing says by how much. Against the holdback count sums in the contract's currency.
    """
    held, less = sums_held_back(snags), price_reductions(snags)
    amount, currency = _parted(holdback) if holdback else (Decimal(0), "")
    left = amount - _amount(held.get(currency, "0"))
    return Money(
        holdback=holdback,
        disputed=_total([snag for snag in snags if snag.state == "disputed"]),
        together={name: _text(_amount(held.get(name, "0")) + _amount(less.get(name, "0"))) for name in sorted({*held, *less})},
        left_of_holdback=f"{_text(left)} {currency}" if holdback and left >= 0 else None,
        beyond_holdback=f"{_text(-left)} {currency}" if holdback and left < 0 else None,
        to_price=tuple(snag.number for snag in snags if _wants_a_price(snag)),
    )  # fmt: skip


def _wants_a_price(snag: Snag) -> bool:
    if snag.sum is not None or snag.state == "mended":
        return False
    return snag.settlement == "price-reduced" or (
        snag.state in ("open", "disputed") and snag.settlement not in _NEEDS_NO_PRICE
    )


def sums_held_back(snags: Sequence[Snag]) -> dict[str, str]:
    """Return the total of the sums held back against snags that are still to be mended, by currency.

    >>> sums_held_back([])
    {}
    """
    return _total([snag for snag in snags if snag.state not in ("mended", "accepted")])


def price_reductions(snags: Sequence[Snag]) -> dict[str, str]:
    """Return the total of the sums by which the price is reduced, by currency.

    >>> price_reductions([])
    {}
    """
    return _total([snag for snag in snags if snag.settlement == "price-reduced" and snag.state == "accepted"])


def _total(snags: Sequence[Snag]) -> dict[str, str]:
    totals: dict[str, Decimal] = {}
    for snag in snags:
        if snag.sum:
            amount, currency = _parted(snag.sum)
            totals[currency] = totals.get(currency, Decimal(0)) + amount
    return {currency: _text(total) for currency, total in sorted(totals.items())}


def _parted(money: str) -> tuple[Decimal, str]:
    amount, currency = money.rsplit(" ", 1)
    return _amount(amount), currency


def _amount(text: str) -> Decimal:
    return Decimal(text.replace(" ", ""))


def _text(amount: Decimal) -> str:
    return f"{amount:,}".replace(",", " ")
