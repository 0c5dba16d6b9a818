"""The hulls of a folder of specs: what is drafted, and what is only laid under others."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from plangen.spec.problems import InputProblems, Mark, Problem
from plangen.spec.yaml_source import Node, read_yaml_file

#: A file in which one of these keys stands at the top is a spec; house files, findings and others have neither.
_SPEC_KEYS = ("vessel", "extends")


@dataclass(frozen=True)
class HullSpecs:
    """The specs of hulls in a folder, those passed over with the reason, and the files that can't be read."""

    hulls: tuple[Path, ...]
    passed_over: tuple[tuple[Path, str], ...]
    problems: tuple[Problem, ...]


def hull_specs(folder: Path) -> HullSpecs:
    """Return the specs in a folder that are drafted: those that no other one extends and that tell of a whole boat.

    One that others extend is a model or an option, and so is one that states its `issue:`; one that extends nothing and
    has no `vessel.hull` of its own is an option that no hull has yet.
    """
    specs: dict[Path, Node] = {}
    problems: list[Problem] = []
    for path in sorted([*folder.glob("*.yaml"), *folder.glob("*.yml")]):
        try:
            node = read_yaml_file(path)
        except InputProblems as faults:
            problems += faults.problems
            continue
        if node.mapping is not None and any(key in node.mapping for key in _SPEC_KEYS):
            specs[path] = node
    extended = {name for node in specs.values() for name in _extends(node)}
    hulls: list[Path] = []
    passed_over: list[tuple[Path, str]] = []
    for path, node in specs.items():
        keys = node.mapping or {}
        if path.name in extended or "issue" in keys:
            continue
        if "extends" in keys or "hull" in ((keys["vessel"].mapping or {}) if "vessel" in keys else {}):
            hulls.append(path)
        else:
            passed_over.append((path, "an option that no spec of the folder extends"))
    if not hulls and not problems:
        accepted = "a folder with a spec for each hull, as hull-101.yaml with `extends: model.yaml`"
        problems.append(Problem(Mark(str(folder)), "", "no spec of a hull in this folder", accepted))
    return HullSpecs(tuple(hulls), tuple(passed_over), tuple(problems))


def _extends(node: Node) -> list[str]:
    extends = (node.mapping or {}).get("extends")
    if extends is None:
        return []
    names = extends.items if extends.items is not None else [extends]
    return [name.value for name in names if isinstance(name.value, str)]
