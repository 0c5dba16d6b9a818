"""Names within a spec: each once in its list, and every reference to one that is there."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pydantic import BaseModel

from plangen.spec.explain import Path, key_text
from plangen.spec.model import Spec, SpecModel
from plangen.spec.names import slug
from plangen.spec.problems import Problem, name_list, nearest_name
from plangen.spec.shape import Shape, shapes
from plangen.spec.yaml_source import Node


def items_at(spec: Spec, key_path: str) -> tuple[Any, ...]:
    """Return the items of the list at a key path such as `dc.banks`."""
    value: Any = spec
    for step in key_path.split("."):
        value = getattr(value, step, None)
        if value is None:
            return ()
    return tuple(value)


def _written_names(node: Node, key_path: str) -> list[str]:
    """Return the names in the list as it was written, faulty items included."""
    for step in key_path.split("."):
        found = (node.mapping or {}).get(step)
        if found is None:
            return []
        node = found
    names = [(item.mapping or {}).get("name") for item in node.items or []]
    return [str(name.value) for name in names if name is not None]


def walk(section: SpecModel, path: Path = ()) -> Iterator[tuple[Path, SpecModel]]:
    """Yield every section and item below a section with its path, itself first."""
    yield path, section
    for name, shape in shapes(type(section)).items():
        value = getattr(section, name)
        if shape.model is None or value is None:
            continue
        if shape.is_list:
            for index, item in enumerate(value):
                yield from walk(item, (*path, name, index))
        else:
            yield from walk(value, (*path, name))


def written(node: Node, model: type[BaseModel] = Spec, path: Path = ()) -> Iterator[tuple[Path, Shape, Node]]:
    """Yield every key as it was written, with its path and shape: those of faulty items too, which no model holds."""
    for name, shape in shapes(model).items():
        child = (node.mapping or {}).get(name)
        if child is None:
            continue
        here = (*path, name)
        yield here, shape, child
        if shape.model is not None and shape.is_list:
            for index, item in enumerate(child.items or []):
                yield from written(item, shape.model, (*here, index))
        elif shape.model is not None:
            yield from written(child, shape.model, here)


def check_names(node: Node) -> list[Problem]:
    """Return a problem for each name that stands twice in its list and each reference to nothing."""
    problems: list[Problem] = []
    for path, shape, value in written(node):
        if shape.named:
            names = [(item.mapping or {}).get("name") for item in value.items or []]
            problems.extend(_twice(node, path, [str(name.value) if name else "" for name in names]))
        if shape.refers_to:
            known = _written_names(node, shape.refers_to)
            for target in value.items if value.items is not None else [value]:
                name = target.value
                if name is None or target.mapping is not None or str(name) in known:
                    continue
                accepted = f"a name from `{shape.refers_to}`: {name_list(known) or 'none is listed'}"
                found, nearest = f"{str(name)!r}: no such item", nearest_name(str(name), known)
                problems.append(Problem(node.mark_at(path), key_text(path), found, accepted, nearest))
    return problems


def _twice(node: Node, path: Path, names: list[str]) -> Iterator[Problem]:
    seen: dict[str, int] = {}
    for index, name in enumerate(names):
        if not name:
            continue
        folded = slug(name)
        if folded in seen:
            here = (*path, index)
            fault = f"the name {name!r} stands twice, capitals and signs apart (also item {seen[folded] + 1})"
            yield Problem(node.mark_at(here), key_text(here), fault, "a name of its own for each item")
        seen.setdefault(folded, index)
