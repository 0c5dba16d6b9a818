"""Verdicts: a reading against its limits, with the accuracy of the instrument."""

from __future__ import annotations

import datetime
from collections.abc import Mapping

from plangen.assess.accuracy import Accuracy, accuracy_of
from plangen.assess.model import WORST_LAST, PointVerdict, ReadingVerdict, Verdict
from plangen.findings.model import Typed
from plangen.findings.parse_reading import typed_answer, typed_number
from plangen.formulas.uncertainty import conformity
from plangen.plan.model import Expectation, KitItem
from plangen.spec.quantity import number_text

_STATEMENTS: Mapping[str, Verdict] = {
    "pass": "pass",
    "conditional pass": "leaning-pass",
    "conditional fail": "leaning-fail",
    "fail": "fail",
}

#: What is expected where nothing should be there: the answer no says the same.
_NOTHING = ("none", "nothing")

#: Expanded uncertainty (k = 2) of a rectangular distribution is 2/sqrt(3) of the error limit (JCGM 100, 4.3.7).
_EXPANSION = 2 / 3**0.5


def worst(verdicts: list[Verdict]) -> Verdict:
    """Return the worst of several verdicts; none at all counts as not done.

    >>> worst(["pass", "leaning-fail", "recorded"])
    'leaning-fail'
    """
    return max(verdicts, key=WORST_LAST.index, default="not-done")


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
        return _verdict(expected, "", "not-done")
    if expected.series:
        return _judge_series(expected, typed, used, kit)
    if expected.text is not None:
        return _judge_text(expected, typed)
    if expected.record not in (None, "count"):
        return _judge_identity(expected, typed, day)
    if not expected.numeric and typed_number(typed, expected.unit).number is None:
        return _verdict(expected, _shown(typed), "recorded")
    return _judge_number(expected, typed, used, kit)


def _verdict(
    expected: Expectation, found: str, verdict: Verdict, reason: str = "", **more: object
) -> ReadingVerdict:
    fields = {
        "reading": expected.reading, "expected": expected.shown, "found": found, "unit": expected.unit, "verdict": verdict,
        "reason": reason, "source": expected.source, "series_unit": expected.series_unit, **more,
    }  # fmt: skip
    return ReadingVerdict.model_validate(fields)


def _shown(typed: Typed) -> str:
    if isinstance(typed, bool):
        return "yes" if typed else "no"
    if isinstance(typed, list):
        return ", ".join("–" if value is None else _shown(value) for value in typed)
    return f"{typed:g}" if isinstance(typed, float) else str(typed)


def _judge_number(
    expected: Expectation, typed: Typed, used: str | None, kit: Mapping[str, KitItem]
) -> ReadingVerdict:
    number = typed_number(typed, expected.unit)
    if number.number is None:
        return _verdict(expected, _shown(typed), "unclear", f"{number.fault}; read it by hand")
    accuracy = accuracy_of(expected, number.number, used, kit)
    uncertainty = accuracy.uncertainty if accuracy else None
    verdict = decide(number.number, expected.low, expected.high, uncertainty)
    found = (
        f"{number.number:.10g} {expected.unit}".strip() if isinstance(typed, (int, float)) else _shown(typed)
    )
    return _verdict(
        expected,
        found,
        verdict,
        _reason(verdict, accuracy, expected.unit, number.about),
        value=number.number,
        instrument=accuracy.instrument if accuracy else None,
        uncertainty=uncertainty,
        deciding_accuracy=_deciding(number.number, expected, verdict),
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
        if number.number is None:
            faults.append(f"at {number_text(point.point)}: {number.fault}")
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
    return _verdict(
        expected,
        _shown(values),
        worst([point.verdict for point in points]),
        "; ".join(faults),
        points=tuple(points),
    )


def _judge_identity(expected: Expectation, typed: Typed, day: datetime.date | None) -> ReadingVerdict:
    if expected.record != "expiry-date":
        return _verdict(expected, _shown(typed), "recorded")
    date = _date(typed)
    if date is None:
        return _verdict(expected, _shown(typed), "unclear", "no date such as 2027-05-14; read it by hand")
    if day is None:
        return _verdict(expected, str(date), "recorded", "the plan names no day of trial")
    return _verdict(
        expected,
        str(date),
        "pass" if date >= day else "fail",
        "" if date >= day else f"expired before the trial ({day})",
    )


def _date(typed: Typed) -> datetime.date | None:
    if isinstance(typed, datetime.date):
        return typed
    try:
        return datetime.date.fromisoformat(str(typed).strip())
    except ValueError:
        return None


def _judge_text(expected: Expectation, typed: Typed) -> ReadingVerdict:
    wanted = (expected.text or "").strip().casefold()
    answer = typed_answer(typed)
    wanted_answer = False if wanted in _NOTHING else typed_answer(wanted)
    if wanted_answer is not None and answer is not None:
        return _verdict(expected, _shown(typed), "pass" if answer == wanted_answer else "fail")
    if str(typed).strip().casefold() == wanted or answer is True:
        return _verdict(expected, _shown(typed), "pass")
    if answer is False:
        return _verdict(expected, _shown(typed), "fail")
    return _verdict(
        expected, _shown(typed), "unclear", "neither yes, no nor the words expected; read it by hand"
    )
