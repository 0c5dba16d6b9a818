"""What a rule states of a reading, in words, before any boat gives values to it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from plangen.packs.model import CheckRule, ReadingRule

if TYPE_CHECKING:
    from plangen.packs.library import Library

_EXPRESSION = re.compile(r"\{\{\s*(.*?)\s*\}\}")
_CHOICE = re.compile(r"""(['"])(?P<words>[^'"]*)\1 if .* else .*""")


def limit_as_stated(reading: ReadingRule) -> str:
    """Return what counts as good, as the rule states it.

    >>> limit_as_stated(ReadingRule(id="loss", reading="loss", unit="V", at_most="0.03 * bank.voltage"))
    'at most 0.03 * bank.voltage'
    >>> limit_as_stated(ReadingRule(id="drain", reading="drains", is_="yes"))
    'yes'
    """
    if reading.is_ is not None:
        return reading.is_
    if reading.between is not None:
        text = f"between {reading.between[0]} and {reading.between[1]}"
    elif reading.about is not None:
        text = f"about {reading.about} ± {reading.tolerance}"
    else:
        limits = (("at least", reading.at_least), ("at most", reading.at_most))
        text = ", ".join(f"{words} {value}" for words, value in limits if value is not None)
        text = text or f"recorded: {(reading.record or 'text').replace('-', ' ')}"
    return f"{text}, at each of {reading.series}" if reading.series is not None else text


def title_as_stated(rule: CheckRule) -> str:
    """Return the rule's title without the name of any one item.

    >>> title_as_stated(CheckRule(id="x", title="Lockout of the head: {{ head.name }}", setting="alongside"))
    'Lockout of the head'
    >>> title_as_stated(CheckRule(id="x", title="{{ 'A tank' if tank.gauge else 'A pot' }}", setting="alongside"))
    'A tank'
    """
    return _without_expressions(rule.title)


def _without_expressions(text: str) -> str:
    return _EXPRESSION.sub(_first_choice, text).removesuffix(": …").removesuffix(" …").strip()


def _first_choice(found: re.Match[str]) -> str:
    choice = _CHOICE.fullmatch(found[1])
    return choice["words"] if choice else "…"


class Nameable(NamedTuple):
    """Something that a house file can name: a rule with its readings, or a requirement of a law."""

    id: str
    title: str
    about: str
    readings: tuple[tuple[str, str], ...] = ()


def nameable(library: Library, word: str) -> Iterator[Nameable]:
    """Yield what a house file can name and has the word in an id, a title or the words of a reading."""
    for one in (*_rules(library), *_requirements(library)):
        texts = (one.id, one.title, *(text for reading in one.readings for text in reading))
        if any(word.casefold() in text.casefold() for text in texts):
            yield one


def _rules(library: Library) -> Iterator[Nameable]:
    for pack in library.rules:
        for rule in pack.model.checks:
            readings = tuple(
                (
                    one.id,
                    f"{_without_expressions(one.reading)}: {limit_as_stated(one)}{f' ({one.unit})' if one.unit else ''}",
                )
                for one in rule.expect
            )
            about = f"{pack.model.pack}, {rule.grade}, priority {rule.priority}"
            yield Nameable(rule.id, title_as_stated(rule), about, readings)


def _requirements(library: Library) -> Iterator[Nameable]:
    for pack in library.law:
        for one in pack.model.requires:
            title = library.gear[one.item].title
            yield Nameable(one.id, title, f"law: {pack.model.jurisdiction}, {one.strength}, {one.clause}")
