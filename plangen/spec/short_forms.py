"""Short forms of the spec written out: `heads: 3`, `watermaker: true`, `engines: {count: 2, power: 42 kW}`."""

from __future__ import annotations

from dataclasses import replace

from pydantic import BaseModel

from plangen.spec.problems import Mark, Problem, name_list
from plangen.spec.shape import Shape, shapes
from plangen.spec.short_words import ShortText, ShortTextFault, read_short_text
from plangen.spec.yaml_source import Node

MOST_ITEMS = 200
_NUMBER_WORDS = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
]


def expand(node: Node, model: type[BaseModel], problems: list[Problem], path: str = "") -> Node:
    """Return the section with every short form below it written out as lists and sections."""
    if node.mapping is None:
        return node
    known = shapes(model)
    plurals = {shape.singular: key for key, shape in known.items() if shape.singular}
    written: dict[str, Node] = {}
    marks: dict[str, Mark] = {}
    for given, child in node.mapping.items():
        key = (
            plurals.get(given, given)
            if given not in known and plurals.get(given) not in node.mapping
            else given
        )
        marks[key] = node.key_marks.get(given, child.mark)
        shape = known.get(key)
        where = f"{path}{key}"
        if shape is None or shape.model is None:
            written[key] = _as_list(child) if shape and shape.is_list else child
        elif shape.is_list:
            written[key] = _expand_list(child, shape, problems, where)
        else:
            written[key] = _expand_section(child, shape.model, problems, where)
    return replace(node, mapping=written, key_marks=marks)


def _as_list(node: Node) -> Node:
    if node.items is not None or node.mapping is not None or node.value is None:
        return node
    return Node(node.mark, items=[node])


def _expand_section(node: Node, model: type[BaseModel], problems: list[Problem], path: str) -> Node:
    if node.says(True):
        return Node(node.mark, mapping={})
    if node.says(False):
        return Node(node.mark, False)
    if isinstance(node.value, str):
        read = _short_text(node, model, problems, path, counted=False)
        several = [key for key in (read.values if read else ()) if _rivals(key, model)]
        if several:
            rivals = _rivals(several[0], model)
            accepted = f"{{{several[0]}: {node.value}}}, or {name_list(rivals)}"
            problems.append(
                Problem(node.mark, path, f"{node.value!r}: {several[0]} or {rivals[0]}?", accepted)
            )
            return Node(node.mark, mapping={})
        return _written_out(node, read, model) if read else node
    return expand(node, model, problems, f"{path}.")


def _rivals(key: str, model: type[BaseModel]) -> list[str]:
    """Return the other keys that a short quantity might as well mean."""
    known = shapes(model)
    kind = known[key].kind
    return [other for other, shape in known.items() if kind and shape.kind == kind and other != key]


def _short_text(
    node: Node, model: type[BaseModel], problems: list[Problem], path: str, *, counted: bool
) -> ShortText | None:
    """Return what a short text says; one that can't be read is a fault and says nothing."""
    try:
        return read_short_text(str(node.value), model, counted=counted)
    except ShortTextFault as fault:
        problems.append(Problem(node.mark, path, fault.found, fault.accepted, fault.nearest))
        return ShortText()


def _written_out(node: Node, read: ShortText, model: type[BaseModel]) -> Node:
    return Node(node.mark, mapping={key: Node(node.mark, value) for key, value in read.values.items()})


def _expand_list(node: Node, shape: Shape, problems: list[Problem], path: str) -> Node:
    assert shape.model is not None
    items = _items(node, problems, path)
    if items is None:
        return node
    counted = node.items is None and node.mapping is None
    items = [one for item in items for one in _short_items(item, shape, problems, path, counted)]
    names = _names(len(items), shape)
    written: list[Node] = []
    for index, (item, name) in enumerate(zip(items, names, strict=True)):
        if shape.named and item.mapping is None and isinstance(item.value, str):
            item = Node(item.mark, mapping={"name": item})
        item = expand(item, shape.model, problems, f"{path}[{index}].")
        if shape.named and item.mapping is not None and "name" not in item.mapping:
            item = replace(item, mapping={"name": Node(item.mark, name), **item.mapping})
        written.append(item)
    return Node(node.mark, items=written)


def _short_items(item: Node, shape: Shape, problems: list[Problem], path: str, counted: bool) -> list[Node]:
    """Return the items that one short text stands for; a name stays as it is."""
    if shape.model is None or not isinstance(item.value, str) or item.mapping is not None:
        return [item]
    read = _short_text(item, shape.model, problems, path, counted=counted)
    if read is None:
        return [item]
    named = "kind" in read.values and len(read.values) == 1 and not counted
    written = _written_out(item, read, shape.model)
    if named and shape.named and written.mapping is not None:
        written.mapping["name"] = Node(item.mark, item.value)
    return [
        replace(written, mapping=dict(written.mapping or {}))
        for _ in range(1 if read.count is None else read.count)
    ]


def _items(node: Node, problems: list[Problem], path: str) -> list[Node] | None:
    """Return the items that the value stands for; nothing when it is left for the models to refuse."""
    if node.items is not None:
        return node.items
    if node.mapping is not None:
        if "count" not in node.mapping:
            return [node]
        count, shared = node.mapping["count"], {k: v for k, v in node.mapping.items() if k != "count"}
        if _is_count(count, problems, f"{path}.count"):
            if count.value != 1 and "name" in shared:
                fault = "a name beside a count, so that several items would have it"
                problems.append(Problem(node.mark, path, fault, "a list with a name for each item"))
            return [replace(node, mapping=dict(shared)) for _ in range(int(str(count.value)))]
        return []
    if node.says(False):
        return []
    if node.says(True):
        return [Node(node.mark, mapping={})]
    if _is_number_word(node.value):
        _is_count(node, problems, path)
        return []
    if isinstance(node.value, int) and _is_count(node, problems, path):
        return [Node(node.mark, mapping={}) for _ in range(node.value)]
    return [node] if isinstance(node.value, str) else None


def _is_count(node: Node, problems: list[Problem], path: str) -> bool:
    value = node.value
    if isinstance(value, int) and not isinstance(value, bool) and 0 <= value <= MOST_ITEMS:
        return True
    figure = str(_NUMBER_WORDS.index(str(value).casefold())) if _is_number_word(value) else ""
    problems.append(Problem(node.mark, path, f"{value!r}", f"a whole number from 0 to {MOST_ITEMS}", figure))
    return False


def _is_number_word(value: object) -> bool:
    return isinstance(value, str) and value.casefold() in _NUMBER_WORDS


def _names(count: int, shape: Shape) -> list[str]:
    word = shape.singular.replace("_", " ")
    if count == 1:
        return [word]
    if count == 2 and shape.paired:
        return [f"port {word}", f"starboard {word}"]
    return [f"{word} {number}" for number in range(1, count + 1)]
