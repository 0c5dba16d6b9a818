"""Which issue of a model or an option a hull is drafted from."""

from __future__ import annotations

import datetime
import hashlib
import json
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from pydantic import ValidationError

from plangen.spec.explain import existing_path, problem_of
from plangen.spec.model.issue import Issue
from plangen.spec.problems import Mark, Problem, name_list, nearest_name
from plangen.spec.yaml_source import Node

#: What a layer says of itself and not of the boat.
OWN_KEYS = ("issue", "drafted_from")


#: Two files, and which of them stands in for either wherever a hull extends one of them.
Compared = tuple[frozenset[Path], Path]


@dataclass(frozen=True)
class LayerIssue:
    """The issue of one spec that a hull extends: the name under which she does, and its content."""

    spec: str
    number: int
    date: datetime.date | None
    note: str | None
    content: str


@dataclass(frozen=True)
class Wanted:
    """By what the issue of each spec is chosen: the hull's number and what she says herself.

    Where two files are `compared`, the second of the pair stands in for either of them, whatever the hull says.
    """

    hull_number: int | None = None
    drafted_from: Mapping[str, int] = field(default_factory=dict)
    mark: Mark = field(default_factory=lambda: Mark(""))
    compared: Compared | None = None


def wanted_by(root: Node, compared: Compared | None = None) -> Wanted:
    """Return what a hull's own file says of the issues that she is drafted from; faults of it are said with the others."""
    keys = root.mapping or {}
    vessel = keys.get("vessel")
    number = (vessel.mapping or {}).get("hull_number") if vessel is not None else None
    pins = keys.get("drafted_from")
    stated = number.value if number is not None and type(number.value) is int else None
    return Wanted(
        stated,
        {name: node.value for name, node in (pins.mapping or {}).items() if type(node.value) is int}
        if pins is not None
        else {},
        root.key_marks.get("drafted_from", root.mark),
        compared,
    )


def issue_of(root: Node, problems: list[Problem]) -> Issue | None:
    """Return the issue that a spec states, where it is a sound one."""
    node = (root.mapping or {}).get("issue")
    if node is None:
        return None
    try:
        return Issue.model_validate(node.plain())
    except ValidationError as error:
        for detail in error.errors(include_url=False):
            one = problem_of(Issue, node, existing_path(node, detail["loc"]), detail)
            problems.append(Problem(one.mark, f"issue.{one.key}", one.found, one.accepted, one.nearest))
        return None


def right_issue(
    target: Path,
    wanted: Wanted,
    read: Callable[[Path], Node],
    problems: list[Problem],
    where: Mark,
) -> Path:
    """Return the file with the issue of a spec that a hull is drafted from: the spec itself, or one that it replaces."""
    if wanted.compared is not None and target in wanted.compared[0]:
        return wanted.compared[1]
    chain = list(_chain(target, read, problems))
    pinned = wanted.drafted_from.get(target.name)
    if pinned is not None:
        found = next((path for path, issue in chain if issue.number == pinned), None)
        if found is None:
            numbers = ", ".join(str(issue.number) for _, issue in chain) or "it states none"
            said = f"{target.name}: {pinned}, which is no issue of it"
            problems.append(Problem(wanted.mark, "drafted_from", said, f"one of its issues: {numbers}"))
        return found or target
    for path, issue in chain:
        if issue.from_hull is None or issue.replaces is None:
            return path
        if wanted.hull_number is None:
            said = f"missing: {path.name}, issue {issue.number}, applies from hull {issue.from_hull} on"
            accepted = f"vessel.hull_number, or drafted_from: {{{target.name}: {issue.number}}}"
            problems.append(Problem(where, "vessel.hull_number", said, accepted))
            return path
        if wanted.hull_number >= issue.from_hull:
            return path
    return chain[-1][0] if chain else target


def check_pins(wanted: Wanted, names: Sequence[str], problems: list[Problem]) -> None:
    """Say which names under `drafted_from` the hull doesn't extend."""
    for name in wanted.drafted_from:
        if name not in names:
            said = f"{name!r}: she doesn't extend it"
            accepted = f"specs that she extends: {name_list(names) or 'none'}"
            problems.append(Problem(wanted.mark, "drafted_from", said, accepted, nearest_name(name, names)))


def _chain(
    target: Path, read: Callable[[Path], Node], problems: list[Problem]
) -> Iterator[tuple[Path, Issue]]:
    """Yield the file and what it replaces, the newest issue first; each number is smaller than the one before."""
    path, number = target, None
    while True:
        root = read(path)
        issue = issue_of(root, problems)
        if issue is None:
            if number is not None:
                said = f"{path.name} is replaced by an issue and states none itself"
                problems.append(Problem(root.mark, "issue", said, "issue: {number: 1}"))
            return
        if number is not None and issue.number >= number:
            said = f"{issue.number}, replaced by issue {number}"
            problems.append(
                Problem(root.mark_at(("issue", "number")), "issue.number", said, "a smaller number")
            )
            return
        yield path, issue
        if issue.replaces is None:
            return
        older = path.parent / issue.replaces
        outside = Path(issue.replaces).name != issue.replaces or older.resolve().parent != path.parent
        if outside or not older.is_file():
            mark = root.mark_at(("issue", "replaces"))
            others = [entry.name for entry in path.parent.glob("*.yaml") if entry != path]
            said = f"{issue.replaces!r}: there is no such file"
            accepted = "the name of a spec file in the same folder"
            problems.append(
                Problem(mark, "issue.replaces", said, accepted, nearest_name(issue.replaces, others))
            )
            return
        path, number = older.resolve(), issue.number


def layer_issue(written: str, own: Node, issue: Issue) -> LayerIssue:
    """Return the issue of a layer with the digest of all that it says, comments and blanks apart."""
    text = json.dumps(own.plain(), sort_keys=True, default=str, ensure_ascii=False)
    content = hashlib.sha256(text.encode()).hexdigest()[:8]
    return LayerIssue(written, issue.number, issue.date, issue.note, content)
