"""Verdicts on whole checks: the last attempt decides, and nothing of the earlier ones is lost."""

from __future__ import annotations

from collections.abc import Sequence

from plangen.assess.alternatives import one_suffices
from plangen.assess.bench import Bench
from plangen.assess.conditions import under_conditions
from plangen.assess.model import AttemptVerdict, CheckVerdict, ReadingVerdict, Verdict
from plangen.assess.reading import shown
from plangen.assess.verdicts import worst
from plangen.collect.reconcile import Asked, same
from plangen.findings.model import Attempt, Findings, Then
from plangen.plan.model import Expectation, Plan, PlannedCheck

_FAILING = ("fail", "leaning-fail")


def judge_checks(plan: Plan, findings: Findings, bench: Bench) -> tuple[CheckVerdict, ...]:
    """Return the verdict on every check of the plan, in its order."""
    return tuple(
        _judge(
            check,
            findings.checks.get(check.id, ()),
            findings,
            bench,
            findings.expected_then.get(check.id, ()),
        )
        for check in plan.checks
    )


def judge_gone(findings: Findings, bench: Bench) -> tuple[CheckVerdict, ...]:
    """Return the verdict on what was found for checks that the plan doesn't have any more.

    They are judged by what was expected then; where nobody knows that, they are unclear.
    """
    found = []
    for id, attempts in findings.apart.items():
        if not any(not attempt.is_blank for attempt in attempts):
            continue
        records = findings.expected_then.get(id, ())
        if records:
            verdict = _judge(records[-1].check, attempts, findings, bench, records[:-1])
            found.append(verdict.model_copy(update={"id": id, "in_plan": False}))
        else:
            found.append(_unknown(id, attempts))
    return tuple(found)


def _unknown(id: str, attempts: Sequence[Attempt]) -> CheckVerdict:
    excused = next(
        (attempt for attempt in reversed(attempts) if not attempt.is_blank), Attempt()
    ).does_not_apply
    verdict: Verdict = "does-not-apply" if excused is not None else "unclear"
    judged = tuple(
        _attempt_verdict(
            number, attempt, "does-not-apply" if attempt.does_not_apply is not None else "unclear", ()
        )
        for number, attempt in enumerate(attempts, start=1)
        if not attempt.is_blank
    )
    rule, _, item = id.partition("@")
    return CheckVerdict(
        id=id,
        title=rule.replace("-", " "),
        item=item.replace("-", " ") or "boat",
        system="",
        setting="",
        grade="before-handover",
        verdict=verdict,
        attempts=judged,
        in_plan=False,
        unasked=_unasked(attempts, ()),
    )


def _judge(
    check: PlannedCheck,
    attempts: Sequence[Attempt],
    findings: Findings,
    bench: Bench,
    records: Sequence[Then],
) -> CheckVerdict:
    judged = _kept(
        tuple(
            _judge_attempt(number, _joined(number, attempts), check, bench, _then(number, records))
            for number, attempt in enumerate(attempts, start=1)
            if not attempt.is_blank
        )
    )
    disagreement = _disagreement(judged, attempts, check, bench.units)
    known = {reading.id for attempt in judged for reading in attempt.readings}
    return CheckVerdict(
        id=check.id,
        title=check.title,
        item=check.item,
        system=check.system,
        setting=check.setting,
        stage=check.stage,
        grade=check.grade,
        verdict="unclear" if disagreement else _verdict(judged),
        attempts=judged,
        second_look=check.id in findings.second_look,
        disagreement=disagreement,
        unasked=_unasked(attempts, known),
    )


def _verdict(judged: Sequence[AttemptVerdict]) -> Verdict:
    """Return the verdict on a check: that of its last attempt, with what stands from those before."""
    if not judged:
        return "not-done"
    last = judged[-1]
    kept = any(reading.from_attempt is not None for reading in last.readings)
    return worst([reading.verdict for reading in last.readings]) if kept else last.verdict


def _kept(judged: tuple[AttemptVerdict, ...]) -> tuple[AttemptVerdict, ...]:
    """Return the attempts, each with the readings of those before it that it left blank.

    So a retest reads only what was bad. Conditions are of their own day. An attempt in which nothing was read keeps
    its own verdict: not done.
    """
    kept: list[AttemptVerdict] = []
    for attempt in judged:
        before = {reading.id: reading for reading in kept[-1].readings} if kept else {}
        readings = tuple(
            _from(before[reading.id], kept[-1].attempt)
            if reading.verdict == "not-done" and reading.id in before and before[reading.id].found
            else reading
            for reading in attempt.readings
        )
        read = any(one.found for one in attempt.readings)
        verdict = (
            worst([one.verdict for one in readings])
            if read and readings != attempt.readings
            else attempt.verdict
        )
        kept.append(attempt.model_copy(update={"readings": readings, "verdict": verdict}))
    return tuple(kept)


def _from(reading: ReadingVerdict, attempt: int) -> ReadingVerdict:
    return reading.model_copy(update={"from_attempt": reading.from_attempt or attempt})


def _unasked(attempts: Sequence[Attempt], known: Sequence[str] | set[str]) -> tuple[str, ...]:
    """Return what was typed for readings that nobody asks for."""
    return tuple(
        f"{name.replace('-', ' ')}: {shown(value)}"
        for attempt in attempts
        for name, value in attempt.values.items()
        if name not in known
    )


def _then(number: int, records: Sequence[Then]) -> Sequence[Expectation]:
    """Return what was expected otherwise when an attempt was made."""
    return next((one.check.expect for one in records if number <= one.attempts), ())


def _joined(number: int, attempts: Sequence[Attempt]) -> Attempt:
    """Return an attempt together with the one that it stands beside, whose readings it adds to."""
    attempt = attempts[number - 1]
    if attempt.beside is None or not 0 < attempt.beside < number:
        return attempt
    other = _joined(attempt.beside, attempts)
    return attempt.model_copy(
        update={"found": {**other.values, **attempt.values}, "with_": {**other.with_, **attempt.with_}}
    )


def _judge_attempt(
    number: int, attempt: Attempt, check: PlannedCheck, bench: Bench, then: Sequence[Expectation]
) -> AttemptVerdict:
    if attempt.does_not_apply is not None:
        return _attempt_verdict(number, attempt, "does-not-apply", ())
    today = {expected.id: expected for expected in check.expect}
    before = {expected.id: expected for expected in then}
    readings = [bench.reading(expected, attempt) for expected in check.expect]
    readings = [
        _with_then(reading, bench.reading(before[reading.id], attempt)) if reading.id in before else reading
        for reading in readings
    ]
    readings += [
        bench.reading(expected, attempt).model_copy(update={"asked": False, "reason": "no longer asked for"})
        for id, expected in before.items()
        if id not in today and id in attempt.values
    ]
    judged = one_suffices(under_conditions(readings, {**before, **today}), {**before, **today})
    return _attempt_verdict(number, attempt, worst([reading.verdict for reading in judged]), judged)


def _with_then(now: ReadingVerdict, then: ReadingVerdict) -> ReadingVerdict:
    """Return a verdict that doesn't make a fail of then into nothing: somebody has to look again."""
    if then.verdict not in _FAILING or now.verdict in (*_FAILING, "not-done"):
        return now
    reason = f"failed by what was expected when it was read ({then.expected}); today's limits let it pass; read it again"
    return now.model_copy(update={"verdict": "unclear", "reason": reason})


def _attempt_verdict(
    number: int, attempt: Attempt, verdict: Verdict, readings: Sequence[ReadingVerdict]
) -> AttemptVerdict:
    return AttemptVerdict(
        attempt=number,
        verdict=verdict,
        by=attempt.by,
        when=str(attempt.when) if attempt.when else None,
        note=attempt.note or attempt.does_not_apply,
        photos=attempt.photos,
        readings=tuple(readings),
    )


def _disagreement(
    judged: tuple[AttemptVerdict, ...], attempts: Sequence[Attempt], check: PlannedCheck, units: str
) -> str | None:
    """Say who disagrees where the last attempt stands beside another one of the same round."""
    if not judged:
        return None
    last = judged[-1]
    beside = attempts[last.attempt - 1].beside
    other = next((one for one in judged if one.attempt == beside), None)
    if other is None:
        return None
    mine, theirs = attempts[last.attempt - 1].values, attempts[other.attempt - 1].values
    asked = {expected.id: Asked(expected, units) for expected in check.expect}
    words = {expected.id: expected.reading for expected in check.expect}
    differing = [
        name for name in mine if name in theirs and not same(mine[name], theirs[name], asked.get(name))
    ]
    if not differing:
        return None
    said = "; ".join(
        f"{words.get(name, name)}: {theirs[name]} ({other.by or 'one'}) or {mine[name]} ({last.by or 'another'})"
        for name in differing
    )
    return f"two people found different things: {said}; ask them and read again"
