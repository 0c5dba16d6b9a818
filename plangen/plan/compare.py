"""Two plans side by side: checks added, gone, and changed in what they expect."""

from __future__ import annotations

from dataclasses import dataclass

from plangen.plan.model import Plan, PlannedCheck


@dataclass(frozen=True)
class Change:
    """One check whose expectation differs between two plans."""

    check: str
    before: str
    after: str


@dataclass(frozen=True)
class Comparison:
    """What differs from one plan to another."""

    added: tuple[PlannedCheck, ...]
    gone: tuple[PlannedCheck, ...]
    changed: tuple[Change, ...]

    @property
    def is_empty(self) -> bool:
        """Tell whether the plans have the same checks with the same expectations."""
        return not (self.added or self.gone or self.changed)


def compare(before: Plan, after: Plan) -> Comparison:
    """Compare two plans check by check; ids tell which checks are the same."""
    old = {check.id: check for check in before.checks}
    new = {check.id: check for check in after.checks}
    changed = [
        Change(id, _expected(old[id]), _expected(check))
        for id, check in new.items()
        if id in old and _expected(old[id]) != _expected(check)
    ]
    return Comparison(
        added=tuple(check for id, check in new.items() if id not in old),
        gone=tuple(check for id, check in old.items() if id not in new),
        changed=tuple(changed),
    )


def _expected(check: PlannedCheck) -> str:
    return "; ".join(f"{e.reading}: {e.shown}" for e in check.expect)
