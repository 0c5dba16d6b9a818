"""Assessing findings against a plan: a pure function of the two."""

from __future__ import annotations

from collections.abc import Sequence

from plangen.assess.checks import judge_checks
from plangen.assess.derived import derive
from plangen.assess.derived.fill import with_figures
from plangen.assess.model import Assessment, CheckVerdict, Handover, Recorded, Snag, SystemCount
from plangen.assess.snags import forbids_handover, price_reductions, snags_of, sums_held_back
from plangen.findings.model import Findings
from plangen.plan.model import Plan


def assess_findings(plan: Plan, findings: Findings) -> Assessment:
    """Return verdicts, derived figures, the snag list and whether handover is advisable."""
    judged = judge_checks(plan, findings)
    derived = derive(plan, judged)
    checks = with_figures(judged, derived)
    snags = snags_of(checks, findings)
    return Assessment(
        boat=plan.boat.name,
        plan=plan.digest,
        handover=_handover(snags, checks),
        summary=_summary(plan, checks),
        checks=checks,
        derived=derived,
        snags=snags,
        sums_held_back=sums_held_back(snags),
        price_reductions=price_reductions(snags),
        recorded=_recorded(plan, checks),
        gear=tuple(line for line in plan.gear if line.shortfall or line.lapsed),
        not_done=tuple(check.id for check in checks if check.verdict == "not-done"),
        apart=tuple(findings.apart),
        remarks=findings.remarks,
    )


def _handover(snags: Sequence[Snag], checks: Sequence[CheckVerdict]) -> Handover:
    forbidding = tuple(snag.check for snag in snags if forbids_handover(snag))
    undecided = sum(check.verdict in ("leaning-pass", "leaning-fail", "unclear") for check in checks)
    waiting = sum(
        check.verdict == "not-done" and check.grade in ("stop", "before-handover") for check in checks
    )
    if forbidding:
        many = len(forbidding) != 1
        line = f"Handover is not advisable: {len(forbidding)} snag{'s' if many else ''} of grade stop or before handover {'are' if many else 'is'} open."
    else:
        line = "No open snag forbids handover."
    if waiting:
        line += f" {waiting} check{'s' if waiting != 1 else ''} of these grades {'are' if waiting != 1 else 'is'} not done."
    if undecided:
        line += f" {undecided} {'are' if undecided != 1 else 'is'} too close to call or unclear."
    return Handover(advisable=not forbidding, line=line, forbidding=forbidding)


def _summary(plan: Plan, checks: Sequence[CheckVerdict]) -> tuple[SystemCount, ...]:
    return tuple(
        _count(line.system, line.title, [check for check in checks if check.system == line.system])
        for line in plan.summary
    )


def _count(system: str, title: str, checks: Sequence[CheckVerdict]) -> SystemCount:
    def many(*verdicts: str) -> int:
        return sum(check.verdict in verdicts for check in checks)

    return SystemCount(
        system=system,
        title=title,
        checks=len(checks),
        done=len(checks) - many("not-done"),
        to_do=many("not-done"),
        passed=many("pass", "recorded"),
        failed=many("fail"),
        too_close=many("leaning-pass", "leaning-fail", "unclear"),
        does_not_apply=many("does-not-apply"),
    )


def _recorded(plan: Plan, checks: Sequence[CheckVerdict]) -> tuple[Recorded, ...]:
    identities = {
        (check.id, e.reading)
        for check in plan.checks
        for e in check.expect
        if e.record is not None and not e.series
    }
    return tuple(
        Recorded(check=check.id, item=check.item, reading=reading.reading, found=reading.found)
        for check in checks
        for attempt in check.attempts[-1:]
        for reading in attempt.readings
        if (check.id, reading.reading) in identities and reading.found
    )
