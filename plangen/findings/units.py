"""Numbers that were typed without a unit keep the one beside which they were typed, whatever the plan prints by now."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from plangen.findings.lines import QUOTED, lines_of
from plangen.findings.parse_reading import printed_label, typed_number, with_unit
from plangen.findings.read import read_then
from plangen.findings.scalar import value_text
from plangen.plan.model import Expectation, Plan, PlannedCheck
from plangen.spec.problems import InputProblems, Mark, Problem
from plangen.spec.yaml_source import LARGEST_DERIVED_FILE, Node, read_yaml


@dataclass(frozen=True)
class _Bare:
    """A number without a unit, and the same with the unit that it was typed under."""

    mark: Mark
    number: object
    unit: str

    @property
    def written(self) -> str:
        """Return the number with its unit, as it is read back."""
        return f"{self.number} {self.unit}"


#: Finds what was, or is, expected of a reading: by check id and reading id.
_Expected = Callable[[str, str], Expectation | None]


def with_units_written(
    text: str, name: str, units: str | None, before: Plan | None, plan: Plan, root: Node
) -> str:
    """Return the text of a findings file with the unit behind each number that would be read in another by now.

    `units` are those of the plan that the file was written for, `before` is that plan; ids stand for checks
    and readings already. `root` is the text as read.
    """
    gone = [one.check for records in read_then(root).values() for one in reversed(records)]
    then = _finder(before.checks if before is not None else (), gone, plan.checks)
    bare = list(_changing(root, units or plan.units, then, _finder(plan.checks), plan.units))
    if not bare:
        return text
    lines = lines_of(text)
    for one in sorted(bare, key=lambda one: (one.mark.line, one.mark.column), reverse=True):
        line, start = lines[one.mark.line - 1], one.mark.column - 1
        token = _token(line, start, one.number)
        instead = f"{token} {one.unit}" if token[:1] not in "\"'" else value_text(one.written, in_list=True)
        lines[one.mark.line - 1] = f"{line[:start]}{instead}{line[start + len(token) :]}"
    changed = "".join(lines)
    if not _same(read_yaml(changed, name, LARGEST_DERIVED_FILE), root, {_place(b.mark): b for b in bare}):
        raise InputProblems(
            [
                Problem(
                    one.mark,
                    "",
                    f"{one.number!r}, to which the unit can't be added",
                    f"{one.written}, since the plan's units have changed",
                )
                for one in bare
            ]
        )
    return changed


def _finder(*lists: Sequence[PlannedCheck]) -> _Expected:
    """Return what finds an expectation in the first of several lists of checks that has it."""
    checks: list[Mapping[str, PlannedCheck]] = [
        {id: check for check in reversed(own) for id in (*check.formerly, check.id)} for own in lists
    ]

    def find(check_id: str, reading: str) -> Expectation | None:
        for by_id in checks:
            check = by_id.get(check_id)
            found = next((e for e in check.expect if e.id == reading), None) if check is not None else None
            if found is not None:
                return found
        return None

    return find


def _changing(root: Node, units: str, then: _Expected, now: _Expected, units_now: str) -> Iterator[_Bare]:
    for section in ("checks", "apart"):
        node = (root.mapping or {}).get(section)
        for id, entry in ((node.mapping or {}) if node is not None else {}).items():
            for attempt in entry.items or []:
                found = (attempt.mapping or {}).get("found")
                for reading, value in ((found.mapping or {}) if found is not None else {}).items():
                    before, after = then(id, reading), now(id, reading)
                    if before is None:
                        continue
                    label = printed_label(before.unit, units)
                    if printed_label((after or before).unit, units_now) == label:
                        continue
                    for one in value.items if value.items is not None else [value]:
                        if with_unit(one.value, label) != one.value:
                            yield _Bare(one.mark, one.value, label)


_PLAIN = re.compile(r"[^\s,\[\]{}#]+")


def _token(line: str, start: int, value: object) -> str:
    """Return a value as it is written in a line: quotes included, a number with all its digits."""
    quoted = QUOTED.match(line, start)
    if quoted:
        return quoted[0]
    if isinstance(value, str):
        return value
    plain = _PLAIN.match(line, start)
    return plain[0] if plain else ""


def _same(after: Node, before: Node, changed: Mapping[tuple[int, int], _Bare]) -> bool:
    """Tell whether all stands as before, the changed numbers with their units behind them."""
    if before.mapping is not None:
        kept = after.mapping or {}
        return list(kept) == list(before.mapping) and all(
            _same(kept[key], child, changed) for key, child in before.mapping.items()
        )
    if before.items is not None:
        items = after.items or []
        return len(items) == len(before.items) and all(
            _same(one, other, changed) for one, other in zip(items, before.items, strict=True)
        )
    bare = changed.get(_place(before.mark))
    if bare is None:
        return type(after.value) is type(before.value) and after.value == before.value
    text = str(after.value)
    read, meant = typed_number(text, bare.unit), typed_number(bare.number, bare.unit)
    return text.endswith(f" {bare.unit}") and read == meant


def _place(mark: Mark) -> tuple[int, int]:
    return mark.line, mark.column
