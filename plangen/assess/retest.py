"""The retest: what failed, what is undecided, and what was good but counts no more because of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from plangen.assess.model import Assessment, CheckVerdict, ReadingVerdict, Snag
from plangen.plan.model import Plan, PlannedCheck

_FAILING = ("fail", "leaning-fail")
_UNDECIDED = ("leaning-pass", "unclear", "limited")
_NOT_READ = ("not-done", "not-recorded")
#: Readings that say nothing on their own: those that the conditions of the trial decide.
_CONDITIONS = ("met", "not-met", "not-recorded")

Why = Literal["failed", "undecided", "depends"]


@dataclass(frozen=True)
class Again:
    """A check to be done again: why, which of its readings, what was found last time, and how often it was tried.

    `because` are the checks whose mend may have changed what was found; `number` is that of its snag.
    """

    check: PlannedCheck
    why: Why
    readings: tuple[str, ...]
    last: CheckVerdict
    tried: int
    number: int | None = None
    because: tuple[str, ...] = ()


@dataclass(frozen=True)
class Retest:
    """What is to be done again, in the plan's order, and how many snags there were and were settled."""

    again: tuple[Again, ...]
    snags: int
    settled: int


def retest_of(plan: Plan, assessment: Assessment) -> Retest:
    """Return what is to be done again.

    A snag that is mended or settled as it is isn't part of it, nor what wasn't done yet. What was good is done again
    where it works on the same item as something that failed, and comes after it, or looks where a repeated check
    makes wet, or where a figure is worked out of both.
    """
    judged = {check.id: check for check in assessment.checks}
    snags = {snag.check: snag for snag in assessment.snags if snag.in_plan}
    open_snags = {id for id, snag in snags.items() if snag.state in ("open", "disputed")}
    settled = {id for id, snag in snags.items() if snag.state == "accepted"}
    undecided = {id for id, check in judged.items() if check.verdict in _UNDECIDED and id not in settled}
    again = {check.id: check for check in plan.checks if check.id in open_snags or check.id in undecided}
    because = _depending(plan, again, judged)
    found = []
    for check in plan.checks:
        if check.id not in again and check.id not in because:
            continue
        last = judged[check.id]
        why: Why = "failed" if check.id in open_snags else "undecided" if check.id in again else "depends"
        found.append(
            Again(
                check,
                why,
                _every(check) if why == "depends" else _wanted(check, last),
                last,
                last.attempts[-1].attempt if last.attempts else 0,
                snags[check.id].number if check.id in open_snags else None,
                because.get(check.id, ()),
            )
        )
    done = sum(snag.state in ("mended", "accepted") for snag in assessment.snags)
    return Retest(tuple(found), len(assessment.snags), done)


def found_beside(assessment: Assessment) -> tuple[Snag, ...]:
    """Return the open snags that belong to no check, which somebody has to see mended."""
    beside = {check.id for check in assessment.also_found}
    return tuple(
        snag for snag in assessment.snags if snag.check in beside and snag.state in ("open", "disputed")
    )


def _depending(
    plan: Plan, again: Mapping[str, PlannedCheck], judged: Mapping[str, CheckVerdict]
) -> dict[str, tuple[str, ...]]:
    """Return what was done and counts no more, with the checks because of which."""
    failed = {id for id, check in again.items() if judged[id].verdict in _FAILING}
    wet = {check.wets for check in again.values() if check.wets}
    found: dict[str, tuple[str, ...]] = {}
    for check in plan.checks:
        if check.id in again or judged[check.id].verdict == "not-done":
            continue
        named = [id for id in check.after if id in failed and again[id].item == check.item]
        if check.looks_after_wet is not None and wet & set(check.looks_after_wet or wet):
            named += [id for id in check.after if id in again and again[id].wets]
        fed = {
            place.check for figure in check.derive for places in figure.readings.values() for place in places
        }
        named += [id for id in fed if id in failed]
        if named:
            found[check.id] = tuple(id for id in again if id in set(named))
    return found


def _every(check: PlannedCheck) -> tuple[str, ...]:
    return tuple(expected.id for expected in check.expect)


def _wanted(check: PlannedCheck, last: CheckVerdict) -> tuple[str, ...]:
    """Return the readings that were bad, undecided or left blank, and the conditions under which they count.

    All of them where two people disagree, where nothing is known of the last time, or where what was bad was worked out.
    """
    readings = {reading.id: reading for reading in last.attempts[-1].readings} if last.attempts else {}
    bad = {id for id, reading in readings.items() if _is_open(reading)}
    worked_out = any(readings[id].reason.startswith("worked out") for id in bad)
    if last.disagreement or not bad or worked_out:
        return _every(check)
    needed = {one for expected in check.expect if expected.id in bad for one in expected.valid_if}
    return tuple(expected.id for expected in check.expect if expected.id in bad | needed)


def _is_open(reading: ReadingVerdict) -> bool:
    return reading.verdict in (*_FAILING, *_UNDECIDED, *_NOT_READ) and reading.verdict not in _CONDITIONS
