"""A surveyor's report: condition by system, recommendations by urgency, scope, access and limitations."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from plangen.assess.instruments import instrument_faults
from plangen.assess.model import Assessment, CheckVerdict, ReadingVerdict, Recommendation
from plangen.assess.recommendations import URGENCIES
from plangen.plan.house import Urgency
from plangen.plan.model import Plan
from plangen.print.charts import legend_svg
from plangen.print.flag import flag_of
from plangen.print.html import Paper, render
from plangen.print.photos import Photo
from plangen.print.report.figures import figures_of, has_chart
from plangen.print.report.plates import plates_of
from plangen.print.report.wording import BAD, fact_of, figure_text, found_text
from plangen.print.words import VERDICT_WORDS

URGENCY_WORDS: Mapping[Urgency, str] = {
    "before-use": "Before she is used",
    "before-cover": "Before cover is given",
    "next-haul-out": "At the next haul-out",
    "monitor": "To be watched",
}
_URGENT: tuple[Urgency, ...] = ("before-use", "before-cover")
_UNDECIDED = ("unclear", "limited", "leaning-pass")


@dataclass(frozen=True)
class Recommended:
    """A recommendation in words: what for, the facts, the remark that was made, and its photos."""

    number: int
    item: str
    words: str
    facts: str
    note: str
    photos: tuple[str, ...]


@dataclass(frozen=True)
class Condition:
    """The condition of one system, in sentences."""

    title: str
    sentences: tuple[str, ...]


def survey_html(plan: Plan, assessment: Assessment, paper: Paper, photos: Mapping[str, Photo]) -> str:
    """Return the HTML document of a survey's report."""
    by_urgency = _by_urgency(plan, assessment)
    attempts = [
        attempt for check in (*assessment.checks, *assessment.also_found) for attempt in check.attempts
    ]
    made = sum(bool(check.attempts) for check in assessment.checks)
    return render(
        "report/survey.html.j2",
        plan=plan,
        flag=flag_of(plan),
        assessment=assessment,
        paper=paper,
        days=sorted({attempt.when for attempt in attempts if attempt.when}),
        people=sorted({attempt.by for attempt in attempts if attempt.by}),
        urgent=[(words, own) for urgency, words, own in by_urgency if urgency in _URGENT],
        later=[(words, len(own)) for urgency, words, own in by_urgency if urgency not in _URGENT],
        recommendations=[(words, own) for _, words, own in by_urgency],
        made=made,
        conditions=_conditions(plan, assessment),
        not_made=_not_made(plan, assessment),
        outside=Counter(row.scope.replace("-", " ") for row in plan.outside_scope),
        kit=_kit(plan, assessment),
        instrument_faults=instrument_faults((*assessment.checks, *assessment.gone)),
        plates=plates_of(assessment, photos),
        figures=figures_of(assessment.checks, assessment.derived, plan.units),
        worked_out=[one for one in assessment.derived if not has_chart(one)],
        legend=legend_svg,
        figured=lambda figure: figure_text(figure, plan.units),
        verdict_words=VERDICT_WORDS,
        sources=[],
    )


def _by_urgency(plan: Plan, assessment: Assessment) -> list[tuple[Urgency, str, list[Recommended]]]:
    checks = {check.id: check for check in (*assessment.checks, *assessment.gone, *assessment.also_found)}
    notes = {snag.check: snag.note or "" for snag in assessment.snags}
    found = []
    for urgency in URGENCIES:
        own = [
            _recommended(one, checks.get(one.check or ""), notes.get(one.check or "", ""), plan.units)
            for one in assessment.recommendations
            if one.urgency == urgency
        ]
        if own:
            found.append((urgency, URGENCY_WORDS[urgency], own))
    return found


def _recommended(one: Recommendation, check: CheckVerdict | None, note: str, units: str) -> Recommended:
    if check is None:
        return Recommended(one.number, one.item, one.words, "", "", ())
    wanted = BAD if one.do == "put-right" else _UNDECIDED
    last = next((a for a in reversed(check.attempts) if a.verdict in wanted), check.attempts[-1])
    facts = [sentence_of(reading, units) for reading in last.readings if reading.verdict in wanted]
    words = "put right and have seen again" if one.do == "put-right" else "look further"
    seen = last.note or note
    said = "; ".join(facts) or check.disagreement or check.title
    notes = " ".join(_stopped(_upper(one)) for one in dict.fromkeys((seen, note)) if one)
    photos = tuple(dict.fromkeys(name for attempt in check.attempts for name in attempt.photos))
    return Recommended(one.number, check.item, words, said, notes, photos)


def sentence_of(reading: ReadingVerdict, units: str) -> str:
    """Say of a reading what was found and what is called for.

    >>> from plangen.plan.model import Cited
    >>> hose = ReadingVerdict(id="a", reading="age of the hose", expected="≤ 10 years", found="12.8 years", verdict="fail", source=Cited(id="x"))
    >>> sentence_of(hose, "metric")
    'age of the hose is 12.8 years, ≤ 10 years is called for'
    >>> tick = hose.model_copy(update={"reading": "pipework in order", "expected": "yes", "found": "n"})
    >>> sentence_of(tick, "metric")
    'not found so: pipework in order'
    >>> sentence_of(tick.model_copy(update={"bad_parts": ("clips",)}), "metric")
    'not found so: pipework in order (bad: clips)'
    """
    fact = fact_of(reading, units)
    why = f" ({reading.reason})" if reading.verdict in ("unclear", "limited") and reading.reason else ""
    wanted = reading.expected.casefold()
    if wanted == "yes" and reading.verdict in BAD:
        bad = f" (bad: {', '.join(reading.bad_parts)})" if reading.bad_parts else ""
        return f"not found so: {reading.reading}{bad}"
    if wanted in ("yes", "no"):
        return f"{reading.reading}: {fact.found}{why}"
    if "not before the trial" in wanted and reading.verdict in BAD:
        return f"{reading.reading} is {fact.found}, past when it was seen"
    called = fact.should.removeprefix(reading.reading).lstrip(": ")
    return f"{reading.reading} is {fact.found}, {called} is called for{why}"


def _conditions(plan: Plan, assessment: Assessment) -> tuple[Condition, ...]:
    numbers = {one.check: one.number for one in assessment.recommendations if one.check}
    groups = [
        (line.title, [check for check in assessment.checks if check.system == line.system], line.checks)
        for line in plan.summary
    ]
    groups.append(("Seen beside the checks", list(assessment.also_found), 0))
    groups.append(("Seen before, no longer in the plan", list(assessment.gone), 0))
    return tuple(
        Condition(title, _sentences([one for one in checks if one.attempts], many, numbers, plan.units))
        for title, checks, many in groups
        if any(check.attempts for check in checks)
    )


def _sentences(
    checks: list[CheckVerdict], planned: int, numbers: Mapping[str, int], units: str
) -> tuple[str, ...]:
    said = [f"{len(checks)} of {planned} checks made."] if planned > len(checks) else []
    good = [check for check in checks if check.verdict in ("pass", "recorded")]
    said += [_contested(check, numbers.get(check.id), units) for check in checks if check not in good]
    if good:
        titles: dict[str, list[str]] = {}
        for check in good:
            titles.setdefault(check.title, []).append("" if check.item == "boat" else check.item)
        listed = [
            f"{title} ({', '.join(named)})" if (named := [one for one in items if one]) else title
            for title, items in titles.items()
        ]
        said.append(f"Found good: {'; '.join(listed)}.")
    measured = [
        f"{check.item}, {reading.reading} {found_text(reading, units)}"
        for check in good
        for reading in check.attempts[-1].readings
        if reading.value is not None and reading.verdict == "pass" and reading.found
    ]
    if measured:
        said.append(f"Measured: {'; '.join(measured)}.")
    said += [f"{_upper(check.item)}: {_stopped(note)}" for check in good if (note := check.attempts[-1].note)]
    return tuple(said)


def _contested(check: CheckVerdict, number: int | None, units: str) -> str:
    last = check.attempts[-1]
    wanted = (*BAD, *_UNDECIDED)
    facts = [sentence_of(reading, units) for reading in last.readings if reading.verdict in wanted]
    said = check.disagreement or "; ".join(facts)
    if not said and check.verdict == "not-done":
        left = [reading.reading for reading in last.readings if reading.verdict == "not-done"]
        said = f"{check.title} was begun; not read: {', '.join(left)}"
    elif not said and check.verdict == "does-not-apply":
        said = f"{check.title} doesn’t apply"
    note = f" {_stopped(_upper(last.note))}" if last.note and last.note != said else ""
    refer = f" (Recommendation {number}.)" if number else ""
    return f"{_upper(check.item)}: {_stopped(said or check.title)}{note}{refer}"


def _stopped(text: str) -> str:
    return text if text[-1:] in ".!?" else f"{text}."


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]


def _not_made(plan: Plan, assessment: Assessment) -> list[tuple[str, int]]:
    titles = {line.system: line.title for line in plan.summary}
    counted = Counter(check.system for check in assessment.checks if not check.attempts)
    return [(titles.get(system, system), number) for system, number in counted.most_common()]


def _kit(plan: Plan, assessment: Assessment) -> list[str]:
    """Return the instruments that the checks that were made call for; a register says more of them."""
    begun = {check.id for check in assessment.checks if check.attempts}
    used = {name for check in plan.checks if check.id in begun for name in check.instruments}
    return [item.title for item in plan.kit if item.kind == "instrument" and item.id in used]
