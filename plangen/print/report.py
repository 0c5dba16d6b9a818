"""The report: what findings and plan came to, as one HTML document, escaped throughout."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from plangen.assess.instruments import instrument_faults
from plangen.assess.model import (
    Assessment,
    AttemptVerdict,
    CheckVerdict,
    DerivedFigure,
    PointVerdict,
    ReadingVerdict,
    Snag,
)
from plangen.plan.model import Plan, SourceLine
from plangen.print.charts import Chart, ChartPoint, chart_svg, legend_svg
from plangen.print.html import Paper, render
from plangen.print.photos import Photo
from plangen.print.sources import basis_text, source_numbers
from plangen.print.words import GRADE_WORDS, SETTLEMENT_WORDS, VERDICT_WORDS
from plangen.spec.quantity import convert_number, is_unit_label, number_text, us_label

_BAD = ("fail", "leaning-fail")
_CLOSE = ("leaning-pass", "leaning-fail", "unclear", "limited")


@dataclass(frozen=True)
class Figure:
    """A chart with the words above it."""

    title: str
    subtitle: str
    svg: Markup


@dataclass(frozen=True)
class Contested:
    """A reading that failed or is too close to call, with where its expected value comes from."""

    check: CheckVerdict
    reading: ReadingVerdict
    basis: str


@dataclass(frozen=True)
class SnagLine:
    """A snag with the readings that failed."""

    snag: Snag
    readings: tuple[Contested, ...]
    disagreement: str | None


@dataclass(frozen=True)
class SystemFindings:
    """What was found in one system: checks in which something was typed, in the plan's order."""

    title: str
    checks: tuple[CheckVerdict, ...]


@dataclass(frozen=True)
class Undone:
    """The checks of one system that nobody began."""

    title: str
    checks: tuple[CheckVerdict, ...]


def report_html(
    plan: Plan, assessment: Assessment, paper: Paper = "A4", photos: Mapping[str, Photo] | None = None
) -> str:
    """Return the report's HTML document; photos are given by the names under which the findings have them."""
    bases = _bases(plan)
    contested = _contested((*assessment.checks, *assessment.gone), bases)
    snags = _snag_lines(assessment, bases)
    shown = {c.reading.source.id for line in snags for c in line.readings} | {
        c.reading.source.id for c in contested
    }
    attempts = [
        attempt for check in (*assessment.checks, *assessment.also_found) for attempt in check.attempts
    ]
    begun = {check.id for check in assessment.checks if check.attempts}
    return render(
        "report.html.j2",
        plan=plan,
        assessment=assessment,
        paper=paper,
        days=sorted({attempt.when for attempt in attempts if attempt.when}),
        people=sorted({attempt.by for attempt in attempts if attempt.by}),
        forbidding=[snag for snag in assessment.snags if snag.check in assessment.handover.forbidding],
        counts=_counts(assessment),
        snags_by_grade=_by_grade(snags),
        close=[c for c in contested if c.reading.verdict in _CLOSE],
        disagreements=[check for check in assessment.checks if check.disagreement],
        second_looks=[check for check in assessment.checks if check.second_look],
        instrument_faults=instrument_faults((*assessment.checks, *assessment.gone)),
        figures=[*_figures(plan, assessment.checks), *_derived_figures(assessment.derived, plan.units)],
        systems=_by_system(plan, [check for check in assessment.checks if check.id in begun])
        + ([SystemFindings("No longer in the plan", assessment.gone)] if assessment.gone else [])
        + (
            [SystemFindings("Also found, by no check", assessment.also_found)]
            if assessment.also_found
            else []
        ),
        excused=[check for check in assessment.checks if check.verdict == "does-not-apply"],
        partly=[check for check in assessment.checks if check.verdict == "not-done" and check.attempts],
        undone=[
            Undone(system.title, system.checks)
            for system in _by_system(plan, [check for check in assessment.checks if check.id not in begun])
        ],
        unasked=[check for check in assessment.checks if check.unasked],
        photos=photos or {},
        sources=_sources(plan, shown),
        legend=legend_svg,
        figured=lambda figure: figure_text(figure, plan.units),
        spread=lambda reading: spread_text(reading, plan.units),
        decides=lambda reading: deciding_text(reading, plan.units),
        found=lambda reading: found_text(reading, plan.units),
        verdict_words=VERDICT_WORDS,
        settlement_words=SETTLEMENT_WORDS,
    )


def photo_names(assessment: Assessment) -> tuple[str, ...]:
    """Return the names of all photos that the findings mention."""
    return tuple(
        dict.fromkeys(
            name
            for check in (*assessment.checks, *assessment.gone, *assessment.also_found)
            for attempt in check.attempts
            for name in attempt.photos
        )
    )


def _counts(assessment: Assessment) -> dict[str, int]:
    names = ("checks", "done", "to_do", "passed", "failed", "too_close", "limited", "does_not_apply")
    return {name: sum(getattr(line, name) for line in assessment.summary) for name in names}


def _bases(plan: Plan) -> dict[tuple[str, str], str]:
    numbers = source_numbers(plan)
    return {(c.id, e.id): basis_text(e, numbers) for c in plan.checks for e in c.expect}


def _contested(checks: Sequence[CheckVerdict], bases: Mapping[tuple[str, str], str]) -> tuple[Contested, ...]:
    return tuple(
        Contested(check, reading, bases.get((check.id, reading.id), ""))
        for check in checks
        for attempt in check.attempts[-1:]
        for reading in attempt.readings
        if reading.verdict in (*_BAD, *_CLOSE)
    )


def _snag_lines(assessment: Assessment, bases: Mapping[tuple[str, str], str]) -> list[SnagLine]:
    checks = {
        (check.id, check.in_plan): check
        for check in (*assessment.checks, *assessment.gone, *assessment.also_found)
    }
    lines = []
    for snag in assessment.snags:
        check = checks[snag.check, snag.in_plan]
        failing = _failing(check)
        readings = tuple(
            Contested(check, reading, bases.get((check.id, reading.id), ""))
            for reading in (failing.readings if failing else ())
            if reading.verdict in _BAD
        )
        lines.append(SnagLine(snag, readings, check.disagreement))
    return lines


def _failing(check: CheckVerdict) -> AttemptVerdict | None:
    return next((attempt for attempt in reversed(check.attempts) if attempt.verdict in _BAD), None)


def _by_grade(lines: Sequence[SnagLine]) -> list[tuple[str, list[SnagLine]]]:
    grouped = [
        (words, [line for line in lines if line.snag.grade == grade]) for grade, words in GRADE_WORDS.items()
    ]
    return [(words, own) for words, own in grouped if own]


def _by_system(plan: Plan, checks: Sequence[CheckVerdict]) -> list[SystemFindings]:
    grouped = [
        SystemFindings(line.title, tuple(check for check in checks if check.system == line.system))
        for line in plan.summary
    ]
    return [system for system in grouped if system.checks]


def _sources(plan: Plan, shown: Iterable[str]) -> list[tuple[int, SourceLine]]:
    wanted, numbers = set(shown), source_numbers(plan)
    return [(numbers[source.id], source) for source in plan.sources if source.id in wanted]


def _figures(plan: Plan, checks: Sequence[CheckVerdict]) -> list[Figure]:
    return [
        _figure(check, reading, plan.units)
        for check in checks
        for attempt in check.attempts[-1:]
        for reading in attempt.readings
        if any(point.found is not None for point in reading.points)
    ]


def _figure(check: CheckVerdict, reading: ReadingVerdict, units: str) -> Figure:
    subtitle = f"{check.item}: {reading.reading}"
    return _drawn_points(check.title, subtitle, reading.unit, reading.series_unit, reading.points, units)


def _drawn_points(
    title: str, subtitle: str, unit: str, point_unit: str, points: Sequence[PointVerdict], units: str
) -> Figure:
    """Draw points in the units in which the plan is shown."""
    up, across = _shown_unit(unit, units), _shown_unit(point_unit, units)

    def height(value: float | None) -> float | None:
        return None if value is None else convert_number(value, unit, up)

    drawn = tuple(
        ChartPoint(
            round(convert_number(point.point, point_unit, across), 1),
            height(point.found),
            height(point.low),
            height(point.value),
            height(point.high),
            point.verdict,
        )
        for point in points
    )
    return Figure(title, subtitle, chart_svg(Chart(title, subtitle, across, up.removeprefix("Δ"), drawn)))


def _derived_figures(derived: Sequence[DerivedFigure], units: str) -> list[Figure]:
    return [
        _drawn_points(
            figure.title, f"{figure.item}, worked out", figure.unit, figure.point_unit, points, units
        )
        for figure in derived
        if len(points := figure.points or _bare(figure)) > 2
    ]


def _bare(figure: DerivedFigure) -> tuple[PointVerdict, ...]:
    return tuple(PointVerdict(point=at, found=value, verdict="recorded") for at, value in figure.values)


def found_text(reading: ReadingVerdict, units: str) -> str:
    """Write what was found as it was typed, and beside it in the unit in which the plan is shown."""
    unit = _shown_unit(reading.unit, units)
    label = unit.removeprefix("Δ")
    if reading.value is None or not is_unit_label(unit) or label.casefold() in reading.found.casefold():
        return reading.found
    return f"{reading.found} [{number_text(convert_number(reading.value, reading.unit, unit))} {label}]"


def spread_text(reading: ReadingVerdict, units: str) -> str:
    """Write the uncertainty of a reading in the unit in which the plan is shown."""
    return "" if reading.uncertainty is None else _difference(reading.uncertainty, reading.unit, units)


def deciding_text(reading: ReadingVerdict, units: str) -> str:
    """Write the accuracy that would decide a reading in the unit in which the plan is shown."""
    text = reading.deciding_accuracy or ""
    amount = re.fullmatch(r"± ([0-9.]+)( .*)?", text)
    return _difference(float(amount[1]), reading.unit, units) if amount else text


def _difference(amount: float, unit: str, units: str) -> str:
    shown = _shown_unit(unit, units)
    converted = abs(convert_number(amount, unit, shown) - convert_number(0.0, unit, shown))
    return f"± {number_text(converted)} {shown.removeprefix('Δ')}".strip()


def figure_text(figure: DerivedFigure, units: str) -> str:
    """Write a figure, or each of its values by point, in the units in which the plan is shown."""
    unit, across = _shown_unit(figure.unit, units), _shown_unit(figure.point_unit, units)

    def written(value: float) -> str:
        return number_text(convert_number(value, figure.unit, unit))

    label = unit.removeprefix("Δ")
    if figure.value is not None:
        return f"{written(figure.value)} {label}".strip()
    parts = [
        f"{number_text(convert_number(at, figure.point_unit, across))}: {written(value)}"
        for at, value in figure.values
    ]
    return f"{'; '.join(parts)} {label}".strip()


def _shown_unit(label: str, units: str) -> str:
    return us_label(label) if units == "us" and is_unit_label(label) else label
