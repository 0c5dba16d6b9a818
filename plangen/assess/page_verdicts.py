"""Verdicts that a field page showed while it was filled in, held against those of the assessment."""

from __future__ import annotations

from plangen.assess.bench import bench_of
from plangen.assess.checks import judge_checks
from plangen.collect.field_export import ExportedReading, FieldExport
from plangen.findings.model import Attempt, Findings, Typed
from plangen.findings.register import Register
from plangen.findings.scalar import number_or_text
from plangen.plan.model import Plan


def shown_otherwise(plan: Plan, export: FieldExport) -> tuple[str, ...]:
    """Name the readings of which the page said something else than the assessment says of the same value.

    Both go by the accuracies that the plan names. A page of another version of the plan isn't compared.
    """
    if export.digest != plan.digest:
        return ()
    shown = {(one.check, one.reading): one for one in export.readings if one.shown}
    checks: dict[str, tuple[Attempt, ...]] = {}
    for id in dict.fromkeys(check for check, _ in shown):
        own = [one for one in shown.values() if one.check == id]
        used = {one.reading: one.used for one in own if one.used}
        found = {one.reading: _typed(one) for one in own}
        checks[id] = (Attempt.model_validate({"found": found, "with": used}),)
    part = plan.model_copy(update={"checks": tuple(check for check in plan.checks if check.id in checks)})
    findings = Findings(boat=plan.boat.name, plan=plan.digest, units=export.units, checks=checks)
    said = []
    for check in judge_checks(part, findings, bench_of(part, findings, Register())):
        for reading in check.attempts[-1].readings if check.attempts else ():
            one = shown.get((check.id, reading.id))
            if one is not None and one.shown != reading.verdict:
                said.append(
                    f"{check.id}: {reading.reading}: {one.shown} there, {reading.verdict} here, of {reading.found}"
                )
    return tuple(said)


def _typed(one: ExportedReading) -> Typed:
    if isinstance(one.typed, tuple):
        return [None if point is None else number_or_text(point) for point in one.typed]
    return number_or_text(one.typed)
