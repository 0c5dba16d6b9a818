"""The snag list: what failed, how it is settled, and what a retest made of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from plangen.assess.model import AttemptVerdict, CheckVerdict, Snag, SnagState
from plangen.findings.model import Settlement
from plangen.packs.grades import GRADES

_FAILING = ("fail", "leaning-fail")
_SETTLED: dict[str, SnagState] = {"accepted": "accepted", "price-reduced": "accepted", "disputed": "disputed"}


def snags_of(checks: Sequence[CheckVerdict], settled: Mapping[str, Settlement]) -> tuple[Snag, ...]:
    """Return a snag for each check of which any attempt failed, the gravest grade first.

    A snag is mended when the last attempt passed. Otherwise its state is what the user wrote of its settlement, and open
    where nothing was written.
    """
    failed = [check for check in checks if any(attempt.verdict in _FAILING for attempt in check.attempts)]
    ordered = sorted(failed, key=lambda check: GRADES.index(check.grade))
    return tuple(_snag(number, check, settled.get(check.id)) for number, check in enumerate(ordered, start=1))


def _snag(number: int, check: CheckVerdict, settled: Settlement | None) -> Snag:
    failing = [attempt for attempt in check.attempts if attempt.verdict in _FAILING][-1]
    bad = [reading for reading in failing.readings if reading.verdict in _FAILING]
    return Snag(
        number=number,
        check=check.id,
        readings=tuple(reading.id for reading in bad),
        in_plan=check.in_plan,
        title=check.title,
        item=check.item,
        expected="; ".join(f"{reading.reading}: {reading.expected}" for reading in bad),
        found="; ".join(f"{reading.reading}: {reading.found}" for reading in bad) or check.title,
        grade=check.grade,
        state=_state(check, settled),
        settlement=settled.settlement if settled else None,
        who=settled.who if settled else None,
        due=str(settled.due) if settled and settled.due else None,
        sum=settled.sum if settled else None,
        note=_note(settled.note if settled else None, failing.note),
        photos=tuple(dict.fromkeys(name for attempt in check.attempts for name in attempt.photos)),
        history=tuple(_history(attempt) for attempt in check.attempts),
        instruments_that_decide="; ".join(r.deciding_accuracy for r in bad if r.deciding_accuracy) or None,
        cause=settled.cause if settled else None,
        cause_text=settled.cause_text if settled else None,
        proved_on=settled.proved_on if settled else None,
    )


def _note(settled: str | None, found: str | None) -> str | None:
    """Return the note of the settlement, and where it has none that of what was found."""
    return found if settled is None or settled in (found or "") else settled


def _state(check: CheckVerdict, settled: Settlement | None) -> SnagState:
    if check.verdict in ("pass", "leaning-pass", "recorded") and check.disagreement is None:
        return "mended"
    if check.verdict == "does-not-apply" and not check.in_plan:
        return "accepted"
    return _SETTLED.get(settled.settlement or "", "open") if settled else "open"


def _history(attempt: AttemptVerdict) -> str:
    parts = [f"attempt {attempt.attempt}: {attempt.verdict.replace('-', ' ')}"]
    parts += [part for part in (attempt.when, attempt.by) if part]
    bad = [
        f"{one.reading} {one.found}"
        for one in attempt.readings
        if one.verdict in _FAILING and one.found and not one.points
    ]
    said = ", ".join(parts)
    return f"{said} ({'; '.join(bad)})" if bad else said


def forbids_handover(snag: Snag) -> bool:
    """Tell whether a snag stands in the way of handover."""
    return snag.grade in ("stop", "before-handover") and snag.state in ("open", "disputed")
