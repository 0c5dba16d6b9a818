"""What expressions see of a spec: its sections and items, with defaults filled in and every reading noted."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any, Literal

from plangen.spec.explain import key_text
from plangen.spec.model import Spec, SpecModel
from plangen.spec.references import items_at
from plangen.spec.shape import Shape, shapes

Path = tuple[str | int, ...]
Origin = Literal["spec", "assumed", "default", "missing"]


@dataclass(frozen=True)
class Missing:
    """A value that the spec doesn't give; false as a condition, and no part of a sum."""

    path: Path

    def __bool__(self) -> bool:
        return False


@dataclass(frozen=True)
class Assumed:
    """A value taken because the spec leaves it out."""

    value: Any
    why: str
    source: str


@dataclass(frozen=True)
class Inferred:
    """What such a boat must have of a section that the spec leaves out."""

    names: tuple[str, ...]
    why: str


@dataclass(frozen=True)
class Read:
    """One value that an expression looked at."""

    path: Path
    value: Any
    origin: Origin

    @property
    def key(self) -> str:
        """Return the key path as people read it."""
        return key_text(self.path)


@dataclass(frozen=True)
class Subject:
    """A section or item of the spec, as expressions see it."""

    section: SpecModel
    path: Path
    label: str = ""

    @property
    def name(self) -> str:
        """Return the item's name; for a section, its key."""
        own = getattr(self.section, "name", None) or self.label
        return str(own) if own else str(self.path[-1] if self.path else "boat").replace("_", " ")


@dataclass
class Facts:
    """A spec with its assumed values; notes each value that is read."""

    spec: Spec
    said_no: frozenset[Path] = frozenset()
    assumed: dict[Path, Assumed] = field(default_factory=dict)
    inferred: dict[str, Inferred] = field(default_factory=dict)
    reads: dict[Path, Read] = field(default_factory=dict)
    unsaid: dict[Path, None] = field(default_factory=dict)
    _targets: dict[tuple[str, str], Subject] = field(default_factory=dict)
    _subjects: dict[Path, tuple[Subject, ...]] = field(default_factory=dict)

    def root(self) -> Subject:
        """Return the whole spec."""
        return Subject(self.spec, ())

    def start_notes(self) -> None:
        """Forget what has been read so far."""
        self.reads, self.unsaid = {}, {}

    def notes(self) -> tuple[Read, ...]:
        """Return what has been read since the notes were started."""
        return tuple(self.reads.values())

    def get(self, subject: Subject, name: str) -> Any:
        """Return the value of a key: a subject, a list of subjects, a plain value, or `Missing`."""
        shape = shapes(type(subject.section))[name]
        value = getattr(subject.section, name)
        path = (*subject.path, name)
        if shape.model is not None:
            if path in self.said_no:
                return Missing(path)
            if not value and self.is_unsaid(path):
                self.unsaid[path] = None
            if value is None:
                return Missing(path)
            if path not in self._subjects:
                self._subjects[path] = _subjects(value, path, shape)
            known = self._subjects[path]
            return list(known) if shape.is_list else known[0]
        if path in self.assumed:
            value = self.assumed[path].value
            self.reads[path] = Read(path, value, "assumed")
        elif value is None:
            return self._missing(path)
        elif path not in self.reads:
            stated = name in subject.section.model_fields_set
            self.reads[path] = Read(path, value, "spec" if stated else "default")
        if shape.refers_to:
            return (
                [self.target(shape.refers_to, item) for item in value]
                if shape.is_list
                else self.target(shape.refers_to, value)
            )
        return list(value) if shape.is_list else value

    def is_unsaid(self, path: Path) -> bool:
        """Tell whether the spec says nothing of a section or list: neither what it holds nor that she has none."""
        if any(path[:length] in self.said_no for length in range(1, len(path) + 1)):
            return False
        value: Any = self.spec
        stated = True
        for step in path:
            if isinstance(step, int):
                value = value[step]
                continue
            stated = step in value.model_fields_set
            value = getattr(value, step)
            if value is None:
                return True
        return not stated

    def _missing(self, path: Path) -> Missing:
        self.reads[path] = Read(path, None, "missing")
        return Missing(path)

    def replace(self, path: Path, value: Any) -> None:
        """Put a section or list that is inferred into the spec, which stays as it was for whoever else holds it."""
        self.spec = _with(self.spec, path, value)
        self._targets.clear()
        self._subjects.clear()

    def target(self, list_path: str, name: str) -> Any:
        """Return the item that a reference names."""
        key = (list_path, name)
        if key not in self._targets:
            for index, item in enumerate(items_at(self.spec, list_path)):
                found = Subject(item, (*list_path.split("."), index))
                self._targets[(list_path, item.name)] = found
        return self._targets.get(key, Missing((*list_path.split("."), name)))

    def at(self, dotted: str) -> Any:
        """Return the value at a dotted key path from the root."""
        value: Any = self.root()
        for step in dotted.split("."):
            if isinstance(value, Missing):
                return value
            value = self.get(value, step)
        return value


def _subjects(value: Any, path: Path, shape: Shape) -> tuple[Subject, ...]:
    """Return what expressions see of a section, or of each item of a list."""
    if not shape.is_list:
        return (Subject(value, path),)
    labels = [""] * len(value) if shape.named else _labels(value)
    return tuple(Subject(item, (*path, index), labels[index]) for index, item in enumerate(value))


def _labels(items: Iterable[SpecModel]) -> list[str]:
    """Return what items without names are called: their first word, and a number from the second of the same on."""
    counts: dict[str, int] = {}
    labels = []
    for item in items:
        word = next((str(value) for value in vars(item).values() if isinstance(value, str)), "item")
        counts[word] = counts.get(word, 0) + 1
        labels.append(word if counts[word] == 1 else f"{word} {counts[word]}")
    return labels


def _with(owner: Any, path: Path, value: Any) -> Any:
    if not path:
        return value
    step, rest = path[0], path[1:]
    if isinstance(step, int):
        return (*owner[:step], _with(owner[step], rest, value), *owner[step + 1 :])
    return owner.model_copy(update={step: _with(getattr(owner, step), rest, value)})
