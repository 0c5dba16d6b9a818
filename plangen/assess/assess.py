"""Assessing findings against a plan: a pure function of the two."""

from __future__ import annotations

from collections.abc import Sequence

from plangen.assess.also_found import judge_also_found
from plangen.assess.bench import bench_of
from plangen.assess.checks import judge_checks, judge_gone
from plangen.assess.derived import derive
from plangen.assess.derived.fill import with_figures
from plangen.assess.gear import gear_still_open
from plangen.assess.handover import DECIDING, handover_of
from plangen.assess.instruments import instruments_used
from plangen.assess.model import Assessment, CheckVerdict, Recorded, SystemCount
from plangen.assess.money import money_of, price_reductions, sums_held_back
from plangen.assess.recommendations import recommendations_of, survey_line
from plangen.assess.snags import snags_of
from plangen.assess.stages import stages_of
from plangen.findings.also import also_found_ids
from plangen.findings.model import Findings
from plangen.findings.register import Register
from plangen.plan.model import Plan

#: The system under which results are counted that the plan doesn't ask for any more.
GONE = "gone"


def assess_findings(plan: Plan, findings: Findings, register: Register | None = None) -> Assessment:
    """Return verdicts, derived figures, the snag list and whether handover is advisable.

    An instrument of the register is judged by its own accuracy.
    """
    bench = bench_of(plan, findings, register)
    judged = judge_checks(plan, findings, bench)
    derived = derive(plan, judged)
    checks = with_figures(judged, derived)
    gone = judge_gone(findings, bench)
    also_found = judge_also_found(findings)
    snags = snags_of((*checks, *gone, *also_found), {**findings.snags, **also_found_ids(findings)})
    settled = {id for id, one in findings.snags.items() if one.settlement not in (None, "disputed")}
    recommendations = (
        recommendations_of(
            snags, (*checks, *gone), {**findings.snags, **also_found_ids(findings)}, plan.house
        )
        if plan.purpose == "survey"
        else ()
    )
    handover = handover_of(
        snags,
        (*checks, *(check for check in gone if check.id not in settled)),
        sum(one.grade in DECIDING for one in plan.left_out),
    )
    if plan.purpose == "survey":
        line = survey_line(recommendations, handover.not_done, handover.deciding)
        handover = handover.model_copy(update={"line": line})
    return Assessment(
        boat=plan.boat.name,
        plan=plan.digest,
        vessel=plan.boat,
        handover=handover,
        summary=_summary(plan, checks, gone),
        stages=stages_of(plan, findings, checks, snags),
        checks=checks,
        gone=gone,
        also_found=also_found,
        derived=derived,
        snags=snags,
        sums_held_back=sums_held_back(snags),
        price_reductions=price_reductions(snags),
        money=money_of(snags, plan.boat.holdback),
        recorded=_recorded(plan, checks),
        gear=gear_still_open(plan.gear, checks),
        instruments=instruments_used((*checks, *gone), bench.register),
        not_done=tuple(check.id for check in checks if check.verdict == "not-done"),
        settled_apart=tuple(findings.snags_apart),
        remarks=findings.remarks,
        recommendations=recommendations,
        survey=findings.survey,
    )


def _summary(
    plan: Plan, checks: Sequence[CheckVerdict], gone: Sequence[CheckVerdict]
) -> tuple[SystemCount, ...]:
    lines = [
        _count(line.system, line.title, [check for check in checks if check.system == line.system])
        for line in plan.summary
    ]
    return (*lines, _count(GONE, "No longer in the plan", gone)) if gone else tuple(lines)


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
        limited=many("limited"),
        does_not_apply=many("does-not-apply"),
    )


def _recorded(plan: Plan, checks: Sequence[CheckVerdict]) -> tuple[Recorded, ...]:
    identities = {
        (check.id, e.id)
        for check in plan.checks
        for e in check.expect
        if e.record is not None and not e.series
    }
    return tuple(
        Recorded(check=check.id, id=reading.id, item=check.item, reading=reading.reading, found=reading.found)
        for check in checks
        for attempt in check.attempts[-1:]
        for reading in attempt.readings
        if (check.id, reading.id) in identities and reading.found
    )
