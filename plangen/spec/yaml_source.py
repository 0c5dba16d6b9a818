"""Reading YAML that may come from a stranger: safe types only, bounded size, every value with its place."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ruamel.yaml import YAML
from ruamel.yaml.error import MarkedYAMLError, YAMLError
from ruamel.yaml.events import (
    AliasEvent,
    DocumentStartEvent,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
)

from plangen.spec.ordinary_files import read_some
from plangen.spec.problems import InputProblems, Mark, Problem

if TYPE_CHECKING:
    from plangen.spec.issues import LayerIssue
from plangen.spec.yaml_faults import yaml_problem

LARGEST_FILE = 1_048_576
#: For a plan or a findings file, which the program wrote itself and which grows with the boat.
LARGEST_DERIVED_FILE = 16_777_216
DEEPEST = 40

Scalar = str | int | float | bool | datetime.date | None


@dataclass(slots=True)
class Node:
    """One value of a YAML file with its place: a scalar, a mapping or a list.

    A whole spec also has faults of its short forms, and the names of the specs that were laid below it, with
    the issues of those that state one and the files in which they stand.
    """

    mark: Mark
    value: Scalar = None
    mapping: dict[str, Node] | None = None
    items: list[Node] | None = None
    key_marks: dict[str, Mark] = field(default_factory=dict)
    problems: tuple[Problem, ...] = ()
    layers: tuple[str, ...] = ()
    issues: tuple[LayerIssue, ...] = ()
    files: tuple[str, ...] = ()

    def says(self, answer: bool) -> bool:
        """Tell whether the value is a plain yes (or no)."""
        return self.value is answer or (
            isinstance(self.value, str) and self.value.lower() == ("yes" if answer else "no")
        )

    def plain(self) -> Any:
        """Return the value without places."""
        if self.mapping is not None:
            return {key: node.plain() for key, node in self.mapping.items()}
        if self.items is not None:
            return [node.plain() for node in self.items]
        return self.value

    def at(self, path: tuple[str | int, ...]) -> Node | None:
        """Return the value at the path, if there is one."""
        node: Node | None = self
        for step in path:
            if node is None:
                return None
            if node.items is not None and isinstance(step, int) and step < len(node.items):
                node = node.items[step]
            else:
                node = node.mapping.get(str(step)) if node.mapping is not None else None
        return node

    def mark_at(self, path: tuple[str | int, ...]) -> Mark:
        """Return the place of the value at the path, or of the nearest value that holds it."""
        node, mark = self, self.mark
        for step in path:
            if node.mapping is not None and step in node.mapping:
                mark = node.key_marks.get(str(step), mark)
                node = node.mapping[str(step)]
            elif node.items is not None and isinstance(step, int) and step < len(node.items):
                node = node.items[step]
                mark = node.mark
            else:
                break
        return mark

    def count(self) -> int:
        """Return how many values this one holds, itself included."""
        children = list((self.mapping or {}).values()) + (self.items or [])
        return 1 + sum(child.count() for child in children)

    def letters(self) -> int:
        """Return how many letters the values and keys of this one have."""
        children = list((self.mapping or {}).values()) + (self.items or [])
        own = len(self.value) if isinstance(self.value, str) else 0
        return own + sum(map(len, self.mapping or {})) + sum(child.letters() for child in children)


#: With a nought before it, or an exponent that has no sign, a number is text: serial numbers such as 00123 and 12E4 stay whole.
_INTEGER = re.compile(r"[-+]?(0|[1-9][0-9]*)")
_REAL = re.compile(r"[-+]?(\.[0-9]+|(0|[1-9][0-9]*)(\.[0-9]*)?)([eE][-+][0-9]+)?")
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_WORDS: dict[str, Scalar] = {
    **dict.fromkeys(("", "~", "null", "Null", "NULL"), None),
    **dict.fromkeys(("true", "True", "TRUE"), True),
    **dict.fromkeys(("false", "False", "FALSE"), False),
}


def _scalar(text: str) -> Scalar:
    if text in _WORDS:
        return _WORDS[text]
    if len(text) <= 30:
        if _INTEGER.fullmatch(text):
            return int(text)
        if _REAL.fullmatch(text):
            return float(text)
        if _DAY.fullmatch(text):
            try:
                return datetime.date.fromisoformat(text)
            except ValueError:
                return text
    return text


class _Builder:
    """Builds nodes from parse events without recursion, counting what aliases add."""

    def __init__(self, name: str, largest: int) -> None:
        self.name = name
        self.largest = largest
        self.most_values = largest // 10
        self.most_keys = largest // 1000
        self.letters = 0
        self.anchors: dict[str, Node] = {}
        self.values = 0
        self.problems: list[Problem] = []
        self.documents = 0

    def fault(self, mark: Mark, found: str, accepted: str = "") -> InputProblems:
        return InputProblems([*self.problems, Problem(mark, "", found, accepted)])

    def build(self, events: Iterator[Any]) -> Node:
        root: Node | None = None
        open_nodes: list[tuple[Node, str | None]] = []
        open_anchors: set[int] = set()
        for event in events:
            if isinstance(event, DocumentStartEvent):
                self.documents += 1
                if self.documents > 1:
                    raise self.fault(self.mark(event), "a second document (---)", "one document in a file")
                continue
            if isinstance(event, (MappingEndEvent, SequenceEndEvent)):
                node, _ = open_nodes.pop()
                open_anchors.discard(id(node))
                continue
            started = self.node(event, open_anchors)
            if started is None:
                continue
            if open_nodes:
                open_nodes[-1] = self.attach(*open_nodes[-1], started)
            else:
                root = started
            if isinstance(event, (MappingStartEvent, SequenceStartEvent)):
                if len(open_nodes) >= DEEPEST:
                    raise self.fault(started.mark, "values nested too deep", f"at most {DEEPEST} levels")
                open_nodes.append((started, None))
                open_anchors.add(id(started))
        if self.problems:
            raise InputProblems(self.problems)
        return root or Node(Mark(self.name, 1, 1))

    def mark(self, event: Any) -> Mark:
        return Mark(self.name, event.start_mark.line + 1, event.start_mark.column + 1)

    def node(self, event: Any, open_anchors: set[int]) -> Node | None:
        mark = self.mark(event) if event.start_mark else Mark(self.name)
        if isinstance(event, AliasEvent):
            node = self.anchors.get(event.anchor)
            if node is None:
                raise self.fault(mark, f"the alias *{event.anchor} without an anchor before it")
            if id(node) in open_anchors:
                raise self.fault(
                    mark, f"the alias *{event.anchor} inside its own value", "an alias of a finished value"
                )
            self.spend(node.count(), mark)
            self.spend_letters(node.letters(), mark)
            return node
        if isinstance(event, ScalarEvent):
            self.spend(1, mark)
            self.refuse_tag(event, mark)
            plain = event.implicit and event.implicit[0]
            node = Node(mark, _scalar(event.value) if plain else event.value)
        elif isinstance(event, MappingStartEvent):
            self.spend(1, mark)
            self.refuse_tag(event, mark)
            node = Node(mark, mapping={})
        elif isinstance(event, SequenceStartEvent):
            self.spend(1, mark)
            self.refuse_tag(event, mark)
            node = Node(mark, items=[])
        else:
            return None
        if event.anchor:
            self.anchors[event.anchor] = node
        return node

    def refuse_tag(self, event: Any, mark: Mark) -> None:
        if event.tag and not (event.tag == "!" or event.tag.startswith("tag:yaml.org,2002:str")):
            raise self.fault(mark, f"the tag {event.tag}", "plain values, lists and mappings without tags")

    def spend(self, values: int, mark: Mark) -> None:
        self.values += values
        if self.values > self.most_values:
            raise self.fault(
                mark, "too many values, aliases counted", f"at most {self.most_values} values in a file"
            )

    def spend_letters(self, letters: int, mark: Mark) -> None:
        self.letters += letters
        if self.letters > self.largest:
            raise self.fault(
                mark, "aliases that stand for too much text", f"at most {self.largest} letters by aliases"
            )

    def attach(self, parent: Node, key: str | None, node: Node) -> tuple[Node, str | None]:
        if parent.items is not None:
            parent.items.append(node)
            return parent, None
        assert parent.mapping is not None
        if key is None:
            if node.mapping is not None or node.items is not None:
                raise self.fault(node.mark, "a key that is itself a list or mapping", "a word as key")
            name = str(node.value).lower() if isinstance(node.value, bool) else str(node.value)
            if name in parent.mapping:
                first = parent.key_marks[name].line
                self.problems.append(
                    Problem(node.mark, name, f"the key stands twice (first in line {first})", "each key once")
                )
            if len(parent.mapping) >= self.most_keys:
                raise self.fault(node.mark, "too many keys in one place", f"at most {self.most_keys}")
            parent.key_marks[name] = node.mark
            return parent, name
        parent.mapping[key] = node
        return parent, None


def read_yaml(text: str, name: str, largest: int = LARGEST_FILE) -> Node:
    """Read YAML text into nodes; the name stands for the file in messages.

    Raises `InputProblems` for text that isn't YAML, for tags, several documents, duplicate keys and
    whatever passes the bounds on size, depth and alias expansion.
    """
    if len(text) > largest:
        raise InputProblems([Problem(Mark(name), "", f"{len(text)} characters", f"at most {largest}")])
    builder = _Builder(name, largest)
    try:
        return builder.build(YAML(typ="safe", pure=False).parse(text))
    except MarkedYAMLError as error:
        raise InputProblems([*builder.problems, yaml_problem(error, text, name)]) from error
    except YAMLError as error:
        reason = str(error).splitlines()[0]
        raise InputProblems([Problem(Mark(name), "", f"not valid YAML: {reason}")]) from error


def read_yaml_file(path: Path, name: str | None = None, largest: int = LARGEST_FILE) -> Node:
    """Read a YAML file into nodes; see `read_yaml`."""
    shown = name or path.name
    return read_yaml(read_text_file(path, shown, largest), shown, largest)


def read_text_file(path: Path, shown: str, largest: int = LARGEST_FILE) -> str:
    """Return the text of a file; raises `InputProblems` where it is too large, not UTF-8 or can't be read."""
    try:
        content = read_some(path, largest)
        if len(content) > largest:
            raise InputProblems(
                [
                    Problem(
                        Mark(shown), "", f"a file of {path.stat().st_size} bytes", f"at most {largest} bytes"
                    )
                ]
            )
        text = content.decode().removeprefix("\ufeff")
        return text.replace("\r\n", "\n").replace("\r", "\n")
    except UnicodeDecodeError as error:
        raise InputProblems([_encoding_problem(error, shown)]) from error
    except OSError as error:
        raise InputProblems(
            [Problem(Mark(shown), "", f"the file can't be read: {error.strerror}")]
        ) from error


def _encoding_problem(error: UnicodeDecodeError, shown: str) -> Problem:
    """Say in which line a file stops being UTF-8, or that it is UTF-16 as some editors save it."""
    accepted = "a text file saved as UTF-8 (in your editor: save as, encoding UTF-8)"
    if error.object.startswith((b"\xff\xfe", b"\xfe\xff")):
        return Problem(Mark(shown), "", "text in UTF-16, not in UTF-8", accepted)
    line = error.object.count(b"\n", 0, error.start) + 1
    before = error.object.rfind(b"\n", 0, error.start) + 1
    return Problem(Mark(shown, line, error.start - before + 1), "", "a letter that isn't UTF-8", accepted)
