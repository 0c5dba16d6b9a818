"""Verdicts on whole checks: the last attempt decides, and nothing of the earlier ones is lost."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence

from plangen.assess.model import AttemptVerdict, CheckVerdict, ReadingVerdict, Verdict
from plangen.assess.verdicts import judge_reading, worst
from plangen.collect.reconcile import Asked, same
from plangen.findings.model import Attempt, Findings
from plangen.findings.parse_reading import as_printed
from plangen.plan.model import KitItem, Plan, PlannedCheck


def judge_checks(plan: Plan, findings: Findings) -> tuple[CheckVerdict, ...]:
    """Return the verdict on every check of the plan, in its order."""
    kit = {item.id: item for item in plan.kit}
    day = datetime.date.fromisoformat(plan.boat.trial_date) if plan.boat.trial_date else None
    return tuple(_judge(check, findings, kit, day, plan.units) for check in plan.checks)


def _judge(
    check: PlannedCheck, findings: Findings, kit: Mapping[str, KitItem], day: datetime.date | None, units: str
) -> CheckVerdict:
    attempts = findings.checks.get(check.id, ())
    judged = tuple(
        _judge_attempt(number, _joined(number, attempts), check, kit, day, units)
        for number, attempt in enumerate(attempts, start=1)
        if not attempt.is_blank
    )
    disagreement = _disagreement(judged, attempts, check, units)
    return CheckVerdict(
        id=check.id,
        title=check.title,
        item=check.item,
        system=check.system,
        setting=check.setting,
        grade=check.grade,
        verdict="unclear" if disagreement else judged[-1].verdict if judged else "not-done",
        attempts=judged,
        second_look=check.id in findings.second_look,
        disagreement=disagreement,
    )


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
    number: int,
    attempt: Attempt,
    check: PlannedCheck,
    kit: Mapping[str, KitItem],
    day: datetime.date | None,
    units: str,
) -> AttemptVerdict:
    readings: tuple[ReadingVerdict, ...] = ()
    if attempt.does_not_apply is not None:
        verdict: Verdict = "does-not-apply"
    else:
        readings = tuple(
            judge_reading(
                expected,
                as_printed(attempt.found.get(expected.reading), expected.unit, units),
                attempt.with_.get(expected.reading),
                kit,
                day,
            )
            for expected in check.expect
        )
        verdict = worst([reading.verdict for reading in readings])
    return AttemptVerdict(
        attempt=number,
        verdict=verdict,
        by=attempt.by,
        when=str(attempt.when) if attempt.when else None,
        note=attempt.note or attempt.does_not_apply,
        photos=attempt.photos,
        readings=readings,
    )


def _disagreement(
    judged: tuple[AttemptVerdict, ...], attempts: tuple[Attempt, ...], check: PlannedCheck, units: str
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
    asked = {expected.reading: Asked(expected, units) for expected in check.expect}
    differing = [
        name for name in mine if name in theirs and not same(mine[name], theirs[name], asked.get(name))
    ]
    if not differing:
        return None
    said = "; ".join(
        f"{name}: {theirs[name]} ({other.by or 'one'}) or {mine[name]} ({last.by or 'another'})"
        for name in differing
    )
    return f"two people found different things: {said}; ask them and read again"
