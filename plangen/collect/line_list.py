"""What a line list says of a plan: attempts by the codes on its sheets, what was found beside them, remarks for all the rest."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import groupby

from plangen.collect.form_content import Said
from plangen.collect.list_answers import answer_to
from plangen.collect.list_lines import Head, LineList, ListLine, head_of, heads
from plangen.findings.days import day_of
from plangen.findings.model import AlsoFound, Attempt, Typed
from plangen.packs.grades import GRADES, Grade
from plangen.plan.model import Expectation, Plan, PlannedCheck

_GRADES: Mapping[str, Grade] = {
    **dict(zip(GRADES, GRADES, strict=True)),
    **{grade.replace("-", " "): grade for grade in GRADES},
    "by an agreed date": "by-date",
    "by a date": "by-date",
    "handover": "before-handover",
}


@dataclass(frozen=True)
class ListSaid:
    """What a line list says, one part for each person and day, and whether its codes are those of the plan.

    `others` are the digests of other plans that it names; `assumed` says that it names none for its codes.
    """

    parts: tuple[Said, ...]
    others: tuple[str, ...]
    assumed: bool
    is_retest: bool


@dataclass
class _Gathered:
    """What the lines of one person and day say of one check."""

    found: dict[str, Typed] = field(default_factory=dict)
    notes: list[str] = field(default_factory=list)
    photos: list[str] = field(default_factory=list)


@dataclass
class _Part:
    """What one person's lines of one day say so far."""

    checks: dict[str, _Gathered] = field(default_factory=dict)
    answers: dict[str, tuple[str, str]] = field(default_factory=dict)
    also_found: list[AlsoFound] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)


def list_said(typed: LineList, plan: Plan) -> ListSaid:
    """Return what a line list says of a plan; every line is an attempt, something also found, or a remark."""
    by_line, of_the_head = heads(typed.lines)
    codes = _codes(plan)
    rows = [
        (head, line)
        for index, (head, line) in enumerate(zip(by_line, typed.lines, strict=True))
        if index not in of_the_head
    ]
    others = dict.fromkeys(head.plan for head, line in rows if line.code and not _is_of(head, plan))
    parts = []
    for head, group in groupby(rows, key=lambda row: Head(row[0].by, row[0].day)):
        part = _Part()
        for own, line in group:
            _take(part, own, line, typed.name, plan, codes)
        parts.append(_said(part, head))
    unused = _unused(typed, of_the_head, parts, plan)
    if unused:
        parts.append(Said({}, {}, {}, unused, ()))
    return ListSaid(
        tuple(parts),
        tuple(others),
        any(line.code and not head.plan for head, line in rows),
        any(head.is_retest for head in by_line),
    )


def _codes(plan: Plan) -> Mapping[str, tuple[PlannedCheck, Expectation | None]]:
    """Return check and reading by code; that of a check with one reading means this reading, with its letter too."""
    found: dict[str, tuple[PlannedCheck, Expectation | None]] = {}
    for check in plan.checks:
        if not check.code:
            continue
        alone = check.expect[0] if len(check.expect) == 1 else None
        found[check.code] = (check, alone)
        if alone is not None:
            found[f"{check.code}a"] = (check, alone)
        found.update({one.code: (check, one) for one in check.expect if one.code})
    return found


def _unused(typed: LineList, of_the_head: set[int], parts: Sequence[Said], plan: Plan) -> tuple[str, ...]:
    """Return the header's lines of which something stands in no attempt: a name or a day without lines, another plan."""
    told = [
        (one.by, one.when)
        for part in parts
        for own in (part.attempts.values(), part.also_found)
        for one in own
    ]
    names, days = {by for by, _ in told}, {day for _, day in told}
    return tuple(
        f"{typed.name}, {typed.lines[index].where}: {typed.lines[index].text}"
        for index in sorted(of_the_head)
        if (head := head_of(typed.lines[index].text)) is not None
        and (
            (head.by and head.by not in names)
            or (head.day and day_of(head.day) not in days)
            or not _is_of(head, plan)
        )
    )


def _is_of(head: Head, plan: Plan) -> bool:
    return not head.plan or plan.digest.startswith(head.plan)


def _take(
    part: _Part,
    head: Head,
    line: ListLine,
    name: str,
    plan: Plan,
    codes: Mapping[str, tuple[PlannedCheck, Expectation | None]],
) -> None:
    """Add what one line says."""

    def kept(why: str = "") -> None:
        part.remarks.append(f"{name}, {line.where}: {line.text}")
        if why:
            part.faults.append(f"{line.where}: {line.text!r}: {why}; kept as a remark")

    if line.found:
        part.also_found.append(also_found(line.found, line.photos, line.note))
        return
    if not line.code:
        kept()
        return
    code = line.code.casefold()
    if not _is_of(head, plan):
        kept(f"a code of plan {head.plan[:8]}, while the folder's plan is {plan.short_digest}")
        return
    if code not in codes:
        kept(f"no code {line.code} in plan {plan.short_digest}")
        return
    if not (line.answer or line.note or line.photos):
        kept("nothing behind the code")
        return
    check, reading = codes[code]
    before = part.answers.setdefault(code, (line.where, line.answer)) if line.answer else None
    again = before is not None and before[0] != line.where
    if before is not None and again and before[1].casefold() != line.answer.casefold():
        kept(f"{line.code} stands in {before[0]} with {before[1]!r} already")
        return
    own = part.checks.setdefault(check.id, _Gathered())
    if line.answer and not again:
        answered = answer_to(check, reading, line.answer)
        clash = [id for id, value in answered.found.items() if own.found.get(id, value) != value]
        if clash:
            kept(f"another line says something else of {', '.join(clash)}")
            return
        own.found |= answered.found
        own.notes += answered.notes
        if answered.fault:
            part.faults.append(f"{line.where}: {answered.fault}")
    own.notes += [line.note] if line.note else []
    own.photos += line.photos


def also_found(text: str, photos: Sequence[str], note: str = "") -> AlsoFound:
    """Return what was found beside all checks: what, then where in her, and how grave it is, parted by commas.

    >>> also_found("cracked stanchion base, port, cockpit, stop", ("3",)).place
    'port, cockpit'
    """
    what, *others = [part for part in re.split(r"\s*[,;]\s+|\s*;\s*", text.strip(" ,;")) if part] or [text]
    graded = [part for part in others if part.casefold().rstrip(".!") in _GRADES]
    places = [part for part in others if part not in graded[:1]]
    return AlsoFound(
        what=what,
        place=", ".join(places) or None,
        grade=_GRADES[graded[0].casefold().rstrip(".!")] if graded else None,
        photos=tuple(photos),
        note=note or None,
    )


def _said(part: _Part, head: Head) -> Said:
    day = day_of(head.day) if head.day else None
    attempts = {
        id: Attempt(
            found=own.found,
            by=head.by or None,
            when=day,
            note="; ".join(dict.fromkeys(own.notes)) or None,
            photos=tuple(dict.fromkeys(own.photos)),
        )
        for id, own in part.checks.items()
    }
    found = tuple(one.model_copy(update={"by": head.by or None, "when": day}) for one in part.also_found)
    return Said(attempts, {}, {}, tuple(part.remarks), tuple(part.faults), found)
