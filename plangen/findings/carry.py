"""Carrying findings over to a new plan: every line that a user typed stands word for word."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from plangen.findings.blank import OURS, findings_text
from plangen.findings.lines import bare_lines, key_end
from plangen.findings.read import fits
from plangen.findings.scalar import scalar
from plangen.findings.superset import keeps_all, says_something
from plangen.plan.model import Plan, PlannedCheck
from plangen.spec.problems import InputProblems, Mark, Problem
from plangen.spec.yaml_source import LARGEST_DERIVED_FILE, Node, read_yaml

_MADE_ANEW = ("boat", "plan", "checks", "apart", "second_look")


@dataclass(frozen=True)
class Carried:
    """A findings file for the new plan, and what became of the old one's entries."""

    text: str
    kept: tuple[str, ...]
    apart: tuple[str, ...]
    second_look: tuple[str, ...]


@dataclass(frozen=True)
class _Entry:
    """What was typed for one check: the lines, and the value that they are read as."""

    lines: tuple[str, ...]
    node: Node


def carry(old_text: str, name: str, old_plan: Plan | None, plan: Plan) -> Carried:
    """Return the findings file for a new plan with all that was filled in before.

    Entries whose check is gone are kept under `apart:`, from where they come back with their check; those
    whose expectation changed are named under `second_look:`. Raises `InputProblems` where the old file can't
    be read or carried over, so that it is never overwritten.
    """
    root = read_yaml(old_text, name, LARGEST_DERIVED_FILE)
    if root.mapping is None:
        raise InputProblems([Problem(root.mark, "", "no keys", "a findings file; mend it or move it away")])
    lines = bare_lines(old_text)
    checks = _by_id(plan)
    before, aside = _entries(lines, root, "checks"), _entries(lines, root, "apart")
    stay = {id: entry for id, entry in before.items() if id in checks}
    back = {
        id: entry
        for id, entry in aside.items()
        if id in checks and id not in stay and fits(entry.node, checks[id])
    }
    apart = {id: entry for id, entry in aside.items() if id not in back}
    for id, entry in before.items():
        if id not in stay:
            key = _free_key(id, apart)
            apart[key] = entry if key == id else _renamed(entry, key)
    second_look = _second_look(root, {**stay, **back}, old_plan, checks)
    entries = {id: "\n".join(entry.lines) for id, entry in {**stay, **back}.items()}
    text = _own_comments(lines, root) + findings_text(plan, entries, _tail(lines, root, apart, second_look))
    _make_sure(text, name, {**stay, **back}, apart, root)
    all_kept = {**stay, **back}
    filled = tuple(id for id in checks if id in all_kept and says_something(all_kept[id].node))
    return Carried(text, filled, tuple(apart), second_look)


def _entries(lines: list[str], root: Node, section: str) -> dict[str, _Entry]:
    """Return the entries below a section in which the user wrote anything, at two spaces."""
    node = (root.mapping or {}).get(section)
    if node is None or not node.mapping:
        return {}
    starts = sorted((node.key_marks[id].line, id) for id in node.mapping)
    ends = [*(line for line, _ in starts[1:]), _end_of_section(root, section, lines) + 1]
    found = {}
    for (start, id), end in zip(starts, ends, strict=True):
        own = [line for line in lines[start - 1 : end - 1] if not line.lstrip().startswith(OURS)]
        while own and not own[-1].strip():
            own.pop()
        commented = any(line.lstrip().startswith("#") or " #" in line for line in own)
        if commented or says_something(node.mapping[id]):
            found[id] = _Entry(tuple(_shifted(own, node.key_marks[id].column - 1)), node.mapping[id])
    return found


def _shifted(lines: list[str], indent: int) -> list[str]:
    if indent == 2:
        return lines
    return [f"  {line[indent:]}" if line[:indent].strip() == "" else f"  {line.lstrip()}" for line in lines]


def _free_key(id: str, taken: Mapping[str, object]) -> str:
    number, key = 1, id
    while key in taken:
        number += 1
        key = f"{id}~{number}"
    return key


def _renamed(entry: _Entry, key: str) -> _Entry:
    """Return an entry under another key; what stands behind the key on its line stays."""
    first = entry.lines[0]
    return _Entry((f"  {scalar(key)}{first[key_end(first, 2) :]}", *entry.lines[1:]), entry.node)


def _end_of_section(root: Node, section: str, lines: list[str]) -> int:
    """Return the last line of a top-level section, counted from 1."""
    start = root.key_marks[section].line
    later = [mark.line for mark in root.key_marks.values() if mark.line > start]
    if later:
        return min(later) - 1
    return next((number for number, line in enumerate(lines) if line.rstrip() == "..."), len(lines))


def _second_look(
    root: Node, entries: Mapping[str, _Entry], old: Plan | None, checks: Mapping[str, PlannedCheck]
) -> tuple[str, ...]:
    """Return the checks that were named before and those whose expectation is another one since."""
    former = _by_id(old) if old is not None else {}
    before = [
        str(item.value) for item in ((root.mapping or {}).get("second_look") or Node(root.mark)).items or []
    ]
    changed = [
        id
        for id, entry in entries.items()
        if says_something(entry.node) and _expects_otherwise(entry, former.get(id), checks[id])
    ]
    return tuple(dict.fromkeys(id for id in (*before, *changed) if id in checks))


def _expects_otherwise(entry: _Entry, before: PlannedCheck | None, after: PlannedCheck) -> bool:
    """Tell whether a check expects something else than before; a fault that was there before is no sign of that."""
    if before is None:
        return not fits(entry.node, after)
    return [(e.reading, e.shown) for e in before.expect] != [(e.reading, e.shown) for e in after.expect] or (
        fits(entry.node, before) and not fits(entry.node, after)
    )


def _by_id(plan: Plan) -> dict[str, PlannedCheck]:
    return {check.id: check for check in plan.checks}


def _own_comments(lines: list[str], root: Node) -> str:
    """Return the user's own comment lines from outside the sections, which come first in the new file."""
    first = min((mark.line for mark in root.key_marks.values()), default=1)
    outside = lines[: first - 1]
    for section in _MADE_ANEW:
        if section in root.key_marks:
            node = (root.mapping or {})[section]
            start = root.key_marks[section].line
            entries = [mark.line for mark in node.key_marks.values()]
            outside += lines[start : min(entries, default=_end_of_section(root, section, lines) + 1) - 1]
    own = [line for line in outside if line.lstrip().startswith("#") and not line.lstrip().startswith(OURS)]
    return "".join(f"{line}\n" for line in own)


def _tail(lines: list[str], root: Node, apart: Mapping[str, _Entry], second_look: tuple[str, ...]) -> str:
    text = ""
    if second_look:
        text += (
            f"\n{OURS} The expectation of these changed since they were filled: look again.\nsecond_look:\n"
        )
        text += "".join(f"  - {scalar(id)}\n" for id in second_look)
    for key, mark in root.key_marks.items():
        if key not in _MADE_ANEW:
            own = lines[mark.line - 1 : _end_of_section(root, key, lines)]
            text += "\n" + "\n".join(line for line in own if not line.startswith(OURS)).rstrip() + "\n"
    if apart:
        text += f"\n{OURS} No check of the plan asks for these any more.\napart:\n" + "".join(
            "".join(f"{line}\n" for line in entry.lines) for entry in apart.values()
        )
    return text


def _make_sure(
    text: str, name: str, checks: Mapping[str, _Entry], apart: Mapping[str, _Entry], old: Node
) -> None:
    """Read the new file back and hold it against the old one: a value that would be lost is a fault."""
    try:
        new = (read_yaml(text, name, LARGEST_DERIVED_FILE).mapping) or {}
    except InputProblems:
        new = {}
    whole = Node(Mark(name), mapping={})
    others = {key: node for key, node in (old.mapping or {}).items() if key not in _MADE_ANEW}
    sections = ((checks, new.get("checks", whole)), (apart, new.get("apart", whole)))
    lost = [
        entry.node.mark
        for entries, section in sections
        for id, entry in entries.items()
        if not keeps_all(Node(entry.node.mark, mapping={id: entry.node}), section)
    ]
    lost += [node.mark for key, node in others.items() if key not in new or not keeps_all(node, new[key])]
    if lost:
        accepted = (
            "entries as the program writes them, each on lines of its own; mend it or move the file away"
        )
        raise InputProblems(
            [Problem(mark, "", "can't be carried over to the new plan", accepted) for mark in lost]
        )
