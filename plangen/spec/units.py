"""Units of measure: read from `units.txt` when they are first named, multiplied, divided and held against one another."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

#: Stands before the name of a unit with an offset where a difference is meant: 10 K are 10 delta_degC.
_DELTA = "delta_"
_TOKEN = re.compile(r"\s*(?:([0-9.]+(?:e[-+]?[0-9]+)?)|([^\W\d]\w*|°\w|[%°Ω])|(\*\*|[-*/()]))")

Terms = tuple[tuple[str, int], ...]


class UnitError(ValueError):
    """A unit that isn't known, or one that another can't be turned into."""


@dataclass(frozen=True)
class _Definition:
    """A unit as `units.txt` has it: so many of other units, or one of a dimension, or a plain number."""

    name: str
    symbol: str
    scale: float
    terms: Terms
    dimension: str = ""
    offset: float | None = None


@dataclass(frozen=True, eq=False)
class Unit:
    """A product of powers of named units; there is one object for each, so that the same unit is the same object.

    `factor` turns its numbers into those of its `base` units. A unit with an `offset`, as of a temperature, is alone.
    """

    terms: Terms
    factor: float
    base: Terms
    dimensionality: Terms
    offset: float | None

    def __str__(self) -> str:
        return written(self.terms)

    @property
    def short(self) -> str:
        """Return the unit in signs, as `kn / h`."""
        return written([(_definition(name).symbol, power) for name, power in self.terms])

    @property
    def base_text(self) -> str:
        """Return the units of its base."""
        return written(self.base)

    @property
    def is_plain(self) -> bool:
        """Tell whether it is that of plain numbers, such as a percentage or an angle."""
        return not self.dimensionality

    @property
    def difference(self) -> Unit:
        """Return the unit of differences, where this one has an offset."""
        return unit_of(f"{_DELTA}{self.terms[0][0]}") if self.offset is not None else self

    def times(self, other: Unit, power: int = 1) -> Unit:
        """Return the product with another unit, or with a power of it."""
        return _product(self, other, power)

    @property
    def is_difference(self) -> bool:
        """Tell whether any of it is a difference of temperatures."""
        return any(name.startswith(_DELTA) for name, _ in self.terms)


@cache
def unit_of(text: str) -> Unit:
    """Return a unit by its name, sign or formula, such as `litre/hour`.

    >>> str(unit_of("L/h")), unit_of("kilowatt").factor
    ('litre / hour', 1000.0)
    """
    scale, terms = _Parser(text).whole()
    if scale != 1.0:
        raise UnitError(f"{text!r} is no unit")
    return _unit(_sorted((_canonical(name), power) for name, power in terms.items()))


def plain_unit() -> Unit:
    """Return the unit of plain numbers."""
    return _unit(())


@cache
def conversion(one: Unit, other: Unit) -> float:
    """Return by what a number of one unit is multiplied to be one of another; offsets are not looked at.

    Raises `UnitError` where they measure different things.
    """
    if one.dimensionality != other.dimensionality:
        raise UnitError(
            f"Cannot convert from '{one}' ({written(one.dimensionality)}) to '{other}' ({written(other.dimensionality)})"
        )
    powers = dict(one.terms)
    for name, power in other.terms:
        powers[name] = powers.get(name, 0) - power
    return _factor([(name, power) for name, power in powers.items() if power])


@cache
def _product(one: Unit, other: Unit, power: int) -> Unit:
    return _unit(multiplied(one.terms, other.terms, power))


def multiplied(one: Terms, other: Terms, power: int = 1) -> Terms:
    """Return the product of powers of names, with a power of the other."""
    powers = dict(one)
    for name, own in other:
        powers[name] = powers.get(name, 0) + power * own
    return _sorted(powers.items())


def _place(term: tuple[str, int]) -> tuple[bool, str]:
    """Return where a term stands: what is divided by comes last."""
    return term[1] < 0, term[0]


def _sorted(terms: Iterable[tuple[str, int]]) -> Terms:
    powers: dict[str, int] = {}
    for name, power in terms:
        powers[name] = powers.get(name, 0) + power
    return tuple(sorted(((name, power) for name, power in powers.items() if power), key=_place))


@cache
def _unit(terms: Terms) -> Unit:
    base: dict[str, int] = {}
    for name, power in terms:
        for root, own in _root(name):
            base[root] = base.get(root, 0) + power * own
    roots = _sorted(base.items())
    dimensions = _sorted(
        (dimension, power) for name, power in roots if (dimension := _definition(name).dimension)
    )
    offset = _definition(terms[0][0]).offset if len(terms) == 1 and terms[0][1] == 1 else None
    return Unit(terms, _factor(terms), roots, dimensions, offset)


def _factor(terms: Iterable[tuple[str, int]]) -> float:
    factor = 1.0
    for scale, power in _scales(terms, 1):
        factor *= scale**power
    return factor


def _scales(terms: Iterable[tuple[str, int]], times: int) -> Iterator[tuple[float, int]]:
    """Yield the scale of each unit down to the base units, with its power."""
    for name, power in terms:
        definition = _definition(name)
        if not definition.dimension:
            yield definition.scale, power * times
        yield from _scales(definition.terms, power * times)


@cache
def _root(name: str) -> Terms:
    definition = _definition(name)
    if definition.dimension or (not definition.terms and definition.scale == 1.0):
        return ((name, 1),)
    return _sorted((root, own * power) for part, power in definition.terms for root, own in _root(part))


def written(terms: Iterable[tuple[str, int]]) -> str:
    """Return powers of names as text, as in `metre / second ** 2`."""
    above = [_power(name, power) for name, power in terms if power > 0]
    below = [_power(name, -power) for name, power in terms if power < 0]
    if not above and not below:
        return "dimensionless"
    return " / ".join([" * ".join(above) or "1", *below])


def _power(name: str, power: int) -> str:
    return name if power == 1 else f"{name} ** {power}"


def _canonical(written: str) -> str:
    """Return the name of a unit that is written by one of its names or signs, with or without a prefix."""
    names = _list().names
    if written in names:
        return names[written]
    if written.startswith(_DELTA) and written.removeprefix(_DELTA) in names:
        return f"{_DELTA}{names[written.removeprefix(_DELTA)]}"
    for prefix, (name, _, _) in _list().prefixes.items():
        rest = written.removeprefix(prefix)
        if rest != written and rest in names:
            return f"{name}{names[rest]}"
    raise UnitError(f"{written!r} is no unit that is known")


@cache
def _definition(name: str) -> _Definition:
    known = _list().definitions.get(name)
    if known is not None:
        return known
    if name.startswith(_DELTA):
        whole = _list().definitions[name.removeprefix(_DELTA)]
        return _Definition(name, f"Δ{whole.symbol}", whole.scale, whole.terms)
    prefix, (_, sign, scale) = next(
        (prefix, one)
        for prefix, one in _list().prefixes.items()
        if prefix == one[0] and name.startswith(prefix)
    )
    unit = _list().definitions[name.removeprefix(prefix)]
    return _Definition(name, f"{sign}{unit.symbol}", scale, ((unit.name, 1),))


@dataclass(frozen=True)
class _List:
    """What `units.txt` says: units by name, their names by every way of writing them, prefixes with name, sign and scale."""

    definitions: Mapping[str, _Definition]
    names: Mapping[str, str]
    prefixes: Mapping[str, tuple[str, str, float]]


@cache
def _list() -> _List:
    read: dict[str, _Definition] = {}
    names: dict[str, str] = {}
    prefixes: dict[str, tuple[str, str, float]] = {}
    for line in Path(__file__).with_name("units.txt").read_text(encoding="utf-8").splitlines():
        if not line or line.startswith("#"):
            continue
        words, _, offset = line.partition("; offset:")
        offset, *others = offset.split(" = ")
        name, meant, *more = words.strip().split(" = ")
        others = more + others
        if name.endswith("-"):
            for spelt in (name, *others):
                prefixes[spelt[:-1]] = (name[:-1], others[0][:-1], float(meant))
            continue
        symbol = others[0] if others else name
        dimension = meant if meant.startswith("[") and meant != "[]" else ""
        scale, terms = (1.0, {}) if meant.startswith("[") else _Parser(meant).whole()
        read[name] = _Definition(
            name, symbol, scale, tuple(terms.items()), dimension, float(offset or 0) or None
        )
        names.update(dict.fromkeys((name, *others), name))
    definitions = {
        name: replace(one, terms=tuple((names.get(part, part), power) for part, power in one.terms))
        for name, one in read.items()
    }
    return _List(definitions, names, prefixes)


class _Parser:
    """Reads `550 * foot * pound_force / second` into a number and the powers of names."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.tokens: list[tuple[str, str, str]] = []
        position = 0
        while position < len(text.rstrip()):
            match = _TOKEN.match(text, position)
            if match is None:
                raise UnitError(f"{text!r} is no unit")
            self.tokens.append((match[1] or "", match[2] or "", match[3] or ""))
            position = match.end()

    def whole(self) -> tuple[float, dict[str, int]]:
        """Return the number and the powers of all that was written; plain numbers are `dimensionless`."""
        if self.text == "dimensionless":
            return 1.0, {}
        found = self.product()
        if self.tokens:
            raise UnitError(f"{self.text!r} is no unit")
        return found

    def product(self) -> tuple[float, dict[str, int]]:
        scale, powers = self.power()
        while self.tokens and self.tokens[0][2] in ("*", "/"):
            sign = 1 if self.take()[2] == "*" else -1
            number, more = self.power()
            scale = scale * number if sign == 1 else scale / number
            for name, power in more.items():
                powers[name] = powers.get(name, 0) + sign * power
        return scale, powers

    def power(self) -> tuple[float, dict[str, int]]:
        scale, powers = self.one()
        if self.tokens and self.tokens[0][2] == "**":
            self.take()
            sign = -1 if self.tokens and self.tokens[0][2] == "-" and self.take() else 1
            power = sign * int(self.take()[0] or "0")
            return scale**power, {name: own * power for name, own in powers.items()}
        return scale, powers

    def one(self) -> tuple[float, dict[str, int]]:
        number, name, sign = self.take()
        if number:
            return float(number), {}
        if name:
            return 1.0, {name: 1}
        if sign == "(":
            found = self.product()
            if self.take()[2] == ")":
                return found
        raise UnitError(f"{self.text!r} is no unit")

    def take(self) -> tuple[str, str, str]:
        if not self.tokens:
            raise UnitError(f"{self.text!r} is no unit")
        return self.tokens.pop(0)
