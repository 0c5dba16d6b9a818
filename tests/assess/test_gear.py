"""What findings show aboard is no longer to be found."""

from __future__ import annotations

from plangen.assess.gear import gear_still_open
from plangen.assess.model import AttemptVerdict, CheckVerdict, ReadingVerdict
from plangen.plan.gear.lines import GearLine

NUMBER = GearLine(
    item="hull-identification-number", title="Hull number", group="markings", quantity=2, strength="required",
    demands=(), aboard=0, shortfall=2, seen_by=("hull-identification/hull-number",),
)  # fmt: skip


def check(found: str, verdict: str) -> CheckVerdict:
    reading = ReadingVerdict.model_construct(id="hull-number", found=found, verdict=verdict)
    attempt = AttemptVerdict.model_construct(readings=(reading,))
    return CheckVerdict.model_construct(id="hull-identification@boat", attempts=(attempt,))


def test_a_hull_number_that_was_recorded_is_no_longer_to_be_found() -> None:
    assert gear_still_open([NUMBER], [check("FR-ABC12345A627", "recorded")]) == ()


def test_one_that_was_not_recorded_or_is_wrong_stays_open() -> None:
    assert gear_still_open([NUMBER], [check("", "not-done")]) == (NUMBER,)
    assert gear_still_open([NUMBER], [check("XX", "fail")]) == (NUMBER,)
