"""Checks counted by system and by setting."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import groupby

from plangen.plan.model import PlannedCheck, SettingSummary, SystemSummary


def summary_of(checks: Sequence[PlannedCheck], titles: Mapping[str, str]) -> tuple[SystemSummary, ...]:
    """Return how many checks each system has and how long they take, in the order of the titles."""
    by_system: dict[str, list[PlannedCheck]] = {system: [] for system in titles}
    for check in checks:
        by_system[check.system].append(check)
    return tuple(
        SystemSummary(
            system=system,
            title=titles[system],
            checks=len(own),
            measured=sum(any(expected.numeric for expected in check.expect) for check in own),
            minutes=_minutes(own),
        )
        for system, own in by_system.items()
        if own
    )


def settings_of(checks: Sequence[PlannedCheck], titles: Mapping[str, str]) -> tuple[SettingSummary, ...]:
    """Return the runs of checks in one setting; titles are by setting."""
    runs = [(setting, list(run)) for setting, run in groupby(checks, key=lambda check: check.setting)]
    return tuple(
        SettingSummary(setting=setting, title=titles[setting], checks=len(run), minutes=_minutes(run))
        for setting, run in runs
    )


def _minutes(checks: Sequence[PlannedCheck]) -> float:
    return round(sum(check.minutes for check in checks), 1)
