"""Values in a pack: a bare quantity such as `0.5 V` is itself, all else is an expression."""

from __future__ import annotations

from functools import cache
from typing import Any

from plangen.packs.evaluate import Scope, evaluate
from plangen.spec.quantity import Quantity, QuantityError, parse_quantity


@cache
def literal(text: str) -> Quantity | None:
    """Return the quantity that the text is, or nothing when it is an expression."""
    if not any(character.isdigit() for character in text) or not (text[0].isdigit() or text[0] in "+-. "):
        return None
    try:
        return parse_quantity(text)
    except QuantityError:
        return None


def value_of(text: str, scope: Scope) -> Any:
    """Return the value of a bare quantity or of an expression."""
    quantity = literal(text)
    return evaluate(text, scope) if quantity is None else quantity
