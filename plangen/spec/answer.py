"""What somebody typed as the answer to a question about one key, read as the spec would have it written."""

from __future__ import annotations

import datetime
import re
from dataclasses import dataclass

from plangen.spec.explain import day_meant, yes_or_no
from plangen.spec.other_words import OtherWords
from plangen.spec.problems import name_list, nearest_name
from plangen.spec.quantity import KINDS, QuantityError, parse_quantity
from plangen.spec.shape import Shape
from plangen.spec.short_words import choices_of, folded

_NUMBER = re.compile(r"[0-9][0-9 ]*(?:[.,][0-9]+)?")


@dataclass(frozen=True)
class Read:
    """A value as the spec has it; `added` says what was not typed, such as a unit."""

    value: str | tuple[str, ...]
    is_text: bool = False
    added: str = ""


class Unanswerable(ValueError):
    """An answer that can't be read, with what would be."""

    def __init__(self, found: str, accepted: str = "", nearest: str = "", key: str = "") -> None:
        super().__init__(found)
        self.found, self.accepted, self.nearest, self.key = found, accepted, nearest, key


def read_answer(typed: str, shape: Shape, words: OtherWords, key: str) -> Read:
    """Return an answer as the spec writes it.

    A bare number is taken in the unit of the key's example, which stands beside the field. Raises `Unanswerable`.
    """
    text = " ".join(typed.split())
    if shape.model is not None:
        return _of_section(typed, text, shape)
    if shape.kind:
        return _quantity(text, shape)
    if choices := choices_of(shape):
        if shape.is_list:
            return Read(tuple(_choice(one, choices, words, key) for one in _parts(typed)))
        return Read(_choice(text, choices, words, key))
    if shape.is_list:
        return Read(_parts(typed), is_text=True)
    if shape.scalar is bool:
        return Read(_yes_or_no(text))
    if shape.scalar is str:
        return Read(text, is_text=True)
    return _plain(text, shape)


def _of_section(typed: str, text: str, shape: Shape) -> Read:
    """Return whether she has a thing, how many, or what it is like in short."""
    if answer := yes_or_no(text):
        return Read(answer)
    parts = _parts(typed)
    return Read(parts if shape.is_list and len(parts) > 1 else text)


def _parts(typed: str) -> tuple[str, ...]:
    """Return the things of a list; a comma before a blank parts them, one inside a number doesn't."""
    return tuple(part for one in re.split(r";|\n|,(?=\s)", typed) if (part := " ".join(one.split())))


def _quantity(text: str, shape: Shape) -> Read:
    unit = shape.example.partition(" ")[2]
    bare = _NUMBER.fullmatch(text) is not None and bool(unit)
    value = f"{text} {unit}" if bare else text
    try:
        parse_quantity(value, shape.kind)
    except QuantityError as error:
        accepted = KINDS[shape.kind].accepted_like(shape.example) if shape.example else error.accepted
        raise Unanswerable(error.found, "; ".join(part for part in (accepted, error.hint) if part)) from error
    return Read(value.replace(",", "."), added=unit if bare else "")


def _choice(text: str, choices: tuple[str, ...], words: OtherWords, key: str) -> str:
    found = next((choice for choice in choices if folded(choice) == folded(text)), "")
    meant = found or words.value_for(key, text, choices)
    if not meant or " or " in meant:
        raise Unanswerable(f"{text!r}", name_list(choices), meant or nearest_name(text, choices))
    return meant


def _yes_or_no(text: str) -> str:
    answer = yes_or_no(text)
    if not answer:
        raise Unanswerable(f"{text!r}", "yes or no")
    return answer


def _plain(text: str, shape: Shape) -> Read:
    """Return a number, a year or a day; the models say what else is wrong with it."""
    kinds = shape.scalar if isinstance(shape.scalar, tuple) else (shape.scalar,)
    if datetime.date in kinds and not (int in kinds and text.isdigit()):
        try:
            return Read(datetime.date.fromisoformat(text).isoformat())
        except ValueError:
            day = day_meant(text)
            if not day or " or " in day:
                raise Unanswerable(f"{text!r}", "a date such as 2027-05-14", day) from None
            return Read(day)
    number = text.replace(" ", "").replace(",", ".") if float in kinds else text.replace(" ", "")
    if (int in kinds or float in kinds) and not re.fullmatch(r"[0-9]+(\.[0-9]+)?", number):
        raise Unanswerable(f"{text!r}", f"a number: {shape.description}" if shape.description else "a number")
    return Read(number if int in kinds or float in kinds else text)
