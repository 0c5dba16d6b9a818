"""How a trade formula declares its units, so that rule packs can call it with quantities."""

from __future__ import annotations

import inspect
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TypeVar

Function = TypeVar("Function", bound=Callable[..., object])

#: Stands in the place of a unit for an argument that is a word, such as a battery's chemistry.
TEXT = "text"
#: Stands in the place of a unit for an argument that is a calendar date.
DATE = "date"
#: Stands in the place of a unit for a plain number.
NUMBER = "dimensionless"


class OutOfRange(ValueError):
    """The inputs lie outside the range for which the formula's source gives it."""


@dataclass(frozen=True)
class Formula:
    """One declared formula: the pure function, the unit of each argument and of the result."""

    name: str
    function: Callable[..., object]
    units: Mapping[str, str]
    returns: str
    required: tuple[str, ...]

    @property
    def summary(self) -> str:
        """Return the first line of the function's docstring."""
        return (inspect.getdoc(self.function) or "").split("\n", 1)[0]


FORMULAS: dict[str, Formula] = {}


def formula(*, returns: str, **units: str) -> Callable[[Function], Function]:
    """Declare the unit of each argument and of the result of a pure function of floats.

    The function itself is returned unchanged: it takes and gives plain floats in the declared units.
    """

    def register(function: Function) -> Function:
        name = function.__name__
        parameters = inspect.signature(function).parameters
        if set(parameters) != set(units):
            raise TypeError(
                f"{name}: units are declared for {sorted(units)}, arguments are {list(parameters)}"
            )
        before = FORMULAS.get(name)
        if before is not None and before.function.__module__ != function.__module__:
            raise TypeError(f"two formulas are named {name}")
        required = tuple(key for key, p in parameters.items() if p.default is inspect.Parameter.empty)
        FORMULAS[name] = Formula(name, function, {key: units[key] for key in parameters}, returns, required)
        return function

    return register


def require_positive(**values: float) -> None:
    """Raise `OutOfRange` naming every value that is not above zero."""
    bad = [
        f"{name.replace('_', ' ')} is {value:g}"
        for name, value in values.items()
        if not 0 < value < float("inf")
    ]
    if bad:
        raise OutOfRange(f"must be above zero and finite: {', '.join(bad)}")


def require_within(name: str, value: float, low: float, high: float) -> None:
    """Raise `OutOfRange` unless `low <= value <= high`."""
    if not low <= value <= high:
        raise OutOfRange(f"{name.replace('_', ' ')} is {value:g}; the source covers {low:g} to {high:g}")
