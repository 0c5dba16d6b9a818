"""Laying a house file over the packs: shipped rules dropped, replaced and changed, and own ones added.

What the house file writes is put into the packs' own nodes with the places of the house file, so that whatever is
found wrong later is said with file and line of the house file.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import partial
from typing import Any, Literal

from plangen.packs.base import Source
from plangen.packs.house.edits import (
    Edits,
    changed_reading,
    changed_rule,
    replaced_rule,
    without,
    without_reading,
    written,
)
from plangen.packs.house.model import OF_A_READING, OF_THE_RULE, Because
from plangen.packs.house.names import Names, Place
from plangen.packs.house.read import LoadedHouse
from plangen.packs.law import LawPack, Requirement
from plangen.packs.library import Library, Loaded, loaded_from, merge_into
from plangen.packs.model import CheckRule, RulePack
from plangen.packs.plain_files import plain_of
from plangen.spec.problems import InputProblems, Problem, name_list, nearest_name
from plangen.spec.yaml_source import Node

#: The pack of own checks that belong to no system, and the source of what the house alone states.
HOUSE = "house"


@dataclass(frozen=True)
class LaidOver:
    """One change, with the rule before and after it, or the requirement of a law that was dropped."""

    change: Literal["added", "dropped", "replaced", "changed"]
    rule: str
    reason: str = ""
    by: str | None = None
    reading: str | None = None
    keys: tuple[str, ...] = ()
    before: CheckRule | None = None
    after: CheckRule | None = None
    law: str | None = None
    requirement: Requirement | None = None


@dataclass(frozen=True)
class Overlay:
    """A house file laid over a library: what it changed, which packs hold something of it, and what couldn't be done."""

    house: LoadedHouse
    changes: tuple[LaidOver, ...]
    packs: frozenset[str]
    problems: tuple[Problem, ...] = ()


def lay_house(library: Library, house: LoadedHouse) -> Library:
    """Return the library with a house file laid over it; the library itself stays as it is.

    Every line that names what isn't there, or that makes no rule of its kind, becomes a problem of the overlay, which
    `check_own` says together with what it finds in the rest.
    """
    names, edits = Names.of(library, house), Edits(library)
    changes = [
        *_changed(names, edits),
        *_replaced(names, edits),
        *_dropped(names, edits),
        *_added(names, edits),
    ]
    problems = names.problems
    rules, laws = list(library.rules), list(library.law)
    for number in edits.nodes:
        rules[number] = _again(rules[number], edits.source(number), RulePack, problems)
    for number in edits.requirements:
        laws[number] = _again(laws[number], edits.law_source(number), LawPack, problems)
    own = _own_pack(house, problems)
    rules += own
    laid = replace(
        library,
        rules=sorted(rules, key=lambda pack: (pack.model.order, pack.model.pack)),
        law=laws,
        sources={**library.sources, HOUSE: _source(house)},
        instruments=dict(library.instruments),
        cautions=dict(library.cautions),
    )
    for pack in own:
        merge_into(laid.sources, pack.model.sources, pack, "sources", problems)
        merge_into(laid.instruments, pack.model.instruments, pack, "instruments", problems)
        merge_into(laid.cautions, pack.model.cautions, pack, "cautions", problems)
    after = {rule.id: rule for pack in laid.rules for rule in pack.model.checks}
    touched = {library.rules[number].model.pack for number in edits.nodes}
    done = tuple(replace(one, after=after.get(one.rule) if one.law is None else None) for one in changes)
    packs = frozenset({*touched, *(pack.model.pack for pack in own)})
    laid.overlay = Overlay(house, done, packs, tuple(problems))
    return laid


def _source(house: LoadedHouse) -> Source:
    return Source(
        by=house.owner,
        title=f"House file of {house.owner}",
        edition=house.model.edition,
        known_by="common-practice",
    )


def _again(pack: Loaded[Any], source: Node, model: type[Any], problems: list[Problem]) -> Loaded[Any]:
    try:
        return loaded_from(pack.file, plain_of(source), model)
    except InputProblems as found:
        problems += found.problems
        return pack


def _because(entry: Because, house: LoadedHouse) -> dict[str, Any]:
    letterhead = house.model.letterhead
    by = entry.by or house.model.by or (letterhead.name if letterhead else None)
    return {"reason": entry.reason, "by": by}


def _entries(house: LoadedHouse, key: str) -> Iterator[tuple[tuple[str | int, ...], Node]]:
    listed = (house.source.mapping or {}).get(key)
    for index, node in enumerate((listed.items or []) if listed is not None else []):
        yield (key, index), node


def _changed(names: Names, edits: Edits) -> Iterator[LaidOver]:
    seen: set[tuple[str, str | None, str]] = set()
    for (path, node), entry in zip(_entries(names.house, "change"), names.house.model.change, strict=True):
        place = names.rule((*path, "rule"), entry.rule)
        if place is None or not _keys_fit(names, path, node, entry.reading, place):
            continue
        if entry.reading is None:
            edits.change(place, partial(changed_rule, change=node))
        elif names.reading((*path, "reading"), place, entry.reading):
            edits.change(place, partial(changed_reading, id=entry.reading, change=node, source=HOUSE))
        names.changed.add(place.rule.id)
        for key in written(node):
            if (place.rule.id, entry.reading, key) in seen:
                names.say((*path, key), f"{key} of {place.rule.id} is changed twice", "one change for a key")
            seen.add((place.rule.id, entry.reading, key))
        yield LaidOver(
            "changed",
            place.rule.id,
            **_because(entry, names.house),
            reading=entry.reading,
            keys=tuple(written(node)),
            before=place.rule,
        )


def _keys_fit(
    names: Names, path: tuple[str | int, ...], node: Node, reading: str | None, place: Place
) -> bool:
    """Tell whether a change gives something, and only keys of what it names."""
    keys = written(node)
    allowed = OF_THE_RULE if reading is None else OF_A_READING
    if not keys:
        names.say(path, "a change that changes nothing", name_list(allowed))
    ids = name_list(list(dict.fromkeys(one.id for one in place.rule.expect)))
    for key in keys:
        if key not in allowed:
            found = (
                f"{key} without the reading that it is of"
                if reading is None
                else f"{key} of a reading, which only the whole rule has"
            )
            names.say(
                (*path, key), found, f"reading: one of {ids}" if reading is None else "no reading: here"
            )
    return bool(keys) and all(key in allowed for key in keys)


def _replaced(names: Names, edits: Edits) -> Iterator[LaidOver]:
    for (path, node), entry in zip(_entries(names.house, "replace"), names.house.model.replace, strict=True):
        place = names.rule((*path, "rule"), entry.rule)
        own = (node.mapping or {})["with"]
        if own.mapping is not None and "id" in own.mapping and own.mapping["id"].value != entry.rule:
            names.say((*path, "with", "id"), "another id", f"no id: it keeps {entry.rule}")
            continue
        if place is not None and names.alone((*path, "rule"), place):
            mark = names.house.mark_of((*path, "rule"))
            edits.change(place, partial(replaced_rule, with_=own, mark=mark))
            yield LaidOver("replaced", place.rule.id, **_because(entry, names.house), before=place.rule)


def _dropped(names: Names, edits: Edits) -> Iterator[LaidOver]:
    house = names.house
    for (path, _), entry in zip(_entries(house, "drop"), house.model.drop, strict=True):
        if (entry.rule is None) == (entry.law is None) or (entry.law is None) != (entry.requirement is None):
            names.say(
                path, "a drop that names no one thing", "rule, rule with reading, or law with requirement"
            )
        elif entry.law is not None and entry.requirement is not None:
            found = names.requirement(path, entry.law, entry.requirement)
            if found is not None:
                edits.requirements.setdefault(found[0], set()).add(found[1])
                requirement = names.library.law[found[0]].model.requires[found[1]]
                yield LaidOver(
                    "dropped",
                    requirement.id,
                    **_because(entry, house),
                    law=entry.law,
                    requirement=requirement,
                )
        elif entry.rule is not None:
            place = names.rule((*path, "rule"), entry.rule)
            if place is None:
                continue
            if entry.reading is None:
                if not names.alone((*path, "rule"), place):
                    continue
                edits.drop(place)
            elif names.reading((*path, "reading"), place, entry.reading):
                edits.change(place, partial(without_reading, id=entry.reading))
            yield LaidOver(
                "dropped",
                place.rule.id,
                **_because(entry, house),
                reading=entry.reading,
                before=place.rule,
            )


def _added(names: Names, edits: Edits) -> Iterator[LaidOver]:
    """Put own checks with a `system` into that system's pack; the others make a pack of their own."""
    packs = {pack.model.pack: number for number, pack in enumerate(names.library.rules)}
    letterhead = names.house.model.letterhead
    by = names.house.model.by or (letterhead.name if letterhead else None)
    for path, node in _entries(names.house, "checks"):
        system, id = ((node.mapping or {}).get(key) for key in ("system", "id"))
        if id is not None and str(id.value) in names.rules:
            names.say(
                (*path, "id"), f"{id.value!r}, the id of a shipped rule", "an id of its own, or `replace:`"
            )
        if system is not None:
            known = str(system.value)
            if known not in packs:
                accepted = name_list(sorted(packs), 60)
                names.say(
                    (*path, "system"), f"unknown system {known!r}", accepted, nearest_name(known, packs)
                )
                continue
            edits.checks(packs[known]).append(without(node, ["system"]))
        if id is not None:
            yield LaidOver("added", str(id.value), by=by)


def _own_pack(house: LoadedHouse, problems: list[Problem]) -> list[Loaded[RulePack]]:
    keys = house.source.mapping or {}
    own = [node for _, node in _entries(house, "checks") if "system" not in (node.mapping or {})]
    shared = ("sources", "instruments", "cautions")
    more: dict[str, Node] = {key: node for key, node in keys.items() if key in shared}
    if not own and not more:
        return []
    mark = house.source.mark
    head = {
        "pack": Node(mark, HOUSE),
        "title": Node(mark, f"Own checks of {house.owner}"),
        "edition": Node(mark, house.model.edition),
        "order": Node(mark, 950),
        "checks": Node(mark, items=own),
    }
    source = Node(mark, mapping={**head, **more}, key_marks=house.source.key_marks)
    try:
        return [loaded_from(house.file, plain_of(source), RulePack)]
    except InputProblems as found:
        problems += found.problems
        return []
