"""What belongs to no check: judged as a snag from the moment it was found until it was seen mended."""

from __future__ import annotations

from plangen.assess.model import AttemptVerdict, CheckVerdict
from plangen.findings.also import also_found_ids
from plangen.findings.model import AlsoFound, Findings

#: What nobody graded yet is not passed over.
_UNGRADED = "before-handover"
_NO_GRADE = "no grade given: it counts as before handover until it has one"


def judge_also_found(findings: Findings) -> tuple[CheckVerdict, ...]:
    """Return each thing as a check that failed, and passed on the day on which it was seen mended."""
    return tuple(_judged(id, one) for id, one in also_found_ids(findings).items())


def _judged(id: str, found: AlsoFound) -> CheckVerdict:
    notes = [part for part in (found.note, None if found.grade else _NO_GRADE) if part]
    first = AttemptVerdict(
        attempt=1,
        verdict="fail",
        by=found.by,
        when=str(found.when) if found.when else None,
        note="; ".join(notes) or None,
        photos=found.photos,
    )
    seen = (
        ()
        if found.mended is None
        else (
            AttemptVerdict(
                attempt=2, verdict="pass", when=None if found.mended is True else str(found.mended)
            ),
        )
    )
    return CheckVerdict(
        id=id,
        title=found.what,
        item=found.place or "boat",
        system="",
        setting="",
        grade=found.grade or _UNGRADED,
        verdict="pass" if seen else "fail",
        attempts=(first, *seen),
    )
