"""The retest: what failed or wasn't decided, and the checks that came right after it."""

from __future__ import annotations

from collections import Counter
from itertools import groupby

from plangen.assess.model import Assessment
from plangen.plan.model import Plan, SettingSummary, SystemSummary

_AGAIN = ("fail", "leaning-fail", "leaning-pass", "unclear")


def retest_plan(plan: Plan, assessment: Assessment) -> Plan:
    """Return the part of a plan that has to be done again, in the plan's order.

    A check that names a failed one as what must come first is repeated with it: the repair may have changed
    what it found. What wasn't done yet isn't part of a retest.
    """
    again = {check.id for check in assessment.checks if check.verdict in _AGAIN}
    done = {check.id for check in assessment.checks if check.verdict != "not-done"}
    following = {check.id for check in plan.checks if set(check.after) & again and check.id in done}
    chosen = tuple(check for check in plan.checks if check.id in again | following)
    needed = Counter(name for check in chosen for name in check.instruments)
    titles = {line.setting: line.title for line in plan.settings}
    settings = []
    for setting, group in groupby(chosen, key=lambda check: check.setting):
        own = list(group)
        settings.append(
            SettingSummary(
                setting=setting,
                title=titles[setting],
                checks=len(own),
                minutes=round(sum(c.minutes for c in own), 1),
            )
        )
    summary = []
    for line in plan.summary:
        of_system = [check for check in chosen if check.system == line.system]
        if of_system:
            measured = sum(any(e.numeric for e in check.expect) for check in of_system)
            minutes = round(sum(check.minutes for check in of_system), 1)
            summary.append(
                SystemSummary(
                    system=line.system,
                    title=line.title,
                    checks=len(of_system),
                    measured=measured,
                    minutes=minutes,
                )
            )
    return plan.model_copy(
        update={
            "checks": chosen,
            "settings": tuple(settings),
            "rounds": tuple(
                one.model_copy(update={"checks": again_here})
                for one in plan.rounds
                if (again_here := tuple(id for id in one.checks if id in again | following))
            ),
            "sessions": (),
            "left_out": (),
            "outside_scope": (),
            "summary": tuple(summary),
            "kit": tuple(
                item.model_copy(update={"checks": needed[item.id]}) for item in plan.kit if needed[item.id]
            ),
            "gear": (),
            "law": (),
            "stores": (),
            "questions": (),
            "assumed": (),
        }
    )
