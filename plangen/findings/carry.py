"""Carrying findings over to a new plan: every line that a user typed stands word for word."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from plangen.findings.alike import Suggestion, suggestions
from plangen.findings.blank import OURS, findings_text, stages_text
from plangen.findings.identity import Identities, with_ids
from plangen.findings.lines import bare_lines, key_end
from plangen.findings.model import Then
from plangen.findings.read import fits, read_then
from plangen.findings.scalar import scalar
from plangen.findings.superset import keeps_all, says_something
from plangen.findings.then import expected_of, record, still_other
from plangen.findings.units import with_units_written
from plangen.plan.model import Plan, PlannedCheck
from plangen.plan.yaml_text import yaml_text
from plangen.spec.problems import InputProblems, Mark, Problem
from plangen.spec.yaml_source import LARGEST_DERIVED_FILE, Node, read_yaml

_MADE_ANEW = ("boat", "plan", "units", "checks", "apart", "second_look", "snags_apart", "expected_then")


@dataclass(frozen=True)
class Carried:
    """A findings file for the new plan, and what became of the old one's entries.

    `renamed` are the checks that were found under earlier ids, `suggestions` what the spec may say of items that
    are gone while alike ones came.
    """

    text: str
    kept: tuple[str, ...]
    apart: tuple[str, ...]
    second_look: tuple[str, ...]
    renamed: Mapping[str, str]
    suggestions: tuple[Suggestion, ...]


@dataclass(frozen=True)
class _Entry:
    """What was typed for one check: the lines, and the value that they are read as."""

    lines: tuple[str, ...]
    node: Node

    @property
    def attempts(self) -> int:
        """Return how many attempts there are."""
        return len(self.node.items or [])


def carry(old_text: str, name: str, old_plan: Plan | None, plan: Plan) -> Carried:
    """Return the findings file for a new plan with all that was filled in before.

    What goes by earlier ids or by words gets today's ids, and bare numbers the unit that they were typed under
    where the plan prints another. Entries whose check is gone are kept under `apart:`, from where they come back
    with their check; those whose expectation changed are named under `second_look:`; what was expected of either
    is kept under `expected_then:`. Raises `InputProblems` where the old file can't be read or carried over, so
    that it is never overwritten.
    """
    if old_plan is not None and old_text == findings_text(old_plan):
        return Carried(findings_text(plan), (), (), (), {}, ())  # as it was written: nothing was typed yet
    first = read_yaml(old_text, name, LARGEST_DERIVED_FILE)
    if first.mapping is None:
        raise InputProblems([Problem(first.mark, "", "no keys", "a findings file; mend it or move it away")])
    identities = Identities(plan, old_plan)
    text = with_ids(old_text, name, plan, old_plan, first)
    named = first if text == old_text else read_yaml(text, name, LARGEST_DERIVED_FILE)
    units = (first.mapping.get("units") or Node(first.mark)).value or (old_plan.units if old_plan else None)
    with_units = with_units_written(text, name, str(units) if units else None, old_plan, plan, named)
    root = named if with_units == text else read_yaml(with_units, name, LARGEST_DERIVED_FILE)
    lines = bare_lines(with_units)
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
    kept = {**stay, **back}
    former = expected_of(old_plan, identities)
    then = _then(root, kept, apart, former, checks, identities)
    second_look = _second_look(root, kept, former, checks, then)
    then = {id: records for id, records in then.items() if id in apart or id in second_look}
    settled = _Settlements(lines, root, {*checks, *apart})
    entries = {id: "\n".join(entry.lines) for id, entry in kept.items()}
    tail = _tail(lines, root, apart, second_look, settled, then) + _stages(lines, root, plan)
    text = _own_comments(lines, root) + findings_text(plan, entries, tail)
    if text != old_text:
        _make_sure(text, name, kept, apart, root)
    return Carried(
        text,
        tuple(id for id in checks if id in kept and says_something(kept[id].node)),
        tuple(apart),
        second_look,
        _new_ids(first, identities),
        suggestions(apart, old_plan, plan),
    )


def _new_ids(root: Node, identities: Identities) -> dict[str, str]:
    """Return by their earlier ids the checks in whose entries something was typed."""
    found = {}
    for section in ("checks", "apart"):
        node = (root.mapping or {}).get(section)
        entries = (node.mapping or {}) if node is not None else {}
        for key, entry in entries.items():
            id = identities.check_id(key)
            if id is not None and id not in entries and says_something(entry):
                found[key] = id
    return found


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


def _then(
    root: Node,
    kept: Mapping[str, _Entry],
    apart: Mapping[str, _Entry],
    former: Mapping[str, PlannedCheck],
    checks: Mapping[str, PlannedCheck],
    identities: Identities,
) -> dict[str, tuple[Then, ...]]:
    """Return what was expected of attempts whose check is gone, or whose readings are gone or expect otherwise."""
    there = read_then(root)
    looked_at = set(there) - {str(item.value) for item in _items(root, "second_look")}
    found: dict[str, tuple[Then, ...]] = {}
    for id, entry in {**kept, **apart}.items():
        if not says_something(entry.node):
            continue
        records = there.get(id, ())
        if id in checks:
            records = () if id in looked_at and id not in _names(root, "apart") else records
            records = still_other(record(records, entry.attempts, former.get(id)), checks[id], entry.node)
        else:
            records = record(records, entry.attempts, former.get(id))
        if records:
            found[id] = records
    return found


def _items(root: Node, section: str) -> list[Node]:
    node = (root.mapping or {}).get(section)
    return node.items or [] if node is not None else []


def _names(root: Node, section: str) -> list[str]:
    node = (root.mapping or {}).get(section)
    return list(node.mapping or {}) if node is not None else []


def _second_look(
    root: Node,
    entries: Mapping[str, _Entry],
    former: Mapping[str, PlannedCheck],
    checks: Mapping[str, PlannedCheck],
    then: Mapping[str, object],
) -> tuple[str, ...]:
    """Return the checks that were named before and those whose expectation is another one since."""
    before = [str(item.value) for item in _items(root, "second_look")]
    changed = [
        id
        for id, entry in entries.items()
        if says_something(entry.node) and (id in then or _fits_no_more(entry, former.get(id), checks[id]))
    ]
    return tuple(dict.fromkeys(id for id in (*before, *changed) if id in checks))


def _fits_no_more(entry: _Entry, before: PlannedCheck | None, after: PlannedCheck) -> bool:
    """Tell whether something was typed that the check doesn't ask for; a fault that was there before is no sign of that."""
    return not fits(entry.node, after) and (before is None or fits(entry.node, before))


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


def _stages(lines: list[str], root: Node, plan: Plan) -> str:
    """Return the release of stages: as it stands where anything is filled in, with blanks for stages that are new."""
    if _blank_stages(lines, root):
        return stages_text(plan.stages)
    node, mark = root.mapping["stages"], root.key_marks["stages"]  # type: ignore[index]
    text = _section(lines[mark.line - 1 : _end_of_section(root, "stages", lines)])
    places = [place for id, place in node.key_marks.items() if id in (node.mapping or {})]
    new = [stage for stage in plan.stages if stage.id not in (node.mapping or {})]
    own_lines = all(place.line > mark.line and place.column == 3 for place in places)
    return text + (stages_text(new, heading=False) if own_lines else "")


def _blank_stages(lines: list[str], root: Node) -> bool:
    node = (root.mapping or {}).get("stages")
    if node is None:
        return True
    own = lines[root.key_marks["stages"].line : _end_of_section(root, "stages", lines)]
    commented = any("#" in line and not line.lstrip().startswith(OURS) for line in own)
    return not says_something(node) and not commented


class _Settlements:
    """The lines under `snags:`, and those of checks that neither the plan nor `apart:` has any more."""

    def __init__(self, lines: list[str], root: Node, known: set[str]) -> None:
        self.kept: list[str] = []
        self.apart: list[str] = []
        for section in ("snags", "snags_apart"):
            self._sort(lines, root, section, known)

    def _sort(self, lines: list[str], root: Node, section: str, known: set[str]) -> None:
        node = (root.mapping or {}).get(section)
        if node is None or not node.mapping:
            return
        starts = sorted((node.key_marks[id].line - 1, id) for id in node.mapping)
        end = _end_of_section(root, section, lines)
        ends = [*(start for start, _ in starts[1:]), end]
        self.kept += lines[root.key_marks[section].line : starts[0][0]] if section == "snags" else []
        for (start, id), stop in zip(starts, ends, strict=True):
            into = self.kept if id in known else self.apart
            into += _shifted(lines[start:stop], node.key_marks[id].column - 1)


def _tail(
    lines: list[str],
    root: Node,
    apart: Mapping[str, _Entry],
    second_look: tuple[str, ...],
    settled: _Settlements,
    then: Mapping[str, tuple[Then, ...]],
) -> str:
    text = ""
    if second_look:
        text += f"\n{OURS} The expectation of these changed since they were filled: look again, then take the line out.\nsecond_look:\n"
        text += "".join(f"  - {scalar(id)}\n" for id in second_look)
    moved = bool(settled.apart or "snags_apart" in root.key_marks)
    for key, mark in root.key_marks.items():
        if key not in (*_MADE_ANEW, "stages") and not (key == "snags" and moved):
            text += _section(lines[mark.line - 1 : _end_of_section(root, key, lines)])
    if moved and settled.kept:
        text += _section(["snags:", *settled.kept])
    if settled.apart:
        text += _section(
            [f"{OURS} Settled, but no check of the plan is this any more.", "snags_apart:", *settled.apart], 1
        )
    if apart:
        text += f"\n{OURS} No check of the plan asks for these any more. They stay in the snag list until they are settled.\napart:\n"
        text += "".join("".join(f"{line}\n" for line in entry.lines) for entry in apart.values())
    if then:
        text += f"\n{OURS} What was expected when the above was found: the program's own, by which it is still judged.\n"
        text += yaml_text(
            {"expected_then": {id: [one.plain() for one in records] for id, records in then.items()}}
        )
    return text


def _section(lines: list[str], ours: int = 0) -> str:
    own = [*lines[:ours], *(line for line in lines[ours:] if not line.lstrip().startswith(OURS))]
    return "\n" + "\n".join(own).rstrip() + "\n"


def _make_sure(
    text: str, name: str, checks: Mapping[str, _Entry], apart: Mapping[str, _Entry], old: Node
) -> None:
    """Read the new file back and hold it against the old one: a value that would be lost is a fault."""
    try:
        new = (read_yaml(text, name, LARGEST_DERIVED_FILE).mapping) or {}
    except InputProblems:
        new = {}
    whole = Node(Mark(name), mapping={})
    others = {
        key: node
        for key, node in (old.mapping or {}).items()
        if key not in (*_MADE_ANEW, "snags") and (key != "stages" or says_something(node))
    }
    sections = ((checks, new.get("checks", whole)), (apart, new.get("apart", whole)))
    lost = [
        entry.node.mark
        for entries, section in sections
        for id, entry in entries.items()
        if not keeps_all(Node(entry.node.mark, mapping={id: entry.node}), section)
    ]
    lost += [node.mark for key, node in others.items() if key not in new or not keeps_all(node, new[key])]
    settled = {**_mapping(new.get("snags")), **_mapping(new.get("snags_apart"))}
    for section in ("snags", "snags_apart"):
        for id, node in _mapping((old.mapping or {}).get(section)).items():
            if id not in settled or not keeps_all(node, settled[id]):
                lost.append(node.mark)
    if lost:
        accepted = (
            "entries as the program writes them, each on lines of its own; mend it or move the file away"
        )
        raise InputProblems(
            [Problem(mark, "", "can't be carried over to the new plan", accepted) for mark in lost]
        )


def _mapping(node: Node | None) -> dict[str, Node]:
    return (node.mapping or {}) if node is not None else {}
