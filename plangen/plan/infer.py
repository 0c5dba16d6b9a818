"""What a boat must have where the spec says nothing of a section: each engine an intake, each head its discharge."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from pydantic import BaseModel

from plangen.packs.evaluate import Scope, evaluate, holds, render
from plangen.packs.facts import Assumed, Facts, Inferred, Missing, Path, Subject
from plangen.packs.items import singular_at
from plangen.packs.model import InferredRule
from plangen.spec.model import Item, Spec, SpecModel
from plangen.spec.names import slug
from plangen.spec.shape import shapes


def infer(facts: Facts, key: str, rules: Sequence[InferredRule]) -> None:
    """Fill in one section or list of which the spec says nothing.

    The key is that of a list (`through_hulls`), of a section (`rig`), or of a section of every item of a list
    (`engines[].propeller`).
    """
    head, bracket, rest = key.partition("[].")
    if not bracket:
        _infer_at(facts, tuple(key.split(".")), rules, {})
        return
    items = facts.at(head)
    for item in items if isinstance(items, list) else []:
        _infer_at(facts, (*item.path, *rest.split(".")), rules, {singular_at(head): item})


def _infer_at(facts: Facts, path: Path, rules: Sequence[InferredRule], bound: dict[str, Any]) -> None:
    if not facts.is_unsaid(path) or _owner(facts, path) is None:
        return
    model, is_list = _model_at(path)
    found: list[SpecModel] = []
    whys: dict[str, None] = {}
    for rule in rules:
        for scope in _scopes(rule, facts, bound):
            if not holds(rule.when, scope):
                continue
            here = (*path, len(found)) if is_list else path
            values = _apart(_values(rule, scope), found)
            found.append(model.model_validate(values))
            whys[rule.why] = None
            for name in values:
                value = getattr(found[-1], name)
                facts.assumed[(*here, name)] = Assumed(value, rule.why, rule.source.id)
            if not is_list:
                break
    if not found:
        return
    facts.replace(path, tuple(found) if is_list else found[0])
    if not any(isinstance(step, int) for step in path):
        names = tuple(str(one.name) for one in found if isinstance(one, Item))
        facts.inferred[".".join(map(str, path))] = Inferred(names, "; ".join(whys))


def _owner(facts: Facts, path: Path) -> Any:
    value: Any = facts.spec
    for step in path[:-1]:
        value = value[step] if isinstance(step, int) else getattr(value, step)
        if value is None:
            return None
    return value


def _model_at(path: Path) -> tuple[type[SpecModel], bool]:
    model: type[BaseModel] = Spec
    is_list = False
    for step in path:
        if isinstance(step, int):
            continue
        shape = shapes(model)[step]
        assert shape.model is not None, path
        model, is_list = shape.model, shape.is_list
    assert issubclass(model, SpecModel)
    return model, is_list


def _scopes(rule: InferredRule, facts: Facts, bound: dict[str, Any]) -> Iterator[Scope]:
    if rule.for_each is None:
        yield Scope(facts, bound)
        return
    items = facts.at(rule.for_each)
    name = rule.as_ or singular_at(rule.for_each)
    for item in items if isinstance(items, list) else []:
        yield Scope(facts, {**bound, name: item})


def _values(rule: InferredRule, scope: Scope) -> dict[str, Any]:
    """Return the item's values; one that hangs on what nobody told is left out."""
    values: dict[str, Any] = {}
    for name, given in rule.gives.items():
        value: Any = given
        if (
            isinstance(given, str)
            and given.startswith("{{")
            and given.count("{{") == 1
            and given.endswith("}}")
        ):
            value = evaluate(given[2:-2].strip(), scope)
        elif isinstance(given, str):
            value = render(given, scope)
        if isinstance(value, Missing):
            continue
        values[name] = _named(value)
    return values


def _named(value: Any) -> Any:
    if isinstance(value, list):
        return [_named(one) for one in value]
    return value.name if isinstance(value, Subject) else value


def _apart(values: dict[str, Any], before: Sequence[SpecModel]) -> dict[str, Any]:
    """Number a name that stands already."""
    if "name" not in values:
        return values
    taken = {slug(str(getattr(one, "name", ""))) for one in before}
    name, number = values["name"], 2
    while slug(values["name"]) in taken:
        values = {**values, "name": f"{name} {number}"}
        number += 1
    return values
