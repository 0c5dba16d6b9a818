"""A reading's verdict put together: what was expected, what was found, and why."""

from __future__ import annotations

from plangen.assess.model import ReadingVerdict, Verdict
from plangen.findings.model import Typed
from plangen.plan.model import Expectation


def verdict_on(
    expected: Expectation, found: str, verdict: Verdict, reason: str = "", **more: object
) -> ReadingVerdict:
    """Return the verdict on a reading with all that is known of it."""
    fields = {
        "id": expected.id, "reading": expected.reading, "expected": expected.shown, "found": found, "unit": expected.unit,
        "verdict": verdict, "reason": reason, "source": expected.source, "series_unit": expected.series_unit,
        "low": expected.low, "aim": expected.value, "high": expected.high, **more,
    }  # fmt: skip
    return ReadingVerdict.model_validate(fields)


def shown(typed: Typed) -> str:
    """Write what was typed as people read it."""
    if isinstance(typed, bool):
        return "yes" if typed else "no"
    if isinstance(typed, list):
        return ", ".join("–" if value is None else shown(value) for value in typed)
    return f"{typed:g}" if isinstance(typed, float) else str(typed)
