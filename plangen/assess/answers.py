"""Verdicts on readings that are no numbers: yes and no with the parts that are bad, words, dates and identities."""

from __future__ import annotations

import datetime

from plangen.assess.model import ReadingVerdict
from plangen.assess.reading import shown, verdict_on
from plangen.findings.days import day_of, last_day_of
from plangen.findings.model import Typed
from plangen.findings.parse_reading import typed_answer, typed_judgement
from plangen.findings.parts import bad_parts
from plangen.plan.model import Expectation
from plangen.plan.plates import PLATE_WORDS, differs, plate_read

#: What is expected where nothing should be there: the answer no says the same.
_NOTHING = ("none", "nothing")


def judge_identity(expected: Expectation, typed: Typed, day: datetime.date | None) -> ReadingVerdict:
    """Return the verdict on a serial number, a text or a date; only an expiry date can fail."""
    if expected.record == "plate":
        return judge_plate(expected, typed)
    if expected.record != "expiry-date":
        return verdict_on(expected, shown(typed), "recorded")
    date = typed if isinstance(typed, datetime.date) else day_of(str(typed)) or last_day_of(str(typed))
    if date is None:
        return verdict_on(expected, shown(typed), "unclear", "no date such as 2027-05-14; read it by hand")
    if day is None:
        return verdict_on(expected, str(date), "recorded", "the plan names no day of trial")
    good = date >= day
    return verdict_on(
        expected, str(date), "pass" if good else "fail", "" if good else f"expired before the trial ({day})"
    )


def judge_plate(expected: Expectation, typed: Typed) -> ReadingVerdict:
    """Return the verdict on a plate: what the spec states has to be what was found; all else is recorded."""
    found = plate_read(typed)
    wrong = [
        f"{PLATE_WORDS[name]} {found[name]}, where the spec has {stated}"
        for name, stated in expected.plate.items()
        if name in found and differs(stated, found[name])
    ]
    return verdict_on(expected, shown(typed), "fail" if wrong else "recorded", "; ".join(wrong))


def judge_text(expected: Expectation, typed: Typed) -> ReadingVerdict:
    """Return the verdict on an answer in words."""
    bad = bad_parts(expected, typed)
    if bad is not None:
        return _judge_parts(expected, *bad)
    wanted = (expected.text or "").strip().casefold()
    judgement, answer = typed_judgement(typed), typed_answer(typed)
    if judgement is not None:
        return verdict_on(expected, shown(typed), "pass" if judgement else "fail")
    wanted_answer = False if wanted in _NOTHING else typed_answer(wanted)
    if wanted_answer is not None and answer is not None:
        return verdict_on(expected, shown(typed), "pass" if answer == wanted_answer else "fail")
    if str(typed).strip().casefold() == wanted or answer is True:
        return verdict_on(expected, shown(typed), "pass")
    if answer is False:
        return verdict_on(expected, shown(typed), "fail")
    return verdict_on(
        expected, shown(typed), "unclear", "neither yes, no nor the words expected; read it by hand"
    )


def _judge_parts(expected: Expectation, bad: tuple[str, ...], unknown: tuple[str, ...]) -> ReadingVerdict:
    reason = f"no such part: {', '.join(unknown)}; of {', '.join(expected.parts)}" if unknown else ""
    return verdict_on(
        expected, f"no: {', '.join((*bad, *unknown))}", "fail", reason, bad_parts=(*bad, *unknown)
    )
