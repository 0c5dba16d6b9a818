"""Merging what a form says into the text of a findings file: comments, order and every typed value stay."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from plangen.collect.also_found import also_found_lines, found_again, not_yet_found
from plangen.collect.edit import Edit, attempt_lines, dash_indent, edited, fill_edits, stands_bare
from plangen.collect.form_content import Said, settlement_words
from plangen.collect.reconcile import Action, decide, decide_after
from plangen.collect.seen_mended import SeenAgain, mended_edits, newly_mended, seen_remarks
from plangen.findings.blank import OURS
from plangen.findings.lines import end_of_block, lines_of
from plangen.findings.model import AlsoFound, Findings, Settlement
from plangen.findings.read import read_findings
from plangen.findings.scalar import scalar
from plangen.findings.superset import keeps_all, says_something
from plangen.plan.model import Plan
from plangen.spec.problems import InputProblems, Mark, Problem
from plangen.spec.yaml_source import LARGEST_DERIVED_FILE, Node, read_yaml


@dataclass(frozen=True)
class Merged:
    """The text with all that a form says, and what was done for it, by check."""

    text: str
    actions: Mapping[str, Action]
    apart: tuple[str, ...]
    remarks: tuple[str, ...]
    also_found: tuple[AlsoFound, ...] = ()


def merge(text: str, name: str, plan: Plan, said: Said, is_retest: bool, is_other: bool) -> Merged:
    """Return the findings with what a form says; a form that was merged before changes nothing.

    `is_other` says that the form is of another version of the plan: what it fills is to be looked at again.
    Raises `InputProblems` where an entry is written so that nothing can be added to it without touching what
    stands there.
    """
    root = read_yaml(text, name, LARGEST_DERIVED_FILE)
    before = read_findings(text, name, plan)
    actions = _actions(before, plan, said, is_retest)
    mended = newly_mended(before, said.seen_again)
    seen = seen_remarks(before, said.seen_again)
    if mended and _Edits(root, lines_of(text), text).mended_edits(mended, before) is None:
        seen = seen_remarks(before, said.seen_again, in_words=True)
        mended, said = {}, replace(said, seen_again={})
    ways = (_Edits(root, lines_of(text), text), _Edits(root, lines_of(text), text, to_the_end=True))
    aside = {id: decide(before.apart.get(id, ()), attempt, None) for id, attempt in said.apart.items()}
    remarks = _new_remarks(before, said, actions, aside, seen)
    found = not_yet_found(before.also_found, said.also_found)
    again = [id for id, action in actions.items() if action.what != "nothing"] if is_other else []
    apart = [id for id, action in aside.items() if action.what != "nothing"]
    snags = {id: one for id, one in said.snags.items() if id not in before.snags}
    for way in ways:
        for id, action in actions.items():
            way.attempt("checks", id, action)
        for id in apart:
            way.attempt("apart", id, Action("append", said.apart[id]))
        way.items("remarks", "What filled sheets and lists say beside the checks.", remarks)
        way.items(
            "second_look",
            "The expectation of these changed since they were filled: look again.",
            [id for id in again if id not in before.second_look],
        )
        way.settlements(snags)
        way.also_found(found)
        way.mended(mended, before)
        result = way.text()
        if result is not None and _holds(result, name, plan, root, said, is_retest):
            return Merged(result, actions, tuple(apart), tuple(remarks), found)
    raise InputProblems([_cannot(name, root, actions)])


def _actions(before: Findings, plan: Plan, said: Said, is_retest: bool) -> dict[str, Action]:
    checks = {check.id: check for check in plan.checks}
    return {
        id: decide_after(
            said.earlier.get(id, 0),
            before.checks.get(id, ()),
            attempt,
            checks[id],
            plan.units,
            is_retest and id not in said.earlier,
        )
        for id, attempt in said.attempts.items()
    }


def _new_remarks(
    before: Findings,
    said: Said,
    actions: Mapping[str, Action],
    aside: Mapping[str, Action],
    seen: Sequence[str],
) -> list[str]:
    """Return the remarks that aren't there yet: of the form itself, and who confirms what another one found."""
    remarks = list(said.remarks)
    for section, done in ((before.checks, actions), (before.apart, aside)):
        for id, action in done.items():
            by = section[id][action.at - 1].by if action.confirms else None
            if by and action.confirms and action.confirms not in by.split(", "):
                remarks.append(f"{id}: {action.confirms} found the same as {by}")
    for id, settlement in said.snags.items():
        if id in before.snags and before.snags[id] != settlement:
            words = "; ".join(f"{key} {value}" for key, value in settlement_words(settlement))
            remarks.append(f"snag sheet, {id}: {words}")
    remarks += found_again(before.also_found, said.also_found)
    remarks += seen
    return [remark for remark in dict.fromkeys(remarks) if remark not in before.remarks]


def _holds(text: str, name: str, plan: Plan, before: Node, said: Said, is_retest: bool) -> bool:
    """Tell whether a text holds all that stood there and all that the form says."""
    try:
        after = read_yaml(text, name, LARGEST_DERIVED_FILE)
        findings = read_findings(text, name, plan)
    except InputProblems:
        return False
    return (
        keeps_all(before, after)
        and all(one.what == "nothing" for one in _actions(findings, plan, said, is_retest).values())
        and all(
            decide(findings.apart.get(id, ()), attempt, None).what == "nothing"
            for id, attempt in said.apart.items()
        )
        and set(said.snags) <= set(findings.snags)
        and set(said.remarks) <= set(findings.remarks)
        and not not_yet_found(findings.also_found, said.also_found)
        and not newly_mended(findings, said.seen_again)
    )


def _cannot(name: str, root: Node, actions: Mapping[str, Action]) -> Problem:
    entries = (root.mapping or {}).get("checks")
    for id, action in actions.items():
        entry = (entries.mapping or {}).get(id) if entries else None
        if entry is not None and action.what != "nothing" and entry.items and entry.mark.line:
            first = entry.items[0]
            if first.mark.line == (entries.key_marks[id].line if entries else 0):
                return Problem(
                    first.mark, id, "an entry on one line", "attempts below one another, each with a dash"
                )
    return Problem(
        Mark(name), "", "written so that nothing can be added without touching what stands there",
        "entries as the program writes them: attempts below one another, each with a dash",
    )  # fmt: skip


class _Edits:
    """Edits to one text, gathered before any is made."""

    def __init__(self, root: Node, lines: list[str], text: str, to_the_end: bool = False) -> None:
        self.root = root
        self.lines = lines
        self.bare = [line.rstrip("\r\n\x85\u2028\u2029") for line in lines]
        self.line_end = "\r\n" if "\r\n" in text else "\n"
        self.to_the_end = to_the_end
        self.edits: list[Edit] = []
        self.entries: list[Edit] = []
        self.sections: dict[str, list[str]] = {}
        self.impossible = False

    def text(self) -> str | None:
        """Return the text with the edits made, or nothing where one can't be."""
        if self.impossible:
            return None
        new = [Edit(self._whole(), 0, tuple(lines)) for lines in self.sections.values()]
        return edited(self.lines, [*self.edits, *self.entries, *new], self.line_end)

    def attempt(self, section: str, id: str, action: Action) -> None:
        """Fill or add an attempt below a check's id."""
        if action.what == "nothing":
            return
        node = (self.root.mapping or {}).get(section)
        if node is None or not node.mapping:
            lines = [f"  {scalar(id)}:", *attempt_lines(action.attempt, 4)]
            note = "No check of the plan asks for these any more." if section == "apart" else ""
            self._add(section, note, lines, node)
            return
        if id not in node.mapping:
            indent = min(mark.column for mark in node.key_marks.values()) - 1
            lines = [f"{' ' * indent}{scalar(id)}:", *attempt_lines(action.attempt, indent + 2)]
            self.entries.append(Edit(self._end(section, indent - 1), 0, tuple(lines)))
            return
        self._entry(section, node, id, action)

    def _entry(self, section: str, node: Node, id: str, action: Action) -> None:
        assert node.mapping is not None
        entry, mark = node.mapping[id], node.key_marks[id]
        first, indent = mark.line - 1, mark.column - 1
        stop = min(
            (m.line - 1 for m in node.key_marks.values() if m.line > mark.line), default=self._stop(section)
        )
        if not entry.items:
            if stands_bare(self.bare, node, id):
                self.edits.append(Edit(first + 1, 0, attempt_lines(action.attempt, indent + 2)))
            else:
                self.impossible = True
            return
        dash = dash_indent(self.bare, entry.items[0], first + 1)
        if dash is None:
            self.impossible = True
            return
        if action.what == "fill":
            item = entry.items[action.at - 1]
            later = [one.mark.line - 1 for one in entry.items[action.at :]]
            edits = fill_edits(self.bare, item, min([*later, stop]), action.attempt)
            if edits is not None:
                self.edits += edits
                return
        attempt = action.attempt
        if action.what == "fill" and says_something(entry.items[action.at - 1]):
            attempt = attempt.model_copy(update={"beside": action.at})
        end = self._block_end(entry.items[-1].mark.line - 1, stop, dash)
        self.edits.append(Edit(end, 0, attempt_lines(attempt, dash)))

    def items(self, section: str, note: str, texts: Sequence[str]) -> None:
        """Add lines to a list of texts at the top of the file's keys."""
        if not texts:
            return
        node = (self.root.mapping or {}).get(section)
        dash = 2
        if node is not None and node.items:
            dash = dash_indent(self.bare, node.items[0], self.root.key_marks[section].line) or 0
        self._add(section, note, [f"{' ' * dash}- {scalar(text)}" for text in texts], node)

    def settlements(self, snags: Mapping[str, Settlement]) -> None:
        """Add settlements of snags."""
        if not snags:
            return
        node = (self.root.mapping or {}).get("snags")
        indent = min(mark.column for mark in node.key_marks.values()) - 1 if node and node.mapping else 2
        lines = []
        for id, settlement in snags.items():
            lines.append(f"{' ' * indent}{scalar(id)}:")
            words = settlement.model_dump(exclude_none=True)
            lines += [
                f"{' ' * (indent + 2)}{key}: {value if key == 'due' else scalar(str(value))}"
                for key, value in words.items()
            ]
        self._add("snags", "", lines, node)

    def also_found(self, found: Sequence[AlsoFound]) -> None:
        """Add what was found beside all checks."""
        if not found:
            return
        node = (self.root.mapping or {}).get("also_found")
        dash = 2
        if node is not None and node.items:
            dash = dash_indent(self.bare, node.items[0], self.root.key_marks["also_found"].line) or 0
        lines = [line for one in found for line in also_found_lines(one, dash)]
        self._add("also_found", "What belongs to no check of the plan.", lines, node)

    def mended(self, mended: Mapping[str, SeenAgain], before: Findings) -> None:
        """Say of things found beside all checks that they were seen mended."""
        self.edits += self.mended_edits(mended, before) or []

    def mended_edits(self, mended: Mapping[str, SeenAgain], before: Findings) -> list[Edit] | None:
        """Return the edits for that, or nothing where an entry is written on one line."""
        node = (self.root.mapping or {}).get("also_found")
        if not mended or node is None:
            return []
        first = self.root.key_marks["also_found"].line
        return mended_edits(self.bare, node, first, self._end("also_found", -1), before, mended)

    def _add(self, section: str, note: str, lines: Sequence[str], node: Node | None) -> None:
        """Add lines at the end of a section, which is made where it isn't there."""
        if node is None:
            heading = ["", f"{OURS} {note}", f"{section}:"] if note else ["", f"{section}:"]
            self.sections.setdefault(section, heading).extend(lines)
            return
        at = self.root.key_marks[section].line - 1
        if not node.mapping and not node.items:
            bare = self.bare[at]
            head = f"{section}:"
            rest = bare.removeprefix(head).strip()
            if bare.startswith(head) and (rest in ("", "{}", "[]", "null", "~") or rest.startswith("#")):
                comment = f" {rest}" if rest.startswith("#") else ""
                done = any(edit.at == at and edit.instead for edit in self.edits)
                if not done:
                    self.edits.append(Edit(at, 1, (f"{head}{comment}",)))
                self.edits.append(Edit(at + 1, 0, tuple(lines)))
            else:
                self.impossible = True
            return
        self.edits.append(Edit(self._end(section, 0 if not node.items else -1), 0, tuple(lines)))

    def _whole(self) -> int:
        """Return the index after the last line of the document."""
        marker = next((n for n, line in enumerate(self.bare) if line.rstrip() == "..."), None)
        return len(self.lines) if marker is None else marker

    def _stop(self, section: str) -> int:
        start = self.root.key_marks[section].line
        later = [mark.line - 1 for mark in self.root.key_marks.values() if mark.line > start]
        return min([*later, self._whole()])

    def _end(self, section: str, indent: int) -> int:
        return self._block_end(self.root.key_marks[section].line - 1, self._stop(section), indent)

    def _block_end(self, start: int, stop: int, indent: int) -> int:
        if not self.to_the_end:
            return end_of_block(self.bare, start, stop, indent)
        while stop > start + 1 and self.bare[stop - 1].lstrip().startswith(OURS):
            stop -= 1
        return stop
