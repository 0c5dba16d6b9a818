"""Verdicts: a reading against its limits, with the accuracy of the instrument."""

from __future__ import annotations

import datetime
from collections.abc import Mapping

from plangen.assess.accuracy import Accuracy, accuracy_of
from plangen.assess.answers import judge_identity, judge_text
from plangen.assess.model import WORST_LAST, PointVerdict, ReadingVerdict, Verdict
from plangen.assess.reading import shown, verdict_on
from plangen.findings.days import years_since
from plangen.findings.model import Typed
from plangen.findings.parse_reading import TypedNumber, says_not_applicable, typed_number
from plangen.formulas.uncertainty import conformity
from plangen.plan.format import unit_words
from plangen.plan.model import Expectation, KitItem
from plangen.spec.quantity import number_text

_STATEMENTS: Mapping[str, Verdict] = {
    "pass": "pass",
    "conditional pass": "leaning-pass",
    "conditional fail": "leaning-fail",
    "fail": "fail",
}

#: Expanded uncertainty (k = 2) of a rectangular distribution is 2/sqrt(3) of the error limit (JCGM 100, 4.3.7).
_EXPANSION = 2 / 3**0.5


def worst(verdicts: list[Verdict]) -> Verdict:
    """Return the worst of several verdicts; none at all counts as not done, and conditions of the trial count for nothing.

    >>> worst(["pass", "leaning-fail", "recorded"])
    'leaning-fail'
    """
    counting = [verdict for verdict in verdicts if verdict in WORST_LAST]
    return max(counting, key=WORST_LAST.index, default="not-done")


def decide(reading: float, low: float | None, high: float | None, uncertainty: float | None) -> Verdict:
    """Return the verdict on a number; without a known uncertainty, the limits alone decide.

    The decision rule is that of ILAC-G8:09/2019 with a guard band as wide as the expanded uncertainty
    (JCGM 106:2012): inside the band a reading only leans to one side.
    """
    if low is None and high is None:
        return "recorded"
    return _STATEMENTS[conformity(reading, uncertainty or 0.0, low, high)]


def judge_reading(
    expected: Expectation,
    typed: Typed,
    used: str | None,
    kit: Mapping[str, KitItem],
    day: datetime.date | None,
) -> ReadingVerdict:
    """Return the verdict on one reading as it was typed."""
    if typed is None or typed in ("", []):
        return verdict_on(expected, "", "not-done")
    if says_not_applicable(typed):
        return verdict_on(expected, shown(typed), "does-not-apply")
    if expected.series:
        return _judge_series(expected, typed, used, kit)
    if expected.text is not None:
        return judge_text(expected, typed)
    if expected.record not in (None, "count"):
        return judge_identity(expected, typed, day)
    if expected.unit == "years" and (age := years_since(typed, day)) is not None:
        judged = _judge_number(expected, age, used, kit)
        return judged.model_copy(update={"found": f"{shown(typed)} ({judged.found})"})
    if not expected.numeric and not typed_number(typed, expected.unit).is_single:
        return verdict_on(expected, shown(typed), "recorded")
    return _judge_number(expected, typed, used, kit)


def _judge_number(
    expected: Expectation, typed: Typed, used: str | None, kit: Mapping[str, KitItem]
) -> ReadingVerdict:
    number = typed_number(typed, expected.unit)
    if number.fault:
        return verdict_on(expected, shown(typed), "unclear", f"{number.fault}; read it by hand")
    if not number.is_single:
        return _judge_between(expected, typed, number, used, kit)
    assert number.number is not None
    accuracy = accuracy_of(expected, number.number, used, kit)
    uncertainty = accuracy.uncertainty if accuracy else None
    verdict = decide(number.number, expected.low, expected.high, uncertainty)
    found = (
        f"{number.number:.10g} {unit_words(expected.unit, number.number)}".strip()
        if isinstance(typed, (int, float))
        else shown(typed)
    )
    return verdict_on(
        expected,
        found,
        verdict,
        _reason(verdict, accuracy, expected.unit, number.about),
        value=number.number,
        instrument=accuracy.instrument if accuracy else None,
        uncertainty=uncertainty,
        deciding_accuracy=_deciding(number.number, expected, verdict),
    )


def _judge_between(
    expected: Expectation, typed: Typed, number: TypedNumber, used: str | None, kit: Mapping[str, KitItem]
) -> ReadingVerdict:
    """Return the verdict on a range, or on a reading of which only a bound was typed: whether all of it is good or bad."""
    ends = [end for end in (number.low, number.high) if end is not None]
    accuracy = accuracy_of(expected, max(ends, key=abs), used, kit)
    uncertainty = accuracy.uncertainty if accuracy else None

    def beyond(end: float | None, low: float | None, high: float | None) -> bool:
        outside = end is not None and (low, high) != (None, None)
        return outside and end is not None and decide(end, low, high, uncertainty) == "fail"

    def within(end: float | None, low: float | None, high: float | None) -> Verdict:
        if low is None and high is None:
            return "pass"
        return "unclear" if end is None else decide(end, low, high, uncertainty)

    if beyond(number.low, None, expected.high) or beyond(number.high, expected.low, None):
        verdict: Verdict = "fail"
    else:
        verdict = worst([within(number.low, expected.low, None), within(number.high, None, expected.high)])
        verdict = verdict if verdict in ("pass", "leaning-pass") else "unclear"
    reason = (
        ""
        if verdict in ("pass", "fail")
        else "what was typed may lie within the limits or outside; read it again"
    )
    return verdict_on(
        expected,
        shown(typed),
        verdict,
        reason,
        instrument=accuracy.instrument if accuracy else None,
        uncertainty=uncertainty,
    )


def _reason(verdict: Verdict, accuracy: Accuracy | None, unit: str, about: bool) -> str:
    parts = ["typed as an approximate value"] if about else []
    if verdict == "recorded":
        return "".join(parts)
    if accuracy is None:
        parts.append("no instrument is named, so the limits alone decide")
    elif accuracy.uncertainty is None:
        parts.append(f"the accuracy of {accuracy.instrument} isn't known, so the limits alone decide")
    elif verdict in ("leaning-pass", "leaning-fail"):
        parts.append(
            f"nearer to the limit than the uncertainty of {accuracy.instrument} (± {number_text(accuracy.uncertainty)} {unit})".rstrip()
        )
    if accuracy is not None and accuracy.typical and accuracy.uncertainty:
        parts.append("with the accuracy usual for such an instrument")
    return "; ".join(parts)


def _deciding(reading: float, expected: Expectation, verdict: Verdict) -> str | None:
    """Return the error limit of an instrument that would decide a reading which is too close to call."""
    if verdict not in ("leaning-pass", "leaning-fail"):
        return None
    margins = [abs(limit - reading) for limit in (expected.low, expected.high) if limit is not None]
    margin = min(margins)
    if margin == 0:
        return "none: the reading stands on the limit"
    return f"± {number_text(margin / _EXPANSION)} {expected.unit}".strip()


def _judge_series(
    expected: Expectation, typed: Typed, used: str | None, kit: Mapping[str, KitItem]
) -> ReadingVerdict:
    values = typed if isinstance(typed, list) else [typed]
    points: list[PointVerdict] = []
    faults: list[str] = []
    for index, point in enumerate(expected.series):
        value = values[index] if index < len(values) else None
        if value is None or value == "":
            points.append(
                PointVerdict(
                    point=point.point, low=point.low, value=point.value, high=point.high, verdict="not-done"
                )
            )
            continue
        number = typed_number(value, expected.unit)
        if not number.is_single or number.number is None:
            fault = number.fault or "no single number"
            faults.append(f"at {number_text(point.point)}: {fault}")
            verdict: Verdict = "unclear"
            uncertainty = None
        else:
            accuracy = accuracy_of(expected, number.number, used, kit)
            uncertainty = accuracy.uncertainty if accuracy else None
            verdict = decide(number.number, point.low, point.high, uncertainty)
        points.append(
            PointVerdict(
                point=point.point,
                found=number.number,
                low=point.low,
                value=point.value,
                high=point.high,
                verdict=verdict,
                uncertainty=uncertainty,
            )
        )
    counting = [point.verdict for point in points if not expected.any_point or point.verdict != "not-done"]
    return verdict_on(
        expected,
        shown(values),
        worst(counting),
        "; ".join(faults),
        points=tuple(points),
    )
