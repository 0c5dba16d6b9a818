"""Putting what a house file writes into the nodes of a pack, each value with its own place."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace

from plangen.packs.house.names import Place
from plangen.packs.library import Library
from plangen.spec.problems import Mark
from plangen.spec.yaml_source import Node

#: Keys of an entry of the house file that say what it is about and why.
ABOUT = frozenset({"rule", "reading", "reason", "by"})
#: Ways of saying what counts as good, of which a reading has one.
_LIMITS: tuple[frozenset[str], ...] = (
    frozenset({"at_least", "at_most"}),
    frozenset({"between"}),
    frozenset({"about", "tolerance"}),
    frozenset({"is"}),
    frozenset({"record"}),
)
LIMIT_KEYS = frozenset[str]().union(*_LIMITS)


@dataclass
class Edits:
    """The nodes of the packs as they become; those of the library stay as they are."""

    library: Library
    nodes: dict[int, list[Node]] = field(default_factory=dict)
    dropped: dict[int, set[int]] = field(default_factory=dict)
    requirements: dict[int, set[int]] = field(default_factory=dict)

    def checks(self, pack: int) -> list[Node]:
        """Return the checks of a pack, to be changed in place."""
        if pack not in self.nodes:
            self.nodes[pack] = list((self.library.rules[pack].source.mapping or {})["checks"].items or [])
        return self.nodes[pack]

    def change(self, place: Place, work: Callable[[Node], Node]) -> None:
        """Put another node in the place of a rule."""
        checks = self.checks(place.pack)
        checks[place.check] = work(checks[place.check])

    def drop(self, place: Place) -> None:
        """Take a rule out, once all has been changed."""
        self.checks(place.pack)
        self.dropped.setdefault(place.pack, set()).add(place.check)

    def source(self, pack: int) -> Node:
        """Return a rule pack's source as it has become."""
        source, dropped = self.library.rules[pack].source, self.dropped.get(pack, set())
        kept = [node for number, node in enumerate(self.nodes[pack]) if number not in dropped]
        return with_key(source, "checks", replace((source.mapping or {})["checks"], items=kept))

    def law_source(self, law: int) -> Node:
        """Return a law pack's source as it has become."""
        source = self.library.law[law].source
        requires = (source.mapping or {})["requires"]
        kept = [
            node for number, node in enumerate(requires.items or []) if number not in self.requirements[law]
        ]
        return with_key(source, "requires", replace(requires, items=kept))


def with_key(node: Node, key: str, value: Node, mark: Mark | None = None) -> Node:
    """Return a mapping with one key that has another value."""
    marks = node.key_marks if mark is None else {**node.key_marks, key: mark}
    return replace(node, mapping={**(node.mapping or {}), key: value}, key_marks=marks)


def without(node: Node, keys: Iterable[str]) -> Node:
    """Return a mapping without some of its keys."""
    left_out = set(keys)
    return replace(node, mapping={k: v for k, v in (node.mapping or {}).items() if k not in left_out})


def written(change: Node) -> dict[str, Node]:
    """Return the keys that a change gives other values."""
    return {key: value for key, value in (change.mapping or {}).items() if key not in ABOUT}


def is_blank(node: Node) -> bool:
    """Tell whether a key was left without a value, which takes it away."""
    return node.value is None and node.mapping is None and node.items is None


def _laid_over(node: Node, keys: Mapping[str, Node], marks: Mapping[str, Mark]) -> Node:
    for key, value in keys.items():
        node = without(node, [key]) if is_blank(value) else with_key(node, key, value, marks.get(key))
    return node


def changed_rule(rule: Node, change: Node) -> Node:
    """Return a rule's node with the keys of a change."""
    return _laid_over(rule, written(change), change.key_marks)


def changed_reading(rule: Node, id: str, change: Node, source: str) -> Node:
    """Return a rule's node with the keys of a change at a reading, or at each of the alternatives of that id.

    A limit of another kind takes the place of the one that was there, and `source` that of the text behind it.
    """
    keys, marks = written(change), dict(change.key_marks)
    if "words" in keys:
        keys["reading"], marks["reading"] = keys.pop("words"), marks["words"]
    limits = {key for key, value in keys.items() if key in LIMIT_KEYS and not is_blank(value)}
    kinds = [kind for kind in _LIMITS if kind & limits]
    replaced = LIMIT_KEYS.difference(*kinds) if kinds else frozenset[str]()
    if limits:
        replaced |= {"basis", "source"}
        first = next(key for key in keys if key in limits)
        keys.setdefault("source", Node(marks[first], source))
        marks.setdefault("source", marks[first])

    def work(reading: Node) -> Node:
        return _laid_over(without(reading, replaced), keys, marks)

    return _each_reading(rule, id, work)


def without_reading(rule: Node, id: str) -> Node:
    """Return a rule's node without a reading."""
    return _each_reading(rule, id, lambda _: None)


def _each_reading(rule: Node, id: str, work: Callable[[Node], Node | None]) -> Node:
    expect = (rule.mapping or {})["expect"]
    items: list[Node] = []
    for reading in expect.items or []:
        made = work(reading) if (reading.mapping or {})["id"].value == id else reading
        items += [] if made is None else [made]
    return with_key(rule, "expect", replace(expect, items=items))


def replaced_rule(rule: Node, with_: Node, mark: Mark) -> Node:
    """Return a rule of the house's own under the id of a shipped one, with the shipped one's former ids and cautions."""
    old = rule.mapping or {}
    node = with_key(with_, "id", Node(mark, old["id"].value), mark)
    if "formerly" in old:
        node = with_key(node, "formerly", old["formerly"])
    if "cautions" in old:
        own = (with_.mapping or {}).get("cautions")
        both = [*_listed(old["cautions"]), *(_listed(own) if own is not None else [])]
        told = {str(one.value): one for one in both}
        node = with_key(node, "cautions", Node(mark, items=list(told.values())))
    return node


def _listed(node: Node) -> list[Node]:
    return node.items if node.items is not None else [node]
