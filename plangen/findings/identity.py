"""What a key of a findings file stands for: ids are what counts, earlier ids and a reading's words are still understood."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from plangen.findings.lines import lines_of, word_end
from plangen.findings.scalar import scalar
from plangen.findings.superset import says_something
from plangen.plan.model import Expectation, Plan, PlannedCheck
from plangen.spec.names import slug
from plangen.spec.problems import InputProblems, Mark, Problem
from plangen.spec.yaml_source import LARGEST_DERIVED_FILE, Node, read_yaml


class Identities:
    """The checks of a plan by their ids, today's and earlier ones."""

    def __init__(self, plan: Plan, before: Plan | None = None) -> None:
        self.checks: Mapping[str, PlannedCheck] = {check.id: check for check in plan.checks}
        self._before = {check.id: check for check in before.checks} if before is not None else {}
        self._former: dict[str, set[str]] = {}
        for check in plan.checks:
            for id in check.formerly:
                self._former.setdefault(id, set()).add(check.id)

    def check_id(self, key: str) -> str | None:
        """Return the id of the check that a key stands for; an earlier id of two checks stands for neither."""
        if key in self.checks:
            return key
        found = self._former.get(key, set())
        return next(iter(found)) if len(found) == 1 else None

    def reading_id(self, key: str, check_id: str, key_of_check: str) -> str | None:
        """Return the id of the reading that a key stands for, by its id, its words or what it was called before."""
        check = self.checks[check_id]
        ids = {expected.id for expected in check.expect}
        if key in ids:
            return key
        before = self._before.get(key_of_check) or self._before.get(check_id)
        for expectations in (before.expect if before is not None else (), check.expect):
            found = {expected.id for expected in expectations if _is_called(expected, key)} & ids
            if len(found) == 1:
                return found.pop()
        return None


def _is_called(expected: Expectation, key: str) -> bool:
    names = (expected.id, expected.reading, *expected.formerly)
    return slug(key) in {slug(name) for name in names}


@dataclass(frozen=True)
class _Rename:
    """A key at a place, and the id that it stands for."""

    mark: Mark
    key: str
    id: str


def with_ids(text: str, name: str, plan: Plan, before: Plan | None = None, read: Node | None = None) -> str:
    """Return the text of a findings file with ids for whatever else stands for a check or a reading of the plan.

    Nothing but those keys changes; what stands for nothing in the plan stays as it is. `read` is the text as read, where
    somebody has read it. Raises `InputProblems` where a key is written so that it can't be changed alone.
    """
    root = read or read_yaml(text, name, LARGEST_DERIVED_FILE)
    renames = list(_renames(root, Identities(plan, before)))
    if not renames:
        return text
    lines = lines_of(text)
    for rename in sorted(renames, key=lambda one: (one.mark.line, one.mark.column), reverse=True):
        line, start = lines[rename.mark.line - 1], rename.mark.column - 1
        end = word_end(line, start)
        lines[rename.mark.line - 1] = f"{line[:start]}{scalar(rename.id)}{line[end:]}"
    changed = "".join(lines)
    if _plain(read_yaml(changed, name, LARGEST_DERIVED_FILE)) != _renamed(root, renames):
        accepted = "keys as the program writes them, each on a line of its own; mend it or move the file away"
        raise InputProblems(
            [Problem(one.mark, one.key, f"can't be written as {one.id}", accepted) for one in renames]
        )
    return changed


def _renames(root: Node, identities: Identities) -> Iterator[_Rename]:
    checks = (root.mapping or {}).get("checks")
    filled = {id for id, entry in ((checks.mapping or {}) if checks else {}).items() if says_something(entry)}
    for section in ("checks", "apart", "snags"):
        node = (root.mapping or {}).get(section)
        for key, entry in ((node.mapping or {}) if node is not None else {}).items():
            assert node is not None
            id = identities.check_id(key)
            if id is None:
                continue
            if id != key and id not in (node.mapping or {}) and not (section == "apart" and id in filled):
                yield _Rename(node.key_marks[key], key, id)
            for attempt in entry.items or [] if section != "snags" else []:
                yield from _reading_renames(attempt, id, key, identities)
    listed = (root.mapping or {}).get("second_look")
    for item in (listed.items or []) if listed is not None else []:
        id = identities.check_id(str(item.value))
        if id is not None and id != item.value:
            yield _Rename(item.mark, str(item.value), id)


def _reading_renames(attempt: Node, check: str, key: str, identities: Identities) -> Iterator[_Rename]:
    for part in ("found", "with"):
        node = (attempt.mapping or {}).get(part)
        names = list((node.mapping or {}) if node is not None else {})
        taken = set(names)
        for name in names:
            assert node is not None
            id = identities.reading_id(name, check, key)
            if id is not None and id != name and id not in taken:
                taken.add(id)
                yield _Rename(node.key_marks[name], name, id)


def _plain(node: Node) -> object:
    return node.plain()


def _renamed(root: Node, renames: list[_Rename]) -> object:
    by_place = {(one.mark.line, one.mark.column): one.id for one in renames}

    def value(node: Node) -> object:
        if node.mapping is not None:
            return {
                by_place.get(_place(node.key_marks[key]), key): value(child)
                for key, child in node.mapping.items()
            }
        if node.items is not None:
            return [value(item) for item in node.items]
        return by_place.get(_place(node.mark), node.value)

    return value(root)


def _place(mark: Mark) -> tuple[int, int]:
    return mark.line, mark.column
