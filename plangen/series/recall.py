"""Recall: every reading that one instrument took, over hulls."""

from __future__ import annotations

import datetime
from collections.abc import Collection, Iterator
from dataclasses import dataclass

from plangen.assess.model import Assessment, AttemptVerdict, CheckVerdict, ReadingVerdict


@dataclass(frozen=True)
class RecalledReading:
    """One reading, with the hull and the check it belongs to, and how it is known that the instrument took it."""

    hull: str
    check: CheckVerdict
    attempt: AttemptVerdict
    reading: ReadingVerdict

    @property
    def how_known(self) -> str:
        """Say whether somebody wrote the instrument down, or it is the only one of its kind."""
        return "not said, only one of its kind" if self.reading.taken_with_assumed else "said"


def recalled(
    assessment: Assessment, instruments: Collection[str], since: datetime.date | None = None
) -> Iterator[RecalledReading]:
    """Yield every reading that one of the instruments took, of all attempts; from a day on, and those without a day."""
    hull = assessment.boat
    for check in (*assessment.checks, *assessment.gone):
        for attempt in check.attempts:
            if since and attempt.when and datetime.date.fromisoformat(attempt.when) < since:
                continue
            for reading in attempt.readings:
                if reading.taken_with in instruments:
                    yield RecalledReading(hull, check, attempt, reading)
