"""The faults of one pack, gathered with their places."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import Any

from plangen.packs.base import PackModel, SourceReference
from plangen.packs.inference import infer_expression, infer_text
from plangen.packs.library import Library, Loaded
from plangen.packs.syntax import ExpressionError
from plangen.packs.types import (
    Names,
    Type,
    TypeFault,
    quantity_type,
    require_unit,
)
from plangen.packs.values import literal
from plangen.spec.explain import key_text
from plangen.spec.problems import Problem, name_list, nearest_name

Path = tuple[str | int, ...]


@dataclass
class Report:
    """Collects the problems of one pack."""

    pack: Loaded[PackModel]
    problems: list[Problem] = field(default_factory=list)

    def say(self, path: Path, found: str, accepted: str = "", nearest: str = "") -> None:
        self.problems.append(Problem(self.pack.mark_of(path), key_text(path), found, accepted, nearest))

    def known(self, path: Path, name: str, names: Iterable[str], what: str) -> None:
        listed = list(names)
        if name not in listed:
            few = len(listed) <= 40
            accepted = name_list(sorted(listed)) if few else f"one of {len(listed)} that the packs define"
            self.say(path, f"unknown {what} {name!r}", accepted, nearest_name(name, listed))

    def attempt(self, path: Path, work: Callable[[], Any]) -> Any:
        try:
            return work()
        except TypeFault as fault:
            self.say(path, fault.found, fault.accepted, fault.nearest)
        except ExpressionError as error:
            self.say(path, str(error))
        return None

    def condition(self, path: Path, text: str | None, names: Names) -> None:
        if text is not None:
            self.attempt(path, lambda: infer_expression(text, names))

    def text(self, path: Path, text: str | None, names: Names) -> None:
        if text is not None:
            self.attempt(path, lambda: infer_text(text, names))

    def value(self, path: Path, text: str | None, names: Names) -> Type | None:
        if text is None:
            return None
        found: Type | None = self.attempt(path, lambda: _type_of_value(text, names))
        return found

    def of_unit(self, path: Path, text: str | None, names: Names, label: str) -> None:
        found = self.value(path, text, names)
        if found is not None:
            self.attempt(path, lambda: require_unit(found, label))


def _type_of_value(text: str, names: Names) -> Type:
    quantity = literal(text)
    if quantity is not None:
        return quantity_type(str(quantity.units))
    return infer_expression(text, names)


def check_source(report: Report, path: Path, source: SourceReference | None, library: Library) -> None:
    if source is not None:
        report.known(path, source.id, library.sources, "source")


def check_state(report: Report, path: Path, text: str, library: Library) -> None:
    """Say what is wrong with a text that names a plant state, as `shore-power on`."""
    subject, _, state = text.rpartition(" ")
    states = {name: set(entry.states) for name, entry in library.plant_states.items()}
    if "{{" in subject:
        if not any(
            state in library.plant_states[name].states for name in states if library.plant_states[name].per
        ):
            accepted = name_list(
                sorted({s for name, e in library.plant_states.items() if e.per for s in e.states}), 40
            )
            report.say(path, f"unknown state {state!r} of an item", accepted)
    elif subject not in states or state not in states[subject]:
        accepted = "; ".join(
            f"{name} {'|'.join(entry.states)}" for name, entry in library.plant_states.items()
        )
        written = [f"{name} {s}" for name, all_states in states.items() for s in all_states]
        report.say(path, f"unknown plant state {text!r}", accepted, nearest_name(text, written))
