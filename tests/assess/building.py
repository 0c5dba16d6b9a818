"""Small plans and findings, written by hand for the tests of the assessment."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from plangen.assess.assess import assess_findings
from plangen.assess.model import DerivedFigure
from plangen.findings.model import Findings
from plangen.packs.figures import FIGURES
from plangen.plan.model import (
    Boat,
    Cited,
    Expectation,
    KitItem,
    Plan,
    PlannedCheck,
    PlannedFigure,
    ReadingPlace,
    SeriesPoint,
    SystemSummary,
)
from plangen.spec.names import slug

SOURCE = Cited(id="common-practice")


def expectation(reading: str = "reading", **fields: Any) -> Expectation:
    """A reading with its limits."""
    return Expectation(
        **{
            "id": slug(reading),
            "reading": reading,
            "shown": "as planned",
            "basis": "standard",
            "source": SOURCE,
            **fields,
        }
    )


def series(
    reading: str, points: Mapping[float, tuple[float | None, float | None]], **fields: Any
) -> Expectation:
    """A reading at several points, each with its lower and upper limit."""
    listed = tuple(SeriesPoint(point=point, low=low, high=high) for point, (low, high) in points.items())
    return expectation(reading, series=listed, **fields)


def runs(reading: str, points: Iterable[float], unit: str, point_unit: str, **fields: Any) -> Expectation:
    """A series that is only written down."""
    free = dict.fromkeys(points, (None, None))
    return series(reading, free, unit=unit, series_unit=point_unit, record="count", **fields)


def check(id: str, *expect: Expectation, **fields: Any) -> PlannedCheck:
    """A check of one item."""
    plain: dict[str, Any] = {
        "id": id,
        "rule": f"test/{id.partition('@')[0]}",
        "system": "test",
        "title": id,
        "item": id.partition("@")[2] or "boat",
        "setting": "alongside",
        "minutes": 5,
        "people": 1,
        "grade": "by-date",
        "source": SOURCE,
    }
    return PlannedCheck(**{**plain, "expect": expect, **fields})


def figure(name: str, unit: str, readings: Mapping[str, Any], **fields: Any) -> PlannedFigure:
    """A figure; each role names `(check, reading)`, or a list of these."""
    places = {
        role: tuple(
            ReadingPlace(check=c, reading=slug(r)) for c, r in (given if isinstance(given, list) else [given])
        )
        for role, given in readings.items()
    }
    return PlannedFigure(figure=name, title=name, unit=unit, readings=places, **fields)


def instrument(id: str = "meter", **fields: Any) -> KitItem:
    """An instrument of the plan's kit."""
    return KitItem(**{"id": id, "title": id, "kind": "instrument", "checks": 1, **fields})


def plan(*checks: PlannedCheck, kit: Iterable[KitItem] = (), day: str | None = "2027-05-14") -> Plan:
    """A plan of the checks given."""
    minutes = sum(one.minutes for one in checks)
    return Plan(
        boat=Boat(name="Test", hull="sailing-monohull", condition="new", length_hull="12 m", trial_date=day),
        digest="0" * 64,
        units="metric",
        packs=(),
        summary=(
            SystemSummary(system="test", title="Test", checks=len(checks), measured=0, minutes=minutes),
        ),
        settings=(),
        checks=checks,
        kit=tuple(kit),
        law=(),
        gear=(),
        stores=(),
        questions=(),
        assumed=(),
        sources=(),
    )


def findings(checks: Mapping[str, Any], snags: Mapping[str, Any] | None = None, **fields: Any) -> Findings:
    """Findings; each check has one attempt's readings, or a list of attempts as the file writes them."""
    attempts = {id: given if isinstance(given, list) else [{"found": given}] for id, given in checks.items()}
    return Findings.model_validate(
        {"boat": "Test", "plan": "0" * 64, "checks": attempts, "snags": snags or {}, **fields}
    )


def worked_out(name: str, readings: Mapping[str, Any], **inputs: float | str) -> DerivedFigure:
    """Return the one figure that is worked out of readings: numbers, or series as `{point: value}`."""
    kind = FIGURES[name]
    expect = tuple(
        runs(role, value, kind.readings[role].unit, kind.points or "")
        if isinstance(value, Mapping)
        else expectation(role, unit=kind.readings[role].unit, record="count")
        for role, value in readings.items()
    )
    typed = {
        slug(role): list(value.values()) if isinstance(value, Mapping) else value
        for role, value in readings.items()
    }
    places = {role: ("check@boat", role) for role in readings}
    one = check("check@boat", *expect, derive=(figure(name, kind.unit, places, inputs=inputs),))
    (found,) = assess_findings(plan(one), findings({"check@boat": typed})).derived
    return found
