"""The snag list on paper: what should be, what was found, how it is settled, and what was made of it since."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from plangen.assess.model import Assessment, AttemptVerdict, CheckVerdict, ReadingVerdict, Snag
from plangen.print.report.wording import BAD, CLOSE, Fact, fact_of
from plangen.print.words import GRADE_WORDS, VERDICT_WORDS


@dataclass(frozen=True)
class Contested:
    """A reading that failed or is too close to call, with where its expected value comes from."""

    check: CheckVerdict
    reading: ReadingVerdict
    basis: str
    fact: Fact


@dataclass(frozen=True)
class SnagLine:
    """A snag with the readings that failed, what was remarked when they were read, and the attempts at it."""

    snag: Snag
    readings: tuple[Contested, ...]
    note: str
    history: str
    disagreement: str | None


def contested_of(
    checks: Sequence[CheckVerdict], bases: Mapping[tuple[str, str], str], units: str
) -> tuple[Contested, ...]:
    """Return the readings that failed or are left undecided in the last attempts."""
    return tuple(
        _contested(check, reading, bases, units)
        for check in checks
        for attempt in check.attempts[-1:]
        for reading in attempt.readings
        if reading.verdict in (*BAD, *CLOSE)
    )


def snag_lines(
    assessment: Assessment, bases: Mapping[tuple[str, str], str], units: str
) -> tuple[SnagLine, ...]:
    """Return the snags in their order."""
    checks = {
        (check.id, check.in_plan): check
        for check in (*assessment.checks, *assessment.gone, *assessment.also_found)
    }
    lines = []
    for snag in assessment.snags:
        check = checks[snag.check, snag.in_plan]
        failing = _failing(check)
        readings = tuple(
            _contested(check, reading, bases, units)
            for reading in (failing.readings if failing else ())
            if reading.verdict in BAD
        )
        note = (failing.note or "") if failing else ""
        lines.append(
            SnagLine(snag, readings, "" if note == snag.note else note, _history(check), check.disagreement)
        )
    return tuple(lines)


def by_grade(lines: Sequence[SnagLine]) -> list[tuple[str, list[SnagLine]]]:
    """Return the snags under the words of their grade, the gravest first."""
    grouped = [
        (words, [line for line in lines if line.snag.grade == grade]) for grade, words in GRADE_WORDS.items()
    ]
    return [(words, own) for words, own in grouped if own]


def _contested(
    check: CheckVerdict, reading: ReadingVerdict, bases: Mapping[tuple[str, str], str], units: str
) -> Contested:
    return Contested(check, reading, bases.get((check.id, reading.id), ""), fact_of(reading, units))


def _history(check: CheckVerdict) -> str:
    """Return who saw it and when, of several attempts what each of them came to."""
    if len(check.attempts) == 1:
        only = check.attempts[0]
        return ", ".join(part for part in (only.by, only.when) if part)
    return "; ".join(
        ", ".join(
            part
            for part in (
                f"attempt {attempt.attempt}: {VERDICT_WORDS[attempt.verdict]}",
                attempt.when,
                attempt.by,
                None if attempt.verdict in BAD else attempt.note,
            )
            if part
        )
        for attempt in check.attempts
    )


def _failing(check: CheckVerdict) -> AttemptVerdict | None:
    return next((attempt for attempt in reversed(check.attempts) if attempt.verdict in BAD), None)
