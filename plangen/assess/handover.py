"""Whether the boat may be handed over: no, can't be said yet, or yes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from plangen.assess.model import CheckVerdict, Handover, Snag
from plangen.assess.snags import forbids_handover

#: The grades whose checks decide.
DECIDING = ("stop", "before-handover")


def handover_of(snags: Sequence[Snag], checks: Sequence[CheckVerdict], left_out: int = 0) -> Handover:
    """Return the answer: no while a snag of a deciding grade is open, can't be said while such a check is left open."""
    forbidding = tuple(snag.check for snag in snags if forbids_handover(snag))
    deciding = [check for check in checks if check.grade in DECIDING]
    counts = {
        name: sum(check.verdict == verdict for check in deciding)
        for name, verdict in (("not_done", "not-done"), ("limited", "limited"), ("unclear", "unclear"))
    }
    left = _left_open(counts, len(deciding))
    answer: Literal["no", "cannot-be-said", "yes"]
    if forbidding:
        answer = "no"
        many = len(forbidding) != 1
        line = f"Handover is not advisable: {len(forbidding)} snag{'s' if many else ''} of grade stop or before handover {'are' if many else 'is'} open."
        line += f" Besides, {left}." if left else ""
    elif left:
        answer = "cannot-be-said"
        line = f"Whether handover is advisable can't be said: {left}."
    else:
        answer = "yes"
        line = f"Handover is advisable: no snag of grade stop or before handover is open, and all {len(deciding)} checks of these grades are done."
    if left_out:
        line += f" {left_out} more of these grades {'are' if left_out != 1 else 'is'} not part of this plan."
    close = sum(check.verdict in ("leaning-pass", "leaning-fail") for check in checks)
    line += f" {close} {'are' if close != 1 else 'is'} too close to call." if close else ""
    return Handover(answer=answer, line=line, forbidding=forbidding, deciding=len(deciding), **counts)


def _left_open(counts: dict[str, int], deciding: int) -> str:
    parts = []
    if counts["not_done"]:
        parts.append(f"{counts['not_done']} of {deciding} checks of these grades aren't done")
    if counts["limited"]:
        parts.append(f"{counts['limited']} limited by conditions")
    if counts["unclear"]:
        parts.append(f"{counts['unclear']} unclear")
    text = ", ".join(parts)
    return text.replace("these grades", "grade stop or before handover") if text else ""
