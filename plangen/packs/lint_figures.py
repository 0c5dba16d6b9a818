"""Holding the `derive:` entries of a rule against the figures that are known and the readings that exist."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from plangen.packs.figures import FIGURES, Figure, Role
from plangen.packs.model import CheckRule, DeriveRule, ReadingOf, ReadingRule
from plangen.spec.problems import name_list, nearest_name
from plangen.spec.quantity import registry, unit_from_label


class Fault(NamedTuple):
    """What is wrong with an entry, and where in it."""

    path: tuple[str | int, ...]
    found: str
    accepted: str = ""
    nearest: str = ""


def figure_faults(derive: DeriveRule, rule: CheckRule, rules: Mapping[str, CheckRule]) -> Iterator[Fault]:
    """Yield what is wrong with one entry, its expressions apart."""
    figure = FIGURES.get(derive.figure)
    if figure is None:
        yield _unknown(("figure",), "figure", derive.figure, FIGURES)
        return
    yield from _names(("readings",), "reading", derive.readings, figure.readings)
    yield from _names(("inputs",), "input", derive.inputs, figure.inputs)
    needed = [name for name, role in figure.readings.items() if not role.optional]
    for name in needed:
        if name not in derive.readings:
            yield Fault(
                ("readings",), f"{derive.figure} without the reading {name}", name_list(list(figure.readings))
            )
    if figure.one_of and not any(name in derive.readings for name in figure.one_of):
        yield Fault(("readings",), f"{derive.figure} without a feed", f"one of {name_list(figure.one_of)}")
    for name in figure.inputs:
        if name not in derive.inputs and name not in figure.optional_inputs:
            yield Fault(
                ("inputs",), f"{derive.figure} without the input {name}", name_list(list(figure.inputs))
            )
    for name, places in derive.readings.items():
        if name in figure.readings:
            for index, place in enumerate(places):
                yield from _place_faults(
                    ("readings", name, index), place, figure, figure.readings[name], derive, rule, rules
                )
    if derive.gives is not None:
        yield from _gives_faults(derive, figure, rule)


def _unknown(path: tuple[str, ...], what: str, name: str, known: Mapping[str, object]) -> Fault:
    return Fault(path, f"unknown {what} {name!r}", name_list(list(known), 40), nearest_name(name, known))


def _names(
    path: tuple[str, ...], what: str, given: Mapping[str, object], known: Mapping[str, object]
) -> Iterator[Fault]:
    for name in given:
        if name not in known:
            yield _unknown((*path, name), f"{what} of this figure", name, known)


def _place_faults(
    path: tuple[str | int, ...],
    place: ReadingOf,
    figure: Figure,
    role: Role,
    derive: DeriveRule,
    rule: CheckRule,
    rules: Mapping[str, CheckRule],
) -> Iterator[Fault]:
    owner = rule if place.rule is None else rules.get(place.rule)
    if owner is None:
        yield Fault(
            path, f"unknown rule {place.rule!r}", "the id of a rule", nearest_name(place.rule or "", rules)
        )
        return
    if owner is rule and place.reading == derive.gives:
        yield Fault(path, "a figure that is worked out of itself", "another reading")
    named = [reading for reading in owner.expect if reading.id == place.reading]
    if not named:
        names = [reading.id for reading in owner.expect]
        yield Fault(
            path,
            f"{owner.id} has no reading {place.reading!r}",
            name_list(names),
            nearest_name(place.reading, names),
        )
    for reading in named:
        yield from _unit_faults(path, reading, figure, role)


def _unit_faults(
    path: tuple[str | int, ...], reading: ReadingRule, figure: Figure, role: Role
) -> Iterator[Fault]:
    if not _alike(reading.unit, role.unit):
        yield Fault(
            path,
            f"a reading in {reading.unit or 'plain numbers'}",
            f"one that converts to {role.unit or 'a number'}",
        )
    if reading.series is not None and (
        figure.points is None or not _alike(reading.series_unit, figure.points)
    ):
        wanted = f"points in {figure.points or 'numbers'}" if figure.points is not None else "a single value"
        yield Fault(path, f"a series at points in {reading.series_unit or 'numbers'}", wanted)


def _gives_faults(derive: DeriveRule, figure: Figure, rule: CheckRule) -> Iterator[Fault]:
    named = [reading for reading in rule.expect if reading.id == derive.gives]
    if not named:
        names = [reading.id for reading in rule.expect]
        yield Fault(
            ("gives",),
            f"this rule has no reading {derive.gives!r}",
            name_list(names),
            nearest_name(derive.gives or "", names),
        )
    if any(not _alike(reading.unit, figure.unit) for reading in named):
        yield Fault(
            ("gives",), f"a reading in {named[0].unit or 'plain numbers'}", f"a reading in {figure.unit}"
        )
    if derive.at_least is not None or derive.at_most is not None:
        yield Fault(("gives",), "limits beside a reading that has its own", "gives, or at_least and at_most")


def _alike(one: str, other: str) -> bool:
    first, second = (registry.Unit(unit_from_label(label)) for label in (one, other))
    return bool(first.dimensionality == second.dimensionality)
