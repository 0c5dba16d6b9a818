"""Carrying findings over to a new plan: every line that a user typed stands word for word."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from plangen.findings.blank import OURS, findings_text
from plangen.plan.model import Plan, PlannedCheck
from plangen.spec.problems import InputProblems, Problem
from plangen.spec.yaml_source import LARGEST_DERIVED_FILE, Node, read_yaml


@dataclass(frozen=True)
class Carried:
    """A findings file for the new plan, and what became of the old one's entries."""

    text: str
    kept: tuple[str, ...]
    apart: tuple[str, ...]
    second_look: tuple[str, ...]


def carry(old_text: str, name: str, old_plan: Plan | None, plan: Plan) -> Carried:
    """Return the findings file for a new plan with all that was filled in before.

    Entries whose check is gone are kept under `apart:`; those whose expectation changed are named under
    `second_look:`. Raises `InputProblems` where the old file can't be read, so that it is never overwritten.
    """
    root = read_yaml(old_text, name, LARGEST_DERIVED_FILE)
    if root.mapping is None:
        raise InputProblems([Problem(root.mark, "", "no keys", "a findings file; mend it or move it away")])
    lines = old_text.splitlines()
    entries = {**entry_lines(lines, root, "apart"), **entry_lines(lines, root, "checks")}
    filled = {id: text for id, text in entries.items() if _is_filled(root, id)}
    present = {check.id for check in plan.checks}
    apart = {id: text for id, text in filled.items() if id not in present}
    changed = [id for id in filled if id in present and _expects_otherwise(id, old_plan, plan)]
    before = [str(item.value) for item in (root.mapping.get("second_look") or Node(root.mark)).items or []]
    second_look = tuple(dict.fromkeys(id for id in (*before, *changed) if id in present))
    text = findings_text(
        plan,
        {id: text for id, text in filled.items() if id in present},
        _tail(lines, root, apart, second_look),
    )
    remarks = _own_remarks(lines, root)
    return Carried(remarks + text, tuple(id for id in filled if id in present), tuple(apart), second_look)


def entry_lines(lines: list[str], root: Node, section: str) -> dict[str, str]:
    """Return the lines of each entry below a section, comments of the user's included, at two spaces."""
    node = (root.mapping or {}).get(section)
    if node is None or not node.mapping:
        return {}
    starts = sorted((node.key_marks[id].line, id) for id in node.mapping)
    last = _end_of_section(root, section, len(lines))
    found = {}
    for (start, id), end in zip(starts, [*(line for line, _ in starts[1:]), last + 1], strict=True):
        own = [line for line in lines[start - 1 : end - 1] if not line.lstrip().startswith(OURS)]
        while own and not own[-1].strip():
            own.pop()
        found[id] = "\n".join(_shifted(own, node.key_marks[id].column - 1))
    return found


def _shifted(lines: list[str], indent: int) -> list[str]:
    if indent == 2:
        return lines
    return [f"  {line[indent:]}" if line[:indent].strip() == "" else f"  {line.lstrip()}" for line in lines]


def _end_of_section(root: Node, section: str, total: int) -> int:
    """Return the last line of a top-level section, counted from 1."""
    start = root.key_marks[section].line
    later = [mark.line for key, mark in root.key_marks.items() if mark.line > start]
    return min(later) - 1 if later else total


def _is_filled(root: Node, id: str) -> bool:
    """Tell whether anything was typed into an entry."""
    entry = next(
        (
            node.mapping[id]
            for key in ("checks", "apart")
            if (node := (root.mapping or {}).get(key)) and node.mapping and id in node.mapping
        ),
        None,
    )
    return entry is not None and _holds_something(entry)


def _holds_something(node: Node) -> bool:
    if node.mapping is not None:
        return any(_holds_something(child) for child in node.mapping.values())
    if node.items is not None:
        return any(_holds_something(child) for child in node.items)
    return node.value is not None and node.value != ""


def _expects_otherwise(id: str, old: Plan | None, new: Plan) -> bool:
    if old is None:
        return False
    before, after = _by_id(old).get(id), _by_id(new)[id]
    return before is not None and [(e.reading, e.shown) for e in before.expect] != [
        (e.reading, e.shown) for e in after.expect
    ]


def _by_id(plan: Plan) -> Mapping[str, PlannedCheck]:
    return {check.id: check for check in plan.checks}


def _own_remarks(lines: list[str], root: Node) -> str:
    """Return the user's own comment lines from above the first key."""
    first = min((mark.line for mark in root.key_marks.values()), default=1)
    own = [line for line in lines[: first - 1] if line.strip() and not line.startswith(OURS)]
    return "".join(f"{line}\n" for line in own)


def _tail(lines: list[str], root: Node, apart: Mapping[str, str], second_look: tuple[str, ...]) -> str:
    text = ""
    if second_look:
        text += (
            f"\n{OURS} The expectation of these changed since they were filled: look again.\nsecond_look:\n"
        )
        text += "".join(f"  - {id}\n" for id in second_look)
    if "snags" in (root.mapping or {}):
        start = root.key_marks["snags"].line
        text += (
            "\n" + "\n".join(lines[start - 1 : _end_of_section(root, "snags", len(lines))]).rstrip() + "\n"
        )
    if apart:
        text += f"\n{OURS} No check of the plan asks for these any more.\napart:\n" + "".join(
            f"{entry}\n" for entry in apart.values()
        )
    return text
