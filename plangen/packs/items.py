"""What a rule or a key runs over: the items of a list of the spec, and the name that one of them goes by."""

from __future__ import annotations

from typing import Any

from plangen.packs.types import Names, Type, TypeFault, attribute_type, type_at
from plangen.packs.usage import noting
from plangen.spec.model import Spec
from plangen.spec.shape import shapes


def bound_names(for_each: str | None, bind: str | None) -> tuple[Names, bool]:
    """Return the name that a rule binds with its type, and whether it runs over a list."""
    if for_each is None:
        return {}, False
    found = type_at(for_each)
    if found.word == "list" and found.element is not None and found.element.word == "section":
        name = bind or singular_at(for_each)
        return {name: found.element}, True
    if found.word == "section":
        return {bind or for_each.split(".")[-1]: found}, False
    raise TypeFault(f"{for_each!r} is {found}", "a list or a section of the spec")


def singular_at(key_path: str) -> str:
    """Return the name of one item of the list at a key path."""
    model: Any = Spec
    shape = None
    for step in key_path.split("."):
        shape = shapes(model)[step]
        model = shape.model
    return (shape.singular if shape else "") or key_path.split(".")[-1].rstrip("s")


def key_type(pattern: str) -> tuple[Type, Names]:
    """Return the type at a key pattern such as `engines[].power`, and the name that it binds to the item."""
    with noting(None):  # a key that is asked for or filled in isn't used by that
        return _key_type(pattern)


def _key_type(pattern: str) -> tuple[Type, Names]:
    head, bracket, rest = pattern.partition("[].")
    if not bracket:
        return type_at(pattern), {}
    items = type_at(head)
    if items.word != "list" or items.element is None:
        raise TypeFault(f"{head!r} is {items}", "a list")
    current = items.element
    for step in rest.split("."):
        current = attribute_type(current, step)
    return current, {singular_at(head): items.element}
