"""The report as one HTML document, escaped throughout."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from plangen.assess.instruments import instrument_faults
from plangen.assess.model import Assessment
from plangen.plan.model import Plan, SourceLine
from plangen.print.charts import legend_svg
from plangen.print.flag import flag_of
from plangen.print.html import Paper, render
from plangen.print.photos import Photo
from plangen.print.report.agreement import agreement_of
from plangen.print.report.figures import figures_of, has_chart
from plangen.print.report.found import systems_found, systems_undone, usual
from plangen.print.report.front import front_of
from plangen.print.report.plates import plates_of
from plangen.print.report.snags import by_grade, contested_of, snag_lines
from plangen.print.report.survey import survey_html
from plangen.print.report.wording import CLOSE, deciding_text, figure_text, found_text, spread_text
from plangen.print.sources import basis_text, source_numbers
from plangen.print.words import PENDING_WORDS, SETTLEMENT_WORDS, VERDICT_WORDS


def report_html(
    plan: Plan, assessment: Assessment, paper: Paper = "A4", photos: Mapping[str, Photo] | None = None
) -> str:
    """Return the report's HTML document; photos are given by the names under which the findings have them."""
    if plan.purpose == "survey":
        return survey_html(plan, assessment, paper, photos or {})
    bases = _bases(plan)
    contested = contested_of((*assessment.checks, *assessment.gone), bases, plan.units)
    lines = snag_lines(assessment, bases, plan.units)
    shown = {c.reading.source.id for line in lines for c in line.readings} | {
        c.reading.source.id for c in contested
    }
    attempts = [
        attempt
        for check in (*assessment.checks, *assessment.gone, *assessment.also_found)
        for attempt in check.attempts
    ]
    return render(
        "report/report.html.j2",
        plan=plan,
        flag=flag_of(plan),
        assessment=assessment,
        paper=paper,
        title="Commissioning report" if plan.purpose == "commissioning" else "Trial report",
        days=sorted({attempt.when for attempt in attempts if attempt.when}),
        people=sorted({attempt.by for attempt in attempts if attempt.by}),
        front=front_of(plan, assessment, lines),
        agreement=agreement_of(assessment.snags),
        snags_by_grade=by_grade(lines),
        close=[c for c in contested if c.reading.verdict in CLOSE],
        disagreements=[check for check in assessment.checks if check.disagreement],
        second_looks=[check for check in assessment.checks if check.second_look],
        instrument_faults=instrument_faults((*assessment.checks, *assessment.gone)),
        figures=figures_of(assessment.checks, assessment.derived, plan.units),
        worked_out=[one for one in assessment.derived if not has_chart(one)],
        systems=systems_found(plan, assessment),
        usually=usual(assessment),
        excused=[check for check in assessment.checks if check.verdict == "does-not-apply"],
        partly=[check for check in assessment.checks if check.verdict == "not-done" and check.attempts],
        undone=systems_undone(plan, assessment),
        unasked=[check for check in assessment.checks if check.unasked],
        plates=plates_of(assessment, photos or {}),
        sources=_sources(plan, shown),
        legend=legend_svg,
        figured=lambda figure: figure_text(figure, plan.units),
        spread=lambda reading: spread_text(reading, plan.units),
        decides=lambda reading: deciding_text(reading, plan.units),
        found=lambda reading: found_text(reading, plan.units),
        verdict_words=VERDICT_WORDS,
        settlement_words=SETTLEMENT_WORDS,
        pending_words=PENDING_WORDS,
    )


def _bases(plan: Plan) -> dict[tuple[str, str], str]:
    numbers = source_numbers(plan)
    return {(c.id, e.id): basis_text(e, numbers) for c in plan.checks for e in c.expect}


def _sources(plan: Plan, shown: Iterable[str]) -> list[tuple[int, SourceLine]]:
    wanted, numbers = set(shown), source_numbers(plan)
    return [(numbers[source.id], source) for source in plan.sources if source.id in wanted]
