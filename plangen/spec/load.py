"""Loading a spec from its file, with every fault of the file said at once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path as FilePath
from typing import Any

from pydantic import BaseModel

from plangen.spec.explain import Path
from plangen.spec.issues import LayerIssue
from plangen.spec.layers import read_layers
from plangen.spec.model import Spec
from plangen.spec.other_words import NO_OTHER_WORDS, OtherWords
from plangen.spec.plausibility import check_sense
from plangen.spec.problems import InputProblems, Mark, Problem
from plangen.spec.references import check_names
from plangen.spec.shape import shapes
from plangen.spec.validate import validate
from plangen.spec.yaml_source import Node

ZoneSets = Mapping[str, Sequence[Mapping[str, Any]]]


@dataclass(frozen=True)
class LoadedSpec:
    """A spec that has passed every check, with the place of each of its values."""

    spec: Spec
    source: Node
    zones_assumed: bool
    said_no: frozenset[Path] = frozenset()
    layers: tuple[str, ...] = ()
    issues: tuple[LayerIssue, ...] = ()
    files: tuple[str, ...] = ()

    def mark_of(self, path: Path) -> Mark:
        """Return the place where the value at the path was written."""
        return self.source.mark_at(path)


def load_spec_file(path: FilePath, zone_sets: ZoneSets, words: OtherWords = NO_OTHER_WORDS) -> LoadedSpec:
    """Load a spec and what it extends; a spec without zones gets the set of her hull type.

    Raises `InputProblems` with all the faults that were found.
    """
    return load_spec_node(read_layers(path), zone_sets, words)


def load_spec_node(node: Node, zone_sets: ZoneSets, words: OtherWords = NO_OTHER_WORDS) -> LoadedSpec:
    """Hold a spec that has been read against the models; see `load_spec_file`."""
    layers, issues, files = node.layers, node.issues, node.files
    node, assumed = _with_zones(node, zone_sets)
    stated, said_no = _without_refused(node, Spec)
    held = validate(stated, words)
    spec, said = held.spec, {problem.mark for problem in node.problems}
    problems = [*node.problems, *(problem for problem in held.problems if problem.mark not in said)]
    if spec is not None:
        problems = [
            *problems,
            *_apart(check_names(stated), problems),
            *_apart(check_sense(spec, stated, held.stood_in), problems),
        ]
    if problems or spec is None:
        raise InputProblems(problems)
    return LoadedSpec(spec, node, assumed, frozenset(said_no), layers, issues, files)


def _without_refused(node: Node, model: type[BaseModel], path: Path = ()) -> tuple[Node, list[Path]]:
    """Return the spec without what it says she hasn't (`gas: false`) and without keys left blank, and the paths said no."""
    said_no: list[Path] = []
    if node.mapping is None:
        return node, said_no
    kept: dict[str, Node] = {}
    known = shapes(model)
    for key, child in node.mapping.items():
        shape, here = known.get(key), (*path, key)
        if child.value is None and child.mapping is None and child.items is None and shape is not None:
            continue
        if shape is not None and shape.model is not None:
            if not shape.is_list and child.says(False):
                said_no.append(here)
                continue
            if child.items is not None:
                items = [
                    _without_refused(item, shape.model, (*here, index))
                    for index, item in enumerate(child.items)
                ]
                said_no += [one for _, refused in items for one in refused]
                child = replace(child, items=[item for item, _ in items])
            else:
                child, refused = _without_refused(child, shape.model, here)
                said_no += refused
        kept[key] = child
    return replace(node, mapping=kept), said_no


def _apart(found: list[Problem], before: list[Problem]) -> list[Problem]:
    """Leave out what follows only from a fault at the same key, or from a faulty main dimension."""
    keys = {problem.key for problem in before}
    dimensions = bool(keys & {"vessel", "vessel.hull", "vessel.length_hull"})
    return [
        p for p in found if p.key not in keys and not (dimensions and p.key.startswith(("vessel.", "rig.")))
    ]


def _with_zones(node: Node, zone_sets: ZoneSets) -> tuple[Node, bool]:
    assert node.mapping is not None
    if "zones" in node.mapping:
        return node, False
    vessel = node.mapping.get("vessel")
    hull = (vessel.mapping or {}).get("hull") if vessel else None
    zones = zone_sets.get(str(hull.value)) if hull else None
    if zones is None:
        return node, False
    mark = Mark(node.mark.file)
    items = [Node(mark, mapping={key: Node(mark, value) for key, value in zone.items()}) for zone in zones]
    return replace(node, mapping={**node.mapping, "zones": Node(mark, items=items)}), True
