"""Reading a house file: beside the spec, or wherever it is given."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path

from pydantic import ValidationError

from plangen.packs.house.logo import LogoData, read_logo
from plangen.packs.house.model import HouseFile
from plangen.spec.explain import existing_path, key_text, problem_of
from plangen.spec.layers import lay_over
from plangen.spec.model import Spec
from plangen.spec.problems import InputProblems, Mark, Problem
from plangen.spec.short_forms import expand
from plangen.spec.yaml_source import Node, read_yaml_file


@dataclass(frozen=True)
class LoadedHouse:
    """A house file that has been read, with the place of each of its values, and its logo."""

    file: Path
    source: Node
    model: HouseFile
    logo: LogoData | None = None

    @property
    def owner(self) -> str:
        """Return whose house it is."""
        letterhead = self.model.letterhead
        return letterhead.name if letterhead else self.model.by or "this house"

    def mark_of(self, path: tuple[str | int, ...]) -> Mark:
        """Return the place of a value in the file."""
        return self.source.mark_at(path)

    def under(self, spec: Node) -> Node:
        """Return the spec, not yet held against the models, with what the house says of every trial laid under it."""
        keys = self.source.mapping or {}
        own: dict[str, Node] = {key: keys[key] for key in ("trial", "stages") if key in keys}
        if own.get("trial") is not None and own["trial"].mapping is None:
            del own["trial"]
        if not own:
            return spec
        problems: list[Problem] = []
        base = expand(Node(self.source.mark, mapping=own, key_marks=self.source.key_marks), Spec, problems)
        laid = lay_over(base, spec, problems)
        return replace(
            spec, mapping=laid.mapping, key_marks=laid.key_marks, problems=(*problems, *spec.problems)
        )

    def in_its_words(self, problem: Problem) -> Problem:
        """Return a fault of what was laid over a pack with the key that the house file writes there."""
        path = self._paths.get(problem.mark)
        return problem if path is None else replace(problem, key=key_text(path))

    @cached_property
    def _paths(self) -> dict[Mark, tuple[str | int, ...]]:
        found: dict[Mark, tuple[str | int, ...]] = {}
        waiting: list[tuple[Node, tuple[str | int, ...]]] = [(self.source, ())]
        while waiting:
            node, path = waiting.pop()
            found.setdefault(node.mark, path)
            for key, child in (node.mapping or {}).items():
                found[node.key_marks.get(key, child.mark)] = (*path, key)
                waiting.append((child, (*path, key)))
            waiting += [(child, (*path, index)) for index, child in enumerate(node.items or [])]
        return found


def read_house(path: Path) -> LoadedHouse:
    """Read a house file.

    Raises `InputProblems` with every fault of the file itself; what it says of the packs is held against them by
    `lay_house`.
    """
    if path.suffix == ".yml":
        raise InputProblems(
            [Problem(Mark(str(path)), "", "a file that is named .yml", "the same, named .yaml")]
        )
    source = read_yaml_file(path, str(path))
    if source.mapping is None:
        raise InputProblems(
            [Problem(source.mark, "", "no keys", "a mapping, such as one with `letterhead:`")]
        )
    problems: dict[tuple[Mark, str], Problem] = {}
    model: HouseFile | None = None
    try:
        model = HouseFile.model_validate(source.plain())
    except ValidationError as error:
        for detail in error.errors(include_url=False):
            location = detail["loc"] if detail["type"] == "missing" else existing_path(source, detail["loc"])
            problem = problem_of(HouseFile, source, location, detail)
            problems.setdefault((problem.mark, problem.key), problem)
    logo = _logo(path, source)
    if isinstance(logo, Problem):
        problems[(logo.mark, logo.key)] = logo
    if problems or model is None or isinstance(logo, Problem):
        raise InputProblems(problems.values())
    return LoadedHouse(path, source, model, logo)


def _logo(path: Path, source: Node) -> LogoData | Problem | None:
    letterhead = (source.mapping or {}).get("letterhead")
    name = (letterhead.mapping or {}).get("logo") if letterhead else None
    if name is None or not isinstance(name.value, str):
        return None
    return read_logo(path.parent, name.value, source.mark_at(("letterhead", "logo")))
