"""Conditions of the trial: met, not met or not recorded, and what that makes of the readings that need them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from plangen.assess.model import ReadingVerdict, Verdict
from plangen.plan.model import Expectation

_OF_CONDITION: Mapping[Verdict, Verdict] = {
    "pass": "met", "recorded": "met", "fail": "not-met", "not-done": "not-recorded", "does-not-apply": "not-recorded",
    "unclear": "not-recorded",
}  # fmt: skip
#: Verdicts that say nothing of the boat, whatever the conditions were.
_NO_VERDICT: tuple[Verdict, ...] = ("not-done", "does-not-apply")


def as_condition(judged: ReadingVerdict) -> ReadingVerdict:
    """Return the verdict on a condition: never a fail, for the boat isn't to blame for the weather."""
    return judged.model_copy(update={"verdict": _OF_CONDITION.get(judged.verdict, "not-recorded")})


def under_conditions(
    readings: Sequence[ReadingVerdict], expected: Mapping[str, Expectation]
) -> tuple[ReadingVerdict, ...]:
    """Return the readings, those taken outside the conditions that they need as limited by these."""
    conditions = {
        reading.id: reading
        for reading in readings
        if reading.id in expected and expected[reading.id].condition
    }
    return tuple(
        _limited(reading, [conditions[id] for id in expected[reading.id].valid_if if id in conditions])
        if reading.id in expected
        else reading
        for reading in readings
    )


def _limited(reading: ReadingVerdict, conditions: Sequence[ReadingVerdict]) -> ReadingVerdict:
    if reading.verdict in _NO_VERDICT:
        return reading
    outside = [one for one in conditions if one.verdict == "not-met"]
    unknown = [one for one in conditions if one.verdict == "not-recorded"]
    if outside:
        was = ", ".join(f"{one.reading} was {one.found}" for one in outside)
        wanted = ", ".join(f"{one.reading} {one.expected}" for one in outside)
        return reading.model_copy(
            update={"verdict": "limited", "reason": f"{was}; it counts once read with {wanted}"}
        )
    if unknown:
        words = f"not recorded: {', '.join(one.reading for one in unknown)}"
        reason = "; ".join(part for part in (reading.reason, words) if part)
        return reading.model_copy(update={"reason": reason})
    return reading
