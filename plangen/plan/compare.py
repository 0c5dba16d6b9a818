"""Two plans side by side: checks added, gone, and what differs in the others, each difference said once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher

from plangen.plan.model import Expectation, Plan, PlannedCheck

#: Words that are shown beside those that differ, on each side.
_CONTEXT = 4


@dataclass(frozen=True)
class Difference:
    """One thing that differs: a reading, a step, a caution; without `before` it is new, without `after` it is gone."""

    what: str
    before: str = ""
    after: str = ""


@dataclass(frozen=True)
class Change:
    """What differs in the checks of one rule: more than one where it is the same in all of them."""

    checks: tuple[str, ...]
    title: str
    differences: tuple[Difference, ...]


@dataclass(frozen=True)
class Comparison:
    """What differs from one plan to another; `left_out` says why a check that is gone isn't done, or wasn't before."""

    added: tuple[PlannedCheck, ...]
    gone: tuple[PlannedCheck, ...]
    changed: tuple[Change, ...]
    left_out: dict[str, str]

    @property
    def is_empty(self) -> bool:
        """Tell whether the plans have the same checks, alike in all that is said of them."""
        return not (self.added or self.gone or self.changed)

    @property
    def changed_checks(self) -> int:
        """Return in how many checks something differs."""
        return sum(len(change.checks) for change in self.changed)


def compare(before: Plan, after: Plan) -> Comparison:
    """Compare two plans check by check; ids tell which checks are the same."""
    old = {check.id: check for check in before.checks}
    new = {check.id: check for check in after.checks}
    alike: dict[tuple[str, tuple[Difference, ...]], list[str]] = {}
    for id, check in new.items():
        if id in old and (found := tuple(_differences(old[id], check))):
            alike.setdefault((check.rule, found), []).append(id)
    left_out = {one.check: one.why for plan in (before, after) for one in plan.left_out}
    return Comparison(
        added=tuple(check for id, check in new.items() if id not in old),
        gone=tuple(check for id, check in old.items() if id not in new),
        changed=tuple(Change(tuple(ids), new[ids[0]].title, found) for (_, found), ids in alike.items()),
        left_out={id: why for id, why in left_out.items() if (id in old) != (id in new)},
    )


def _differences(old: PlannedCheck, new: PlannedCheck) -> Iterator[Difference]:
    plain = (
        ("title", old.title, new.title), ("on the sheet", old.do, new.do), ("protects", old.protects, new.protects),
        ("grade", old.grade, new.grade), ("priority", str(old.priority), str(new.priority)), ("setting", old.setting, new.setting),
        ("place", old.zone, new.zone), ("people", str(old.people), str(new.people)), ("minutes", f"{old.minutes:g}", f"{new.minutes:g}"),
        ("watch out", old.watch_out, new.watch_out),
    )  # fmt: skip
    for what, one, other in plain:
        if one != other:
            yield _shortened(what, one or "", other or "")
    yield from _readings(old.expect, new.expect)
    yield from _texts("step", old.procedure, new.procedure)
    yield from _texts("for her age", old.used_boat, new.used_boat)
    for what, ones, others in (
        ("instrument", old.instruments, new.instruments),
        ("caution", old.cautions, new.cautions),
        ("needs", old.needs, new.needs),
    ):
        yield from (Difference(what, before=one) for one in ones if one not in others)
        yield from (Difference(what, after=one) for one in others if one not in ones)


def _readings(old: Sequence[Expectation], new: Sequence[Expectation]) -> Iterator[Difference]:
    """Yield one difference for each reading: its words and what is expected, or else what is said beside it."""
    before, after = ({one.id: one for one in readings} for readings in (old, new))
    for id, one in after.items():
        if id not in before:
            yield Difference("reading", after=f"{one.reading}: {one.shown}")
        elif before[id].reading != one.reading:
            yield Difference(
                "reading", f"{before[id].reading}: {before[id].shown}", f"{one.reading}: {one.shown}"
            )
        elif (told := _expected(before[id], one)) != (expected := _expected(one, before[id])):
            yield Difference(one.reading, told, expected)
        elif before[id].basis != one.basis:
            yield Difference(f"{one.reading}, basis", before[id].basis, one.basis)
        elif before[id].note != one.note:
            yield _shortened(f"{one.reading}, note", before[id].note or "", one.note or "")
    yield from (
        Difference("reading", before=f"{one.reading}: {one.shown}")
        for id, one in before.items()
        if id not in after
    )


def _expected(one: Expectation, other: Expectation) -> str:
    """Return what is expected, with its parts and the conditions of the trial where the other's differ."""
    parts = f" of {', '.join(one.parts) or 'no parts'}" if one.parts != other.parts else ""
    only = f", valid if {' and '.join(one.valid_if) or 'always'}" if one.valid_if != other.valid_if else ""
    return f"{one.shown}{parts}{only}"


def _texts(what: str, old: Sequence[str], new: Sequence[str]) -> Iterator[Difference]:
    for kind, a, b, c, d in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        if kind == "equal":
            continue
        for place in range(max(b - a, d - c)):
            one = old[a + place] if a + place < b else ""
            other = new[c + place] if c + place < d else ""
            yield _shortened(what, one, other)


def _shortened(what: str, before: str, after: str) -> Difference:
    """Return the difference of two texts with only a few of the words that both begin and end with."""
    one, other = before.split(), after.split()
    if not one or not other:
        return Difference(what, before, after)
    least = min(len(one), len(other))
    first = next((n for n in range(least) if one[n] != other[n]), least)
    last = next((n for n in range(least - first) if one[-1 - n] != other[-1 - n]), least - first)
    start, end = max(0, first - _CONTEXT), max(0, last - _CONTEXT)

    def cut(words: list[str]) -> str:
        kept = words[start : len(words) - end]
        return " ".join([*(["…"] if start else []), *kept, *(["…"] if end else [])])

    return Difference(what, cut(one), cut(other))
