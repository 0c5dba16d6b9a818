"""The verdict on a figure: against the limits of the reading that it gives, or its own."""

from __future__ import annotations

from plangen.assess.derived.collect import Found, last_reading, places
from plangen.assess.derived.data import SINGLE, Point, at_point
from plangen.assess.derived.work_out import Figures, Outcome
from plangen.assess.derived.workers import WORKERS
from plangen.assess.model import DerivedFigure, PointVerdict, Verdict
from plangen.assess.verdicts import decide, worst
from plangen.packs.figures import FIGURES
from plangen.plan.model import Expectation, PlannedCheck, PlannedFigure, SeriesPoint
from plangen.spec.quantity import number_text

#: Figures are written with so many decimals; their verdicts are reached before.
_DECIMALS = 4


def judge_figure(check: PlannedCheck, index: int, outcome: Outcome, figures: Figures) -> DerivedFigure:
    """Return a figure with its verdict and how it was worked out."""
    planned = check.derive[index]
    expected = next((e for e in check.expect if e.id == planned.gives), None)
    found = _in_unit_of(expected, outcome.found, planned)
    points = _points(planned, expected, found) if found is not None else ()
    verdicts = [point.verdict for point in points]
    verdict: Verdict | None = worst(verdicts) if verdicts and set(verdicts) != {"recorded"} else None
    disagreement = figures.disagreement(planned)
    if outcome.fault or (disagreement and verdict is not None):
        verdict = "unclear"
    how = _how(check, planned, figures)
    series = found is not None and SINGLE not in found.values
    return DerivedFigure(
        id=_id(check, index),
        title=planned.title,
        item=check.item,
        value=None if found is None or series else _rounded(found.values[SINGLE]),
        values=_values(found) if found is not None else (),
        unit=expected.unit if expected is not None else planned.unit,
        expected=expected.shown if expected is not None else planned.shown,
        uncertainty=None if found is None or series else _rounded(found.uncertainties[SINGLE]),
        verdict=verdict,
        points=points if series else (),
        point_unit=(FIGURES[planned.figure].points or "") if series else "",
        how="; ".join(part for part in (how, outcome.fault, disagreement) if part),
        checks=tuple(dict.fromkeys([check.id, *(place.check for place in places(planned))])),
        reading=planned.gives,
        source=expected.source if expected is not None else planned.source,
    )


def _values(found: Found) -> tuple[tuple[float, float], ...]:
    return tuple(
        (point, round(value, _DECIMALS)) for point, value in found.values.items() if point is not None
    )


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(value, _DECIMALS)


def _id(check: PlannedCheck, index: int) -> str:
    name = check.derive[index].figure
    before = sum(figure.figure == name for figure in check.derive[:index])
    return f"{name}{f'-{before + 1}' if before else ''}/{check.id}"


def _in_unit_of(expected: Expectation | None, found: Found | None, planned: PlannedFigure) -> Found | None:
    if found is None or expected is None:
        return found
    return found.converted(expected.unit, FIGURES[planned.figure].points or "")


def _points(planned: PlannedFigure, expected: Expectation | None, found: Found) -> tuple[PointVerdict, ...]:
    if expected is not None and expected.series and SINGLE not in found.values:
        return tuple(_of_series(point, found) for point in expected.series)
    low, high = (expected.low, expected.high) if expected is not None else (planned.low, planned.high)
    if expected is not None and SINGLE not in found.values:
        low = high = None
    return tuple(_judged(point, value, low, high, None, found) for point, value in found.values.items())


def _of_series(expected: SeriesPoint, found: Found) -> PointVerdict:
    value = at_point(found.values, expected.point)
    if value is None:
        return PointVerdict(
            point=expected.point,
            low=expected.low,
            value=expected.value,
            high=expected.high,
            verdict="not-done",
        )
    return _judged(expected.point, value, expected.low, expected.high, expected.value, found)


def _judged(
    point: Point, value: float, low: float | None, high: float | None, middle: float | None, found: Found
) -> PointVerdict:
    known = {place: width for place, width in found.uncertainties.items() if width is not None}
    uncertainty = at_point(known, point)
    return PointVerdict(
        point=point if point is not None else 0.0,
        found=_rounded(value),
        low=low,
        value=middle,
        high=high,
        verdict=decide(value, low, high, uncertainty),
        uncertainty=_rounded(uncertainty),
    )


def _how(check: PlannedCheck, planned: PlannedFigure, figures: Figures) -> str:
    """Say how a figure was worked out, of which readings and values."""
    parts = [WORKERS[planned.figure].how]
    for place in places(planned):
        other = figures.checks[place.check]
        reading = last_reading(other, place.reading)
        item = "" if place.check == check.id else f" of {other.item}"
        found = reading.found if reading is not None and reading.found else "worked out"
        unit = reading.unit if reading is not None and reading.points else ""
        words = reading.reading if reading is not None else figures.words(place)
        parts.append(f"{words}{item}: {found} {unit}".rstrip())
    parts += [f"{name.replace('_', ' ')}: {shown}" for name, shown in planned.inputs_shown.items()]
    if planned.at is not None:
        parts.append(f"at {number_text(planned.at)} {FIGURES[planned.figure].points or ''}".rstrip())
    written = last_reading(figures.checks[check.id], planned.gives) if planned.gives else None
    if written is not None and written.found:
        parts.append(f"written down aboard: {written.found}")
    return "; ".join(parts)
