"""Filling in what the spec leaves out, from the stated defaults, each marked as assumed."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from plangen.packs.evaluate import Scope, holds
from plangen.packs.facts import Assumed, Facts, Missing, Path, Subject
from plangen.packs.functions import MissingInput
from plangen.packs.items import singular_at
from plangen.packs.library import Library
from plangen.packs.model import DefaultRule
from plangen.packs.syntax import ExpressionError
from plangen.packs.values import value_of
from plangen.plan.gear.cruise import assume_from_cruise
from plangen.plan.infer import infer
from plangen.spec.load import LoadedSpec
from plangen.spec.quantity import KINDS, is_quantity, label_of, registry
from plangen.spec.shape import shapes


def facts_of(loaded: LoadedSpec, library: Library) -> Facts:
    """Return the spec's facts, with what such a boat must have and the defaults of the catalogue filled in.

    Both are taken in the order of the catalogue. What is inferred may hang on the defaults of what came before it:
    an engine's intake on how the engine is cooled.
    """
    facts = Facts(loaded.spec, loaded.said_no)
    assume_from_cruise(facts, library)
    _assume_all(facts, (default for default in library.defaults if _root(default.key) == "vessel"))
    for key in dict.fromkeys(rule.key for rule in library.inferred):
        infer(facts, key, [rule for rule in library.inferred if rule.key == key])
        _assume_all(facts, (default for default in library.defaults if _root(default.key) == _root(key)))
    _assume_all(facts, library.defaults)
    facts.start_notes()
    return facts


def _root(key: str) -> str:
    return key.partition(".")[0].partition("[")[0]


def _assume_all(facts: Facts, defaults: Iterable[DefaultRule]) -> None:
    for default in defaults:
        head, bracket, rest = default.key.partition("[].")
        if bracket:
            items = facts.at(head)
            for item in items if isinstance(items, list) else []:
                _assume(facts, default, item, rest, {singular_at(head): item})
        else:
            _assume(facts, default, facts.root(), default.key, {})


def _assume(facts: Facts, default: DefaultRule, owner: Any, dotted: str, bound: dict[str, Any]) -> None:
    *sections, name = dotted.split(".")
    for step in sections:
        if isinstance(owner, Subject):
            owner = facts.get(owner, step)
    if isinstance(owner, Missing) or not isinstance(owner, Subject):
        return
    path: Path = (*owner.path, name)
    if getattr(owner.section, name) is not None or path in facts.assumed:
        return
    scope = Scope(facts, bound)
    if not holds(default.when, scope):
        return
    try:
        value = value_of(default.value, scope)
    except (MissingInput, ExpressionError, ValueError):
        return
    if isinstance(value, Missing):
        return
    kind = shapes(type(owner.section))[name].kind
    if kind and not is_quantity(value):
        value = registry.Quantity(float(value), KINDS[kind].unit)
    elif kind and label_of(value) not in KINDS[kind].units:
        value = value.to(KINDS[kind].unit)
    if isinstance(value, Subject):
        value = value.name
    facts.assumed[path] = Assumed(value, default.why, default.source.id)
