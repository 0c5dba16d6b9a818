"""Words and listed numbers that a formula accepts, such as a battery's chemistry or a rated voltage."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import isclose
from typing import TypeVar

from plangen.formulas.declare import OutOfRange

Value = TypeVar("Value")


def choose(name: str, word: str, table: Mapping[str, Value]) -> Value:
    """Return the table's value for the word, or raise `OutOfRange` listing the words that it knows.

    >>> choose("hull", "steel", {"steel": -800})
    -800
    """
    try:
        return table[word]
    except KeyError:
        raise OutOfRange(f"{name} is {word!r}; known: {', '.join(sorted(table))}") from None


def choose_chemistry(chemistry: str, table: Mapping[str, Value]) -> Value:
    """Return the table's value for a battery chemistry, in the words of the spec.

    Thin-plate pure lead ("tppl") is an absorbed-glass-mat battery, and takes that row ("agm").

    >>> choose_chemistry("tppl", {"agm": 12.8})
    12.8
    """
    return choose("chemistry", chemistry, {**table, "tppl": table["agm"]})


def choose_listed(name: str, value: float, listed: Iterable[float]) -> float:
    """Return the listed number that equals the value but for rounding, or raise `OutOfRange` naming them all.

    >>> choose_listed("rated voltage", 12.000000001, [12.0, 24.0])
    12.0
    """
    numbers = list(listed)
    for number in numbers:
        if isclose(value, number, rel_tol=1e-6):
            return number
    raise OutOfRange(f"{name} is {value:g}; known: {', '.join(f'{n:g}' for n in numbers)}")
