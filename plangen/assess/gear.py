"""Safety gear that is still to be found, bought or renewed after what was seen aboard."""

from __future__ import annotations

from collections.abc import Sequence

from plangen.assess.model import CheckVerdict
from plangen.plan.gear.lines import GearLine


def gear_still_open(lines: Sequence[GearLine], checks: Sequence[CheckVerdict]) -> tuple[GearLine, ...]:
    """Return the lines that are short or out of date; what a check has seen aboard is no longer to be found."""
    seen = {
        f"{check.id.partition('@')[0]}/{reading.id}"
        for check in checks
        for attempt in check.attempts[-1:]
        for reading in attempt.readings
        if reading.found and reading.verdict in ("pass", "recorded")
    }
    left = [
        line.model_copy(update={"shortfall": 0.0}) if seen & set(line.seen_by) else line for line in lines
    ]
    return tuple(line for line in left if line.shortfall or line.lapsed)
