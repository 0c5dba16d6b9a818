"""What was found, system by system: each check that was done, as a few words; and what wasn't done."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence, Set
from dataclasses import dataclass

from plangen.assess.model import Assessment, AttemptVerdict, CheckVerdict, ReadingVerdict
from plangen.findings.parse_reading import typed_answer
from plangen.plan.model import Plan
from plangen.print.report.wording import BAD, CLOSE, fact_of, found_text

#: So many checks that nobody began are all named.
_FEW = 60


@dataclass(frozen=True)
class Said:
    """One reading in words; `expected` only where it says more than the reading."""

    reading: str
    found: str
    expected: str
    verdict: str
    warning: str = ""


@dataclass(frozen=True)
class Look:
    """One attempt at a check: who and when, what was read, and what was remarked."""

    attempt: AttemptVerdict
    taken: str
    said: tuple[Said, ...]


@dataclass(frozen=True)
class CheckFound:
    """A check in which something was typed."""

    check: CheckVerdict
    looks: tuple[Look, ...]


@dataclass(frozen=True)
class SystemFound:
    """What was found in one system, in the plan's order."""

    title: str
    checks: tuple[CheckFound, ...]


@dataclass(frozen=True)
class Undone:
    """The checks of one system that nobody began: those of grade stop by name, the others counted."""

    title: str
    named: tuple[str, ...]
    before_handover: int
    others: int


def systems_found(plan: Plan, assessment: Assessment) -> tuple[SystemFound, ...]:
    """Return what was found by system, then what belongs to none."""
    groups = [
        (line.title, [check for check in assessment.checks if check.system == line.system and check.attempts])
        for line in plan.summary
    ]
    groups.append(("No longer in the plan", list(assessment.gone)))
    groups.append(("Found beside the checks", list(assessment.also_found)))
    usually = usual(assessment)
    listed = {(one.check, one.id) for one in assessment.recorded}
    return tuple(
        SystemFound(title, _together([check_found(check, plan.units, usually, listed) for check in checks]))
        for title, checks in groups
        if checks
    )


def usual(assessment: Assessment) -> str:
    """Return by whom and when the most was found, which then needn't be said behind each check."""
    taken = Counter(
        words
        for check in (*assessment.checks, *assessment.gone, *assessment.also_found)
        for attempt in check.attempts
        if (words := _taken(attempt))
    )
    return max(taken, key=lambda words: (taken[words], words), default="")


def _taken(attempt: AttemptVerdict) -> str:
    return ", ".join(part for part in (attempt.by, attempt.when) if part)


def check_found(
    check: CheckVerdict, units: str, usually: str = "", listed: Set[tuple[str, str]] = frozenset()
) -> CheckFound:
    """Return a check with what was read in each attempt at it.

    What is good and was only ticked needs no words, nor does what the list of serial numbers and dates says.
    """
    own = {reading for id, reading in listed if id == check.id}
    return CheckFound(check, tuple(_look(attempt, units, usually, own) for attempt in check.attempts))


def _look(attempt: AttemptVerdict, units: str, usually: str, listed: Set[str]) -> Look:
    said = [
        _said(reading, units)
        for reading in attempt.readings
        if reading.verdict != "not-done"
        and reading.from_attempt is None
        and not (
            reading.verdict == "pass"
            and (_is_tick(reading) or reading.id in listed)
            and not reading.instrument_fault
        )
        and not (reading.verdict == "recorded" and reading.id in listed)
    ]
    taken = _taken(attempt)
    return Look(attempt, "" if taken == usually else taken, tuple(said))


def _is_tick(reading: ReadingVerdict) -> bool:
    return reading.expected.casefold() in ("yes", "no")


def _together(checks: Sequence[CheckFound]) -> tuple[CheckFound, ...]:
    """Put checks of one title together that were good and of which there is nothing to say but where."""
    alike: dict[tuple[str, str], list[CheckFound]] = {}
    for one in checks:
        if _is_plain(one):
            alike.setdefault((one.check.title, one.looks[0].taken), []).append(one)
    found: list[CheckFound] = []
    for one in checks:
        own = alike[one.check.title, one.looks[0].taken] if _is_plain(one) else [one]
        if own[0] is one:
            items = ", ".join(dict.fromkeys(other.check.item for other in own))
            found.append(CheckFound(one.check.model_copy(update={"item": items}), one.looks))
    return tuple(found)


def _is_plain(one: CheckFound) -> bool:
    (look, *more) = one.looks
    return (
        one.check.verdict == "pass"
        and not more
        and not look.said
        and not look.attempt.note
        and not look.attempt.photos
    )


def _said(reading: ReadingVerdict, units: str) -> Said:
    tick, warning = _is_tick(reading), reading.instrument_fault or ""
    found = found_text(reading, units)
    if tick and typed_answer(reading.found) is not None:
        found = "yes" if typed_answer(reading.found) else "no"
    numeric = reading.value is not None or bool(reading.points)
    contested = reading.verdict in (*BAD, *CLOSE)
    expected = "" if tick or not (numeric or contested) else reading.expected
    if reading.points and not contested:
        expected = ""
    if reading.points and contested:
        fact = fact_of(reading, units)
        return Said(reading.reading, fact.found, fact.should.partition(": ")[2], reading.verdict, warning)
    return Said(reading.reading, found or "–", expected, reading.verdict, warning)


def systems_undone(plan: Plan, assessment: Assessment) -> tuple[Undone, ...]:
    """Return what nobody began, by system; checks of one title are one entry with their items.

    Those of grade stop are named, and all of them where they are few.
    """
    few = sum(not check.attempts for check in assessment.checks) <= _FEW
    found = []
    for line in plan.summary:
        own = [check for check in assessment.checks if check.system == line.system and not check.attempts]
        grades = Counter(check.grade for check in own)
        if own:
            named = _titles([check for check in own if few or check.grade == "stop"])
            handover = 0 if few else grades["before-handover"]
            others = 0 if few else len(own) - grades["stop"] - handover
            found.append(Undone(line.title, named, handover, others))
    return tuple(found)


def _titles(checks: Sequence[CheckVerdict]) -> tuple[str, ...]:
    items: dict[str, list[str]] = {}
    for check in checks:
        items.setdefault(check.title, []).append("" if check.item == "boat" else check.item)
    return tuple(
        f"{title} ({', '.join(named)})" if (named := [one for one in own if one]) else title
        for title, own in items.items()
    )
