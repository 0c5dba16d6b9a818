"""Writing values into a spec as whoever wrote it would: a line more where it belongs, every other character as it was."""

from __future__ import annotations

import datetime
import json
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import accumulate
from typing import Any, TypeAlias

from pydantic import BaseModel
from ruamel.yaml import YAML
from ruamel.yaml.nodes import MappingNode, ScalarNode, SequenceNode
from ruamel.yaml.nodes import Node as Written

from plangen.spec.model import Spec
from plangen.spec.names import slug
from plangen.spec.problems import InputProblems, Problem
from plangen.spec.shape import Shape, shapes
from plangen.spec.short_forms import expand
from plangen.spec.yaml_source import Node, read_yaml


@dataclass(frozen=True)
class Value:
    """A value to write, or a list of them; one that is `text` stays text however it looks. The remark comes behind it."""

    value: str | tuple[str, ...]
    text: bool = False
    remark: str = ""


@dataclass(frozen=True)
class ItemStep:
    """An item of a list, by its name; what else has to be said of it where it isn't there is in the tree below."""

    name: str


#: What to write: keys and items, and the values below them. A list without names goes by places.
Tree: TypeAlias = "dict[str | int | ItemStep, Tree | Value]"


class CannotWrite(ValueError):
    """A place of the spec where a value can't be put without touching what stands there."""


def write_in(text: str, name: str, tree: Tree) -> str:
    """Return the text of a spec with more values in it; whatever stood there stays as it was.

    A short form (`heads: 2`) is written out where one of its items gets a value of its own. Raises `CannotWrite`
    where a value stands already, or where a comment would be lost.
    """
    problems: list[Problem] = []
    own = expand(read_yaml(text, name), Spec, problems)
    text = text if text.endswith("\n") else f"{text}\n"
    root = YAML(typ="rt", pure=True).compose(text)
    if not isinstance(root, MappingNode):
        raise CannotWrite("a spec without keys")
    writer = _Writer(text)
    writer.mapping(root, Spec, tree, own)
    return writer.result()


class _Writer:
    def __init__(self, text: str) -> None:
        self.text = text
        self.starts = [0, *accumulate(len(line) for line in text.splitlines(keepends=True))]
        self.edits: list[tuple[int, int, int, str]] = []

    def result(self) -> str:
        """Return the text with all edits made, from the last to the first."""
        text = self.text
        for start, end, _, new in sorted(self.edits, reverse=True):
            text = text[:start] + new + text[end:]
        return text

    def _edit(self, start: int, end: int, new: str) -> None:
        self.edits.append((start, end, len(self.edits), new))

    def _replace(self, node: Written, value: Any) -> None:
        self._edit(node.start_mark.index, node.end_mark.index, flow_text(value))

    def _new_lines(self, after: int, lines: list[str]) -> None:
        """Put lines behind the line of that number."""
        at = self.starts[min(after + 1, len(self.starts) - 1)]
        self._edit(at, at, "\n".join(lines) + "\n")

    def mapping(self, node: MappingNode, model: type[BaseModel], tree: Tree, own: Node) -> None:
        """Write into a section that is there, block or braces."""
        known = shapes(model)
        for key, what in tree.items():
            assert isinstance(key, str)
            pair = next(((k, v) for k, v in node.value if k.value in (key, known[key].singular)), None)
            if pair is None:
                self._add_key(node, key, what)
            elif _is_null(pair[1]):
                self._fill(node, *pair, what)
            elif isinstance(what, Value):
                raise CannotWrite(f"{key} has a value already")
            elif pair[1].start_mark.index < pair[0].end_mark.index:
                raise CannotWrite(f"{key} is an alias of what stands elsewhere")
            else:
                self._below(pair[1], known[key], what, (own.mapping or {}).get(key))

    def _add_key(self, node: MappingNode, key: str, what: Tree | Value) -> None:
        if node.flow_style:
            self._into_brackets(node, f"{key}: {flow_text(what)}", bool(node.value))
            return
        last = max(_last_line(k, v) for k, v in node.value)
        self._new_lines(last, block_lines(key, what, node.value[0][0].start_mark.column))

    def _fill(self, node: MappingNode, key: Written, value: Written, what: Tree | Value) -> None:
        """Write behind a key that was left blank."""
        colon = self.text.index(":", key.end_mark.index) + 1
        if isinstance(what, Value) or node.flow_style:
            self._edit(colon, colon, f" {flow_text(what)}")
        else:
            self._new_lines(key.end_mark.line, block_lines(str(key.value), what, key.start_mark.column)[1:])

    def _into_brackets(self, node: Written, new: str, follows: bool) -> None:
        end = node.end_mark.index - 1
        before = self.text[node.start_mark.index + 1 : end].rstrip()
        place = node.start_mark.index + 1 + len(before)
        if "#" in before.rpartition("\n")[2]:
            place, before = end, ""  # behind a comment nothing of the line would be read
        comma = ", " if follows and not before.endswith(",") else " " if before.endswith(",") else ""
        self._edit(place, place, comma + new)

    def _below(self, node: Written, shape: Shape, tree: Tree, own: Node | None) -> None:
        assert shape.model is not None
        if shape.is_list:
            self._list(node, shape, tree, (own.items if own is not None else None) or [])
        elif isinstance(node, MappingNode):
            self.mapping(node, shape.model, tree, own or Node(_mark(own)))
        elif own is None or own.mapping is None:
            raise CannotWrite("the spec says that she has none")
        else:
            self._replace(node, merged(own.plain(), tree))

    def _list(self, node: Written, shape: Shape, tree: Tree, own: list[Node]) -> None:
        assert shape.model is not None
        names = [
            slug(str((one.mapping or {})["name"].value)) if "name" in (one.mapping or {}) else ""
            for one in own
        ]
        inner: dict[int, Tree] = {}
        for step, what in tree.items():
            assert not isinstance(what, Value)
            place = step if isinstance(step, int) else _place(step, names)
            if place is None and isinstance(node, SequenceNode) and isinstance(step, ItemStep):
                self._add_item(node, step, what)
            elif place is None or place >= len(own):
                raise CannotWrite("the list has no such item")
            else:
                inner[place] = what
        if isinstance(node, SequenceNode):
            if len(node.value) != len(own):
                raise CannotWrite("the list is written in a short form")
            for place, what in inner.items():
                item = node.value[place]
                if isinstance(item, MappingNode):
                    self.mapping(item, shape.model, what, own[place])
                else:
                    self._replace(item, merged(own[place].plain(), what))
        elif isinstance(node, MappingNode):
            self._shared(node, shape.model, inner, own)
        else:
            self._replace(node, [merged(one.plain(), inner.get(place, {})) for place, one in enumerate(own)])

    def _shared(
        self, node: MappingNode, model: type[BaseModel], inner: dict[int, Tree], own: list[Node]
    ) -> None:
        """Write into one section that stands for an item, or by its `count` for several."""
        trees = list(inner.values())
        if len(inner) == len(own) and all(one == trees[0] for one in trees) and trees:
            self.mapping(node, model, trees[0], own[0])
        elif node.flow_style and "#" not in self.text[node.start_mark.index : node.end_mark.index]:
            self._replace(node, [merged(one.plain(), inner.get(place, {})) for place, one in enumerate(own)])
        else:
            raise CannotWrite(
                "one section with a count stands for several that differ: write them as a list first"
            )

    def _add_item(self, node: SequenceNode, step: ItemStep, what: Tree) -> None:
        if node.flow_style:
            item = flow_text({"name": Value(step.name, text=True), **what})
            self._into_brackets(node, item, bool(node.value))
            return
        last = max(_last_line(None, item) for item in node.value)
        self._new_lines(last, _item_lines(step, what, node.start_mark.column))


def _mark(own: Node | None) -> Any:
    return own.mark if own is not None else None


def _place(step: str | ItemStep, names: list[str]) -> int | None:
    name = slug(step.name if isinstance(step, ItemStep) else step)
    return names.index(name) if name in names else None


def _is_null(node: Written) -> bool:
    return isinstance(node, ScalarNode) and node.style is None and node.value in ("", "~", "null")


def _last_line(key: Written | None, node: Written) -> int:
    """Return the number of the last line of a value, counted from 0."""
    start = int(key.end_mark.line if key is not None else node.start_mark.line)
    is_alias = key is not None and node.start_mark.index < key.end_mark.index
    if is_alias or _is_null(node):
        return start
    if isinstance(node, MappingNode) and not node.flow_style:
        return max((_last_line(k, v) for k, v in node.value), default=start)
    if isinstance(node, SequenceNode) and not node.flow_style:
        return max((_last_line(None, item) for item in node.value), default=start)
    end = int(node.end_mark.line)
    return end - 1 if node.end_mark.column == 0 and end > start else end


def block_lines(key: str, what: Tree | Value, indent: int) -> list[str]:
    """Return the lines of a key and all below it."""
    pad = " " * indent
    if isinstance(what, Value):
        remark = f"  # {what.remark}" if what.remark else ""
        return [f"{pad}{key}: {flow_text(what, inside=False)}{remark}"]
    lines = [f"{pad}{key}:"]
    for step, inner in what.items():
        if isinstance(step, ItemStep):
            assert not isinstance(inner, Value)
            lines += _item_lines(step, inner, indent + 2)
        else:
            lines += block_lines(str(step), inner, indent + 2)
    return lines


def _item_lines(step: ItemStep, what: Tree, indent: int) -> list[str]:
    lines = [f"{' ' * indent}- name: {_scalar(step.name, text=True, inside=False)}"]
    for key, inner in what.items():
        lines += block_lines(str(key), inner, indent + 2)
    return lines


def merged(plain: Any, tree: Tree) -> Any:
    """Return plain values of a section with those of the tree put in; a value that stands there is never replaced."""
    assert isinstance(plain, dict)
    values: dict[str, Any] = dict(plain)
    for key, what in tree.items():
        before = values.get(str(key))
        if before is None:
            values[str(key)] = what
        elif isinstance(what, Value) or not isinstance(before, dict):
            raise CannotWrite(f"{key} has a value already")
        else:
            values[str(key)] = merged(before, what)
    return values


def flow_text(value: Any, inside: bool = True) -> str:
    """Return a value in one line, as it is written inside braces or brackets, or alone behind a key."""
    if isinstance(value, Value):
        if isinstance(value.value, tuple):
            return "[" + ", ".join(_scalar(one, value.text, inside=True) for one in value.value) + "]"
        return _scalar(value.value, value.text, inside)
    if isinstance(value, Mapping):
        if any(isinstance(key, ItemStep) for key in value):
            return flow_text([{"name": Value(key.name, text=True), **inner} for key, inner in value.items()])
        return "{" + ", ".join(f"{key}: {flow_text(inner)}" for key, inner in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(flow_text(one) for one in value) + "]"
    if value is None or isinstance(value, bool):
        return {None: "null", True: "true", False: "false"}[value]
    if isinstance(value, datetime.date):
        return value.isoformat()
    return _scalar(str(value), isinstance(value, str), inside)


def _scalar(value: str, text: bool, inside: bool) -> str:
    """Return a scalar plain where it is read back as it is, otherwise in quotes."""
    try:
        node = read_yaml(f"{{k: {value}}}" if inside else f"k: {value}", "value")
    except InputProblems:
        return json.dumps(value, ensure_ascii=False)
    found = (node.mapping or {}).get("k")
    whole = (
        found is not None and len(node.mapping or {}) == 1 and found.mapping is None and found.items is None
    )
    if not whole or found is None or "\n" in value:
        return json.dumps(value, ensure_ascii=False)
    same = found.value == value
    return (
        value
        if same or (not text and not isinstance(found.value, str))
        else json.dumps(value, ensure_ascii=False)
    )
