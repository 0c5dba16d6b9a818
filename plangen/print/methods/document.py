"""The methods as one HTML document."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from plangen.plan.model import Plan
from plangen.print.html import Document, Paper, assumptions_of, foot_of, render
from plangen.print.methods.cards import Card, cards_of
from plangen.print.sources import source_numbers

#: Cards of a batch, before the next system begins a new one.
_BATCH = 30


def methods_document(plan: Plan, paper: Paper = "A4") -> Document:
    """Return what is looked up: cards, gear by clause, stores, open points and sources."""
    cards = cards_of(plan)
    html = render(
        "methods/methods.html.j2",
        plan=plan,
        paper=paper,
        cards=cards,
        batches=_batches(cards),
        systems=[(system, list(own)) for system, own in groupby(cards, key=lambda card: card.system)],
        numbers=source_numbers(plan),
        assumptions=assumptions_of(plan),
    )
    return Document(html, "style.css", "methods/methods.css", foot_of(plan))


def _batches(cards: Sequence[Card]) -> list[list[Card]]:
    """Return the cards in batches that are laid out by themselves: whole systems, and so few batches that little paper is empty."""
    batches: list[list[Card]] = []
    for card in cards:
        if not batches or (len(batches[-1]) >= _BATCH and card.system != batches[-1][-1].system):
            batches.append([])
        batches[-1].append(card)
    return batches
