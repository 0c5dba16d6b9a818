"""How far each stage has come: released, complete, open or closed, and why."""

from __future__ import annotations

import datetime
from collections.abc import Sequence

from plangen.assess.model import CheckVerdict, Snag, StageState, StageStatus
from plangen.findings.model import NOBODY, Attempt, Findings, StageRecord
from plangen.plan.model import Plan, PlannedStage

_FAILING = ("fail", "leaning-fail")
_UNDECIDED = ("leaning-pass", "unclear", "limited")


def stages_of(
    plan: Plan, findings: Findings, checks: Sequence[CheckVerdict], snags: Sequence[Snag]
) -> tuple[StageStatus, ...]:
    """Return where each stage stands, in their order.

    A stage with a hold point that isn't released closes all later ones. What was recorded in a stage while it was
    closed, or dated before the release that opened it, counts like any other result, and is named.
    """
    open_snags = {snag.check for snag in snags if snag.state in ("open", "disputed")}
    found: list[StageStatus] = []
    closed_by: PlannedStage | None = None
    opened: datetime.date | None = None
    for stage in plan.stages:
        record = findings.stages.get(stage.id, StageRecord())
        own = [check for check in checks if check.stage == stage.id]
        found.append(_status(stage, record, own, open_snags, findings, closed_by, opened))
        if stage.hold and closed_by is None:
            if record.released is None:
                closed_by = stage
            else:
                opened = max(opened or record.released, record.released)
    return tuple(found)


def _status(
    stage: PlannedStage,
    record: StageRecord,
    checks: Sequence[CheckVerdict],
    open_snags: set[str],
    findings: Findings,
    closed_by: PlannedStage | None,
    opened: datetime.date | None,
) -> StageStatus:
    to_do = tuple(check.id for check in checks if check.verdict == "not-done")
    failed = tuple(check.id for check in checks if check.verdict in _FAILING and check.id in open_snags)
    undecided = tuple(check.id for check in checks if check.verdict in _UNDECIDED)
    left = _left(len(checks), to_do, failed, undecided)
    state: StageState
    if closed_by is not None:
        state, why = "closed", f"until {closed_by.hold} releases {closed_by.title}"
        why += f"; its own release of {record.released} doesn't count before that" if record.released else ""
    elif stage.hold and record.released is not None:
        state, why = "released", f"{record.released} by {record.by or 'nobody named'} ({stage.hold})"
        why += f", though {left}" if left else ""
    elif stage.hold:
        state, why = "open", f"{left or 'all done'}; not yet released by {stage.hold}"
    else:
        state, why = ("open", left) if left else ("complete", "all done")
    return StageStatus(
        id=stage.id,
        title=stage.title,
        hold=stage.hold,
        witness=stage.witness,
        state=state,
        why=why,
        checks=len(checks),
        to_do=to_do,
        failed=failed,
        undecided=undecided,
        released=str(record.released) if record.released else None,
        by=record.by,
        invited=record.witness.invited,
        came=record.witness.came,
        witnessed=_witnessed(stage, record),
        early=tuple(
            check.id for check in checks if _early(findings.attempts(check.id), closed_by is not None, opened)
        ),
        note=record.note,
    )


def _left(many: int, to_do: Sequence[str], failed: Sequence[str], undecided: Sequence[str]) -> str:
    parts = ((to_do, "to do"), (failed, "failed"), (undecided, "undecided"))
    said = [f"{len(ids)} {words}" for ids, words in parts if ids]
    return f"{', '.join(said)}, of {many} checks" if said else ""


def _early(attempts: Sequence[Attempt], closed: bool, opened: datetime.date | None) -> bool:
    """Tell whether anything was recorded while the stage was closed."""
    dated = [attempt.when for attempt in attempts if attempt.when is not None]
    return (closed and bool(attempts)) or (opened is not None and any(day < opened for day in dated))


def _witnessed(stage: PlannedStage, record: StageRecord) -> str:
    if not stage.witness:
        return ""
    invited, came = record.witness.invited, record.witness.came
    if invited is None and came is None:
        return f"{stage.witness}: nobody is noted as invited"
    said = f"{stage.witness}: invited {invited}" if invited else f"{stage.witness}: no invitation noted"
    if came is None:
        return f"{said}; whether anybody came isn't noted"
    return f"{said}; nobody came, so work may go on" if came == NOBODY else f"{said}; came: {came}"
