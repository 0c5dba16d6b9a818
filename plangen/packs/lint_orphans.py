"""What is there and nothing uses: formulas, instruments, gear items, plant states, sources and keys of the spec."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from inspect import get_annotations
from pathlib import Path
from types import CodeType
from typing import Any

from pydantic import BaseModel

from plangen.formulas import FORMULAS
from plangen.packs.base import SourceReference
from plangen.packs.library import UNSOURCED, Library, Loaded
from plangen.packs.usage import Usage
from plangen.spec.model import Spec
from plangen.spec.problems import Mark, Problem
from plangen.spec.shape import shapes

_PACKAGE = Path(__file__).resolve().parent.parent
_ACCEPTED = "something that uses it, or nothing: take it out"


def orphans(library: Library, usage: Usage) -> Iterator[Problem]:
    """Yield a problem for each thing that nothing uses; `usage` was noted while the packs were checked."""
    yield from _formulas(usage)
    yield from _keys(usage)
    rules = [rule for pack in library.rules for rule in pack.model.checks]
    instruments = {name for rule in rules for name in rule.instruments}
    yield from _unused(library, "instruments", "instrument", set(library.instruments) - instruments)
    yield from _unused(library, "gear", "gear item", set(library.gear) - _demanded(library))
    every = [pack.model for pack in (*library.rules, *library.law, *library.stores, *library.catalogue)]
    cited = {part.id for model in every for part in _parts(model) if isinstance(part, SourceReference)}
    yield from _unused(library, "sources", "source", set(library.sources) - cited - set(UNSOURCED))
    yield from _states(library)


def _formulas(usage: Usage) -> Iterator[Problem]:
    used = set(usage.formulas) | {name for name in FORMULAS if name in _called_in_python()}
    waiting = list(used)
    while waiting:
        for name in _names_in(FORMULAS[waiting.pop()].function) & set(FORMULAS) - used:
            used.add(name)
            waiting.append(name)
    for name in sorted(set(FORMULAS) - used):
        function = FORMULAS[name].function
        code: CodeType = function.__code__
        mark = Mark(Path(code.co_filename).relative_to(_PACKAGE.parent).as_posix(), code.co_firstlineno, 1)
        yield Problem(mark, name, "a formula that no pack and nothing else uses", _ACCEPTED)


def _names_in(function: Any) -> set[str]:
    """Return the names that a function calls, by way of helpers of its own module too."""
    names: set[str] = set()
    waiting = [function]
    while waiting:
        one = waiting.pop()
        for name in set(_names_of(one.__code__)) - names:
            names.add(name)
            helper = one.__globals__.get(name)
            if hasattr(helper, "__code__") and name not in FORMULAS:
                waiting.append(helper)
    return names


def _names_of(code: CodeType) -> Iterator[str]:
    """Yield the names in a piece of code and in the comprehensions and functions within it."""
    yield from code.co_names
    for part in code.co_consts:
        if isinstance(part, CodeType):
            yield from _names_of(part)


@cache
def _python(folder_left_out: str) -> str:
    files = sorted(path for path in _PACKAGE.rglob("*.py") if folder_left_out not in path.as_posix())
    return "\n".join(path.read_text(encoding="utf-8") for path in files)


@cache
def _called_in_python() -> frozenset[str]:
    return frozenset(re.findall(r"\w+", _python("/formulas/")))


def _keys(usage: Usage) -> Iterator[Problem]:
    words = frozenset(re.findall(r"\.(\w+)", _python("/spec/model/")))
    models = list(_models(Spec))
    owners = {model.__name__: model for model in models}
    used = {(_owner(owners[name], key), key) for name, key in usage.keys if name in owners}
    said: set[tuple[str, str]] = set()
    for model in models:
        for key, shape in shapes(model).items():
            owner = (_owner(model, key), key)
            if shape.model is None and owner not in used | said and key not in words:
                said.add(owner)
                found = f"a key of {owner[0]} that no pack and nothing else looks up"
                yield Problem(Mark("plangen/spec/model"), key, found, _ACCEPTED)


def _models(model: type[BaseModel]) -> Iterator[type[BaseModel]]:
    seen: set[type[BaseModel]] = set()
    waiting = [model]
    while waiting:
        one = waiting.pop()
        if one not in seen:
            seen.add(one)
            yield one
            waiting += [shape.model for shape in shapes(one).values() if shape.model is not None]


def _owner(model: type[BaseModel], key: str) -> str:
    """Return the model that defines a key, which others take over from it."""
    return next(one.__name__ for one in reversed(model.__mro__) if key in get_annotations(one))


def _demanded(library: Library) -> set[str]:
    """Return the gear items that some law demands or takes in the place of another."""
    found: set[str] = set()
    for pack in library.law:
        for requirement in pack.model.requires:
            found |= {requirement.item, *(name for instead in requirement.or_else for name in instead)}
    waiting = list(found)
    while waiting:
        item = library.gear.get(waiting.pop())
        for other in item.satisfied_by if item is not None else ():
            if other not in found:
                found.add(other)
                waiting.append(other)
    return found


def _states(library: Library) -> Iterator[Problem]:
    written = {
        text
        for pack in (*library.rules, *library.catalogue)
        for part in _parts(pack.model)
        for text in _texts(part)
    }
    of_items = {text.rpartition(" ")[2] for text in written if "{{" in text}
    together = {
        f"{entry.all_of} {state}"
        for name, entry in library.plant_states.items()
        for state in entry.states
        if f"{name} {state}" in written
    }
    for name, entry in library.plant_states.items():
        for state in entry.states:
            used = f"{name} {state}" in written | together or state == entry.at_start
            if not used and not (entry.per and state in of_items):
                yield from _unused(library, "plant_states", "plant state", {name}, f"{name} {state}")


def _unused(library: Library, key: str, what: str, names: set[str], words: str = "") -> Iterator[Problem]:
    for name in sorted(names):
        for pack in (*library.catalogue, *library.rules, *library.stores, *library.law):
            if name in getattr(pack.model, key, {}):
                yield Problem(
                    _mark(pack, key, name),
                    f"{key}.{name}",
                    f"{what} {words or name} that nothing uses",
                    _ACCEPTED,
                )


def _mark(pack: Loaded[Any], key: str, name: str) -> Mark:
    return pack.mark_of((key, name))


def _parts(model: BaseModel) -> Iterator[BaseModel]:
    """Yield a model and every model within it."""
    yield model
    for value in vars(model).values():
        yield from _within(value)


def _within(value: object) -> Iterator[BaseModel]:
    if isinstance(value, BaseModel):
        yield from _parts(value)
    elif isinstance(value, dict):
        for item in value.values():
            yield from _within(item)
    elif isinstance(value, (list, tuple)):
        for item in value:
            yield from _within(item)


def _texts(model: BaseModel) -> Iterator[str]:
    for value in vars(model).values():
        if isinstance(value, str):
            yield value
        elif isinstance(value, tuple):
            yield from (item for item in value if isinstance(item, str))
        elif isinstance(value, dict):
            yield from (item for item in value.values() if isinstance(item, str))
