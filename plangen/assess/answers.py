"""Verdicts on readings that are no numbers: yes and no with the parts that are bad, words, dates and identities."""

from __future__ import annotations

import datetime
import re

from plangen.assess.model import ReadingVerdict
from plangen.assess.reading import shown, verdict_on
from plangen.findings.days import day_of, last_day_of
from plangen.findings.model import Typed
from plangen.findings.parse_reading import typed_answer
from plangen.plan.model import Expectation
from plangen.spec.names import slug

#: What is expected where nothing should be there: the answer no says the same.
_NOTHING = ("none", "nothing")
_NO_WITH_PARTS = re.compile(r"(?:no|not)\s*[:;,-]\s*(?P<parts>.+)", re.IGNORECASE | re.DOTALL)
_BETWEEN_PARTS = re.compile(r"\s*[,;/]\s*|\s+and\s+")


def judge_identity(expected: Expectation, typed: Typed, day: datetime.date | None) -> ReadingVerdict:
    """Return the verdict on a serial number, a text or a date; only an expiry date can fail."""
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


def judge_text(expected: Expectation, typed: Typed) -> ReadingVerdict:
    """Return the verdict on an answer in words."""
    bad = bad_parts(expected, typed)
    if bad is not None:
        return _judge_parts(expected, *bad)
    wanted = (expected.text or "").strip().casefold()
    answer = typed_answer(typed)
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


def bad_parts(expected: Expectation, typed: Typed) -> tuple[tuple[str, ...], tuple[str, ...]] | None:
    """Return the parts that were named as bad, those that the reading has and others; nothing where none was named.

    They may be typed as a list, or as text behind `no:`; a part goes by its words, by some of them that only it
    has, or by its place.
    """
    if not expected.parts or typed is None or isinstance(typed, bool):
        return None
    if isinstance(typed, list):
        named = [str(part) for part in typed if part not in (None, "")]
    else:
        match = _NO_WITH_PARTS.fullmatch(str(typed).strip())
        if match is None:
            return None
        whole = _part(match["parts"], expected.parts)
        named = [whole] if whole else [part for part in _BETWEEN_PARTS.split(match["parts"]) if part]
    found = [(part, _part(part, expected.parts)) for part in named]
    known = tuple(dict.fromkeys(part for _, part in found if part))
    return known, tuple(part for part, meant in found if meant is None)


def _part(typed: str, parts: tuple[str, ...]) -> str | None:
    """Return the part that is meant.

    >>> _part("vent", ("drain", "vent hose")), _part("2", ("drain", "vent hose")), _part("hose", ("drain hose", "vent hose"))
    ('vent hose', 'vent hose', None)
    """
    name = slug(typed)
    if typed.strip().isdecimal():
        return parts[int(typed) - 1] if 0 < int(typed) <= len(parts) else None
    exact = [part for part in parts if slug(part) == name]
    like = [part for part in parts if f"-{name}-" in f"-{slug(part)}-"]
    return exact[0] if exact else like[0] if len(like) == 1 else None
