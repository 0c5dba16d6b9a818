"""What became of the issues that a hull is drafted from since she was drafted last."""

from __future__ import annotations

from plangen.plan.model import Plan


def changed_in_place(before: Plan, after: Plan) -> tuple[str, ...]:
    """Return the issues that don't say any more what the hull was drafted from, though their number is the same."""
    old = {(one.spec, one.issue): one for one in before.boat.drafted_from}
    return tuple(
        one.words
        for one in after.boat.drafted_from
        if (one.spec, one.issue) in old and old[one.spec, one.issue].content != one.content
    )


def other_issues(before: Plan, after: Plan) -> tuple[str, ...]:
    """Say of which specs a hull is drafted from another issue than before."""
    old = {one.spec: one for one in before.boat.drafted_from}
    return tuple(
        f"{one.words}, from issue {old[one.spec].issue} before"
        for one in after.boat.drafted_from
        if one.spec in old and old[one.spec].issue != one.issue
    )
