"""Laying one spec over another: `extends` brings in a model or option file from the same folder."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from pathlib import Path

from plangen.spec.issues import (
    OWN_KEYS,
    Compared,
    LayerIssue,
    Wanted,
    check_pins,
    issue_of,
    layer_issue,
    right_issue,
    wanted_by,
)
from plangen.spec.layer_items import check_layer_item
from plangen.spec.model import Spec
from plangen.spec.problems import InputProblems, Problem, nearest_name
from plangen.spec.short_forms import expand
from plangen.spec.yaml_source import Node, read_yaml, read_yaml_file

MOST_LAYERS = 16
#: So often specs are laid over one another in all; a spec that several others extend counts each time.
MOST_LAID = 200
#: Faults at these keys leave open what is laid over what.
_STOP = ("extends", "drafted_from", "issue", "issue.number", "issue.replaces", "vessel.hull_number")


@dataclass
class _Course:
    """What goes with the reading of one spec and all below it."""

    wanted: Wanted
    problems: list[Problem] = field(default_factory=list)
    names: list[str] = field(default_factory=list)
    issues: list[LayerIssue] = field(default_factory=list)
    files: list[str] = field(default_factory=list)
    roots: dict[Path, Node] = field(default_factory=dict)
    laid: int = 0

    def root(self, path: Path) -> Node:
        """Return what stands in a file, read once."""
        if path not in self.roots:
            self.roots[path] = read_yaml_file(path)
        return self.roots[path]

    def replaced(self, path: Path) -> str | None:
        """Return the name of the file whose issue a spec replaces: it is no layer beside it."""
        issue = issue_of(self.root(path), [])
        return issue.replaces if issue is not None else None


def read_layers(path: Path, compared: Compared | None = None, text: str | None = None) -> Node:
    """Read a spec and whatever it extends, short forms written out, as one mapping with places.

    Of a spec with issues the one is taken that the hull is drafted from; where two files are `compared`, the one named
    with them stands in for either. With `text`, the spec is that text, as it may come to stand in the file. Faults of short forms stay with what is returned, to be said with those of the whole
    file. Raises `InputProblems` for unreadable files, cycles, names that leave the folder, and issues that aren't there.
    """
    course = _Course(Wanted())
    if text is not None:
        course.roots[path] = read_yaml(text, path.name)
    root = course.root(path)
    course.wanted = wanted_by(root, compared)
    node = _read(path, (), course)
    check_pins(
        course.wanted, [name.value for name in _extends(root) if isinstance(name.value, str)], course.problems
    )
    if any(problem.key in _STOP for problem in course.problems):
        raise InputProblems(course.problems)
    return replace(
        node,
        problems=tuple(course.problems),
        layers=tuple(dict.fromkeys(course.names)),
        issues=tuple(course.issues),
        files=tuple(dict.fromkeys(course.files)),
    )


def _extends(root: Node) -> list[Node]:
    extends = (root.mapping or {}).get("extends")
    if extends is None:
        return []
    return extends.items if extends.items is not None else [extends]


def _read(path: Path, below: tuple[Path, ...], course: _Course) -> Node:
    root = course.root(path)
    if root.mapping is None:
        raise InputProblems([Problem(root.mark, "", "no keys", "a mapping that begins with `vessel:`")])
    left_out = ("extends", *(OWN_KEYS if below else ()))
    own = expand(
        replace(root, mapping={key: value for key, value in root.mapping.items() if key not in left_out}),
        Spec,
        course.problems,
    )
    chain = (*below, path.resolve())
    base: Node | None = None
    for name in _extends(root):
        target = _target(path, name, chain, course.problems)
        if target is None:
            continue
        course.laid += 1
        if course.laid > MOST_LAID:
            found = (
                f"more than {MOST_LAID} specs laid over one another, each counted as often as it is extended"
            )
            raise InputProblems([Problem(name.mark, "extends", found, "fewer specs, extended once each")])
        laid_over_its_own = course.replaced(path) == target.name
        if laid_over_its_own or path.resolve() in (course.wanted.compared or (frozenset(),))[0]:
            file = target
        else:
            file = right_issue(target, course.wanted, course.root, course.problems, root.mark)
        layer = _read(file, chain, course)
        if not laid_over_its_own:
            course.names.append(target.stem)
        course.files.append(file.name)
        issue = issue_of(course.root(file), [])
        if issue is not None and not laid_over_its_own:
            course.issues.append(layer_issue(target.name, layer, issue))
        base = layer if base is None else lay_over(base, layer, course.problems)
    return own if base is None else lay_over(base, own, course.problems)


def _target(path: Path, name: Node, chain: tuple[Path, ...], problems: list[Problem]) -> Path | None:
    accepted = "the name of a spec file in the same folder, such as model.yaml"
    written = name.value

    def refuse(found: str, nearest: str = "") -> None:
        problems.append(Problem(name.mark, "extends", found, accepted, nearest))

    if (
        not isinstance(written, str)
        or Path(written).name != written
        or "\\" in written
        or written in (".", "..")
    ):
        refuse(f"{written!r}")
        return None
    target = (path.parent / written).resolve()
    if target.parent != path.parent.resolve():
        refuse(f"{written!r}, which leads out of the folder")
        return None
    if not target.is_file():
        others = [entry.name for entry in path.parent.glob("*.yaml") if entry.name != path.name]
        refuse(f"{written!r}: there is no such file", nearest_name(written, others))
        return None
    if target in chain:
        refuse(f"{written!r}, which extends {path.name} in its turn: a circle")
        return None
    if len(chain) >= MOST_LAYERS:
        refuse(f"more than {MOST_LAYERS} specs laid over one another")
        return None
    return target


def lay_over(base: Node, over: Node, problems: list[Problem], path: str = "") -> Node:
    """Lay one value over another: sections key by key, named items by name, all else replaced.

    An item that says `remove: yes` takes the item of that name away; an empty value takes a key away. What can only be
    meant for an item that isn't there is added to the problems.
    """
    if base.mapping is not None and over.mapping is not None:
        merged = dict(base.mapping)
        marks = {**base.key_marks, **over.key_marks}
        for key, value in over.mapping.items():
            if value.mapping is None and value.items is None and value.value is None:
                if merged.pop(key, None) is None:
                    merged[key] = value
            else:
                below = merged.get(key, Node(value.mark, mapping={} if value.mapping is not None else None))
                merged[key] = lay_over(below, value, problems, f"{path}.{key}" if path else key)
        return Node(over.mark, mapping=merged, key_marks=marks)
    names = [_name(item) for item in over.items or []]
    if over.items and len({name for name in names if name is not None}) == len(over.items):
        return Node(over.mark, items=_lay_items(base.items or [], over.items, problems, path))
    return over


def _lay_items(base: list[Node], over: list[Node], problems: list[Problem], path: str) -> list[Node]:
    below = {name: item for item in base if (name := _name(item)) is not None}
    items = dict(below)
    for index, item in enumerate(over):
        name = _name(item)
        assert name is not None
        assert item.mapping is not None
        if name not in below:
            faults = list(check_layer_item(item, name, below, f"{path}[{index}].name"))
            problems.extend(faults)
            if not faults:
                items[name] = _without_words(item)
        elif "remove" in item.mapping and item.mapping["remove"].says(True):
            items.pop(name)
        else:
            items[name] = lay_over(below[name], _without_words(item), problems, f"{path}[{index}]")
    return list(items.values())


def _without_words(item: Node) -> Node:
    """Return an item without what it says only to the layering: `add: yes`, and a `remove` that can't be."""
    kept = {
        key: value
        for key, value in (item.mapping or {}).items()
        if key not in ("add", "remove") or not value.says(True)
    }
    return replace(item, mapping=kept)


def _name(item: Node) -> str | None:
    name = (item.mapping or {}).get("name")
    return name.value if name is not None and isinstance(name.value, str) else None
