"""The retest: what failed or wasn't decided, and the checks that came right after it."""

from __future__ import annotations

from collections import Counter

from plangen.assess.model import Assessment
from plangen.plan.model import Plan
from plangen.plan.summary import settings_of, summary_of

_AGAIN = ("fail", "leaning-fail", "leaning-pass", "unclear", "limited")


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
    settings = {line.setting: line.title for line in plan.settings}
    systems = {line.system: line.title for line in plan.summary}
    return plan.model_copy(
        update={
            "checks": chosen,
            "settings": settings_of(chosen, settings),
            "rounds": tuple(
                one.model_copy(update={"checks": again_here})
                for one in plan.rounds
                if (again_here := tuple(id for id in one.checks if id in again | following))
            ),
            "sessions": (),
            "left_out": (),
            "outside_scope": (),
            "summary": summary_of(chosen, systems),
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
