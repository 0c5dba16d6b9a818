"""The methods as one HTML document."""

from __future__ import annotations

from plangen.plan.model import Plan
from plangen.print.html import Document, Paper, assumptions_of, render
from plangen.print.methods.cards import cards_of
from plangen.print.sources import source_numbers


def methods_document(plan: Plan, paper: Paper = "A4") -> Document:
    """Return what is looked up: cards, gear by clause, stores, open points and sources."""
    html = render(
        "methods/methods.html.j2",
        plan=plan,
        paper=paper,
        cards=cards_of(plan),
        numbers=source_numbers(plan),
        assumptions=assumptions_of(plan),
    )
    return Document(html, "style.css", "methods/methods.css")
