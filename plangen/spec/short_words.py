"""A thing of the spec in one short text: `60 L/h`, `2 electric`, `2 × 42 kW`, `propane`, `12 V 600 Ah`."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any, get_args

from pydantic import BaseModel

from plangen.spec.problems import name_list, nearest_name
from plangen.spec.quantity import KINDS, QuantityError, parse_quantity
from plangen.spec.shape import Shape, shapes

_NUMBER = r"[0-9][0-9\u202f_]*(?:[.,][0-9]+)?"
_TIMES = re.compile(r"([0-9]{1,3})\s*(?:x|×|\*)\s*(?=\S)", re.IGNORECASE)
_COUNT = re.compile(r"([0-9]{1,3})\s+(?=[^\W\d_])")
_QUANTITY = re.compile(rf"{_NUMBER}\s*[^\s0-9]\S*(?:\s+{_NUMBER}\s*(?:in|ft))?")
_WORD = re.compile(r"\S+")


@dataclass
class ShortText:
    """What a short text says: how many, and the values of keys."""

    count: int | None = None
    values: dict[str, str] = field(default_factory=dict)


class ShortTextFault(ValueError):
    """A short text that begins like values and can't be read as such."""

    def __init__(self, found: str, accepted: str, nearest: str = "") -> None:
        super().__init__(found)
        self.found, self.accepted, self.nearest = found, accepted, nearest


def read_short_text(text: str, model: type[BaseModel], *, counted: bool) -> ShortText | None:
    """Return what the text says of a thing of the model; nothing where it is no value but a name.

    Raises `ShortTextFault` for a text that begins with a number and isn't wholly understood: a number is never lost.
    """
    known = own_first(model)
    if choice := _choice(text.strip(), known):
        return ShortText(values={choice[0]: choice[1]})
    read = ShortText()
    rest = text.strip()
    if counted and (many := _TIMES.match(rest) or _counted(rest, known)):
        read.count, rest = int(many[1]), rest[many.end() :]
    for part in _parts(rest, known):
        if part is None:
            break
        key, value = part
        if key in read.values:
            raise _fault(text, model, f"{text!r}, which gives {key} twice")
        read.values[key] = value
    else:
        return read
    if text.strip()[:1].isdigit():
        raise _fault(text, model, f"{text!r}")
    return None


def own_first(model: type[BaseModel]) -> dict[str, Shape]:
    """Return the keys with those of the model itself before what every thing aboard has: a bank's age before its hours."""
    known = shapes(model)
    own = [key for key in known if key in model.__annotations__]
    return {key: known[key] for key in [*own, *(key for key in known if key not in own)]}


def _counted(text: str, known: dict[str, Shape]) -> re.Match[str] | None:
    """Return a count before words: `2 electric`, not the number of a quantity such as `2 kW`."""
    many = _COUNT.match(text)
    if many is None:
        return None
    return None if _quantity_key(text, known) or _any_unit(text) else many


def _any_unit(text: str) -> bool:
    found = _QUANTITY.match(text)
    if found is None:
        return False
    try:
        parse_quantity(found[0])
    except QuantityError:
        return False
    return True


def _parts(text: str, known: dict[str, Shape]) -> Iterator[tuple[str, str] | None]:
    rest = text.strip(" ,")
    while rest:
        if quantity := _quantity_key(rest, known):
            key, written = quantity
        else:
            word = _WORD.match(rest)
            assert word is not None
            written = word[0].rstrip(",")
            found = _choice(written, known)
            if found is None:
                yield None
                return
            key, written = found[0], written
            yield key, found[1]
            rest = rest[len(written) :].strip(" ,")
            continue
        yield key, written
        rest = rest[len(written) :].strip(" ,")


def _quantity_key(text: str, known: dict[str, Shape]) -> tuple[str, str] | None:
    """Return the key that a leading quantity belongs to: the first one of its kind, as the models list them."""
    found = _QUANTITY.match(text)
    if found is None:
        return None
    written = found[0].rstrip(",")
    for key, shape in known.items():
        if shape.kind:
            try:
                parse_quantity(written, shape.kind)
            except QuantityError:
                continue
            return key, written
    return None


def _choice(text: str, known: dict[str, Shape]) -> tuple[str, str] | None:
    """Return the one key that has the text among its choices."""
    wanted = folded(text)
    found = [
        (key, choice)
        for key, shape in known.items()
        for choice in choices_of(shape)
        if folded(choice) == wanted
    ]
    return found[0] if len(found) == 1 else None


def folded(text: str) -> str:
    """Return a word without regard to case, blanks and hyphens."""
    return text.casefold().replace(" ", "-").replace("_", "-")


def choices_of(shape: Shape) -> tuple[str, ...]:
    """Return the words that a key may have."""
    scalar: Any = shape.scalar
    if isinstance(scalar, (tuple, type)) or shape.refers_to or shape.model is not None:
        return ()
    return tuple(str(choice) for choice in get_args(scalar))


def accepted_texts(model: type[BaseModel]) -> str:
    """Return a sentence of what a thing of the model may be written as, key by key."""
    known = shapes(model)
    first = [f"{key}: {shape.example}" for key, shape in known.items() if shape.example][:3]
    words = [f"{key}: {choices_of(shape)[0]}" for key, shape in known.items() if choices_of(shape)][:2]
    return "its keys, such as {" + ", ".join([*first, *words]) + "}"


def _fault(text: str, model: type[BaseModel], found: str) -> ShortTextFault:
    known = shapes(model)
    units = [unit for shape in known.values() if shape.kind for unit in list(KINDS[shape.kind].units)[:2]]
    words = [choice for shape in known.values() for choice in choices_of(shape)]
    last = text.split()[-1]
    accepted = accepted_texts(model)
    if units:
        accepted += f"; in short a number with its unit ({name_list(list(dict.fromkeys(units)), 8)})"
    if "name" in known:
        accepted += '; a name that begins with a digit as {name: "' + text[:30] + '"}'
    return ShortTextFault(found, accepted, nearest_name(last, words))
