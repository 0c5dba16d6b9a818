"""What is outside the agreed scope, and the order of the checks that remain."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from plangen.packs.library import Library
from plangen.plan.day import OutsideScope
from plangen.plan.model import PlannedCheck
from plangen.schedule.wishes import Wishes


def outside_scope(
    checks: Sequence[PlannedCheck], wishes: Wishes, library: Library
) -> tuple[OutsideScope, ...]:
    """Return the checks that ask for something that isn't agreed."""
    found = []
    for check in checks:
        asked = (*check.asks_for, *library.settings[check.setting].asks_for)
        missing = next((name for name in asked if not wishes.agreed.get(name, True)), None)
        if missing is not None:
            scope = library.scopes[missing]
            found.append(
                OutsideScope(
                    check=check.id,
                    title=check.title,
                    scope=missing,
                    why=scope.why,
                    minutes=check.minutes,
                    unknown=unknown_without(check),
                )
            )
    return tuple(found)


def unknown_without(check: PlannedCheck) -> str:
    """Say what stays unknown when a check isn't done."""
    return check.protects or check.title


def without(checks: Sequence[PlannedCheck], dropped: Collection[str]) -> list[PlannedCheck]:
    """Return the checks that remain; what came after a dropped one comes after what that one came after."""
    if not dropped:
        return list(checks)
    behind: dict[str, tuple[str, ...]] = {}
    kept = []
    for check in checks:
        after = tuple(
            dict.fromkeys(
                id
                for earlier in check.after
                for id in (behind[earlier] if earlier in dropped else (earlier,))
            )
        )
        if check.id in dropped:
            behind[check.id] = after
        else:
            kept.append(check if after == check.after else check.model_copy(update={"after": after}))
    return kept
