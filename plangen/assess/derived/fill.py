"""A reading that was left blank, and that a figure gives, takes the figure's value and verdict."""

from __future__ import annotations

from collections.abc import Sequence

from plangen.assess.model import AttemptVerdict, CheckVerdict, DerivedFigure, ReadingVerdict
from plangen.assess.verdicts import worst
from plangen.spec.quantity import number_text


def with_figures(
    checks: Sequence[CheckVerdict], figures: Sequence[DerivedFigure]
) -> tuple[CheckVerdict, ...]:
    """Return the checks, the last attempt of each completed by the figures that were worked out of readings.

    What was typed always stands; a figure only fills a blank, and says so.
    """
    giving = {
        (figure.checks[0], figure.reading): figure
        for figure in figures
        if figure.reading is not None and figure.verdict is not None
    }
    return tuple(_completed(check, giving) for check in checks)


def _completed(check: CheckVerdict, giving: dict[tuple[str, str], DerivedFigure]) -> CheckVerdict:
    if not check.attempts:
        return check
    last = check.attempts[-1]
    readings = tuple(
        _given(reading, giving[check.id, reading.id])
        if not reading.found and (check.id, reading.id) in giving
        else reading
        for reading in last.readings
    )
    if readings == last.readings:
        return check
    attempt: AttemptVerdict = last.model_copy(
        update={"readings": readings, "verdict": worst([reading.verdict for reading in readings])}
    )
    verdict = check.verdict if check.disagreement else attempt.verdict
    return check.model_copy(update={"attempts": (*check.attempts[:-1], attempt), "verdict": verdict})


def _given(reading: ReadingVerdict, figure: DerivedFigure) -> ReadingVerdict:
    found = (
        ", ".join("–" if point.found is None else number_text(point.found) for point in figure.points)
        if figure.points
        else f"{number_text(figure.value)} {figure.unit}".strip()
        if figure.value is not None
        else ""
    )
    return reading.model_copy(
        update={
            "found": found,
            "value": figure.value,
            "uncertainty": figure.uncertainty,
            "points": figure.points,
            "verdict": figure.verdict,
            "reason": f"worked out: {figure.how}",
        }
    )
