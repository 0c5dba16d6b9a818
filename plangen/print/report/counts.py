"""Counts that add up: checks by what came of them, snags by what became of them, and how the two belong together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from plangen.assess.model import Assessment


@dataclass(frozen=True)
class Count:
    """A number and what it counts; the parts of a count add up to it."""

    number: int
    words: str
    parts: tuple[Count, ...] = ()


def checks_counted(assessment: Assessment) -> Count:
    """Return the checks of the plan by what came of them."""

    def many(name: str) -> int:
        return sum(getattr(line, name) for line in assessment.summary)

    parts = (
        Count(many("passed"), "passed or recorded"),
        Count(many("failed"), "failed"),
        Count(many("too_close"), "too close or unclear"),
        Count(many("limited"), "limited by conditions"),
        Count(many("does_not_apply"), "don't apply to her"),
        Count(many("to_do"), "to do"),
    )
    total = many("checks")
    gone = len(assessment.gone)
    words = f"checks, {gone} of them no longer in the plan" if gone else "checks in the plan"
    return Count(total, words, tuple(part for part in parts if part.number))


def snags_counted(assessment: Assessment) -> Count:
    """Return the snags by what became of them; those that aren't mended by what the last look at them gave."""
    beside = {check.id for check in assessment.also_found}
    verdicts = {(check.id, check.in_plan): check.verdict for check in (*assessment.checks, *assessment.gone)}
    not_mended = [snag for snag in assessment.snags if snag.state != "mended"]
    last = [
        "beside" if snag.check in beside else verdicts.get((snag.check, snag.in_plan), "unclear")
        for snag in not_mended
    ]
    known = ("fail", "leaning-fail", "beside")
    parts = (
        Count(last.count("fail"), "checks that failed, as counted on the left"),
        Count(last.count("leaning-fail"), "too close, leaning to fail"),
        Count(sum(one not in known for one in last), "failed before, not decided since"),
        Count(last.count("beside"), "found beside the checks"),
    )
    states = [snag.state for snag in assessment.snags]
    return Count(
        len(states),
        "snags on the list",
        tuple(
            one
            for one in (
                Count(states.count("mended"), "mended: good when looked at again"),
                Count(
                    len(not_mended), _settled(states), tuple(part for part in parts if part.number)
                ),
            )
            if one.number
        ),
    )  # fmt: skip


def _settled(states: Sequence[str]) -> str:
    counted = [(states.count("open"), "open"), (states.count("disputed"), "disputed"), (states.count("accepted"), "settled as they are")]  # fmt: skip
    said = ", ".join(f"{number} {words}" for number, words in counted if number)
    return f"not mended ({said}), of these:"
