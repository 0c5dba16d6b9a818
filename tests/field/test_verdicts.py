"""The field page says of a value what the assessment says of it: on random readings, and on random text."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from plangen.assess.bench import bench_of
from plangen.assess.checks import judge_checks
from plangen.findings.model import Typed
from plangen.findings.scalar import number_or_text
from plangen.plan.model import Expectation, KitItem, Plan, PlannedCheck, SeriesPoint
from plangen.print.field.plan_data import plan_data
from tests.assess.building import check, expectation, findings, instrument, plan
from tests.field.script import verdicts

UNITS = (
    "",
    "V",
    "mV",
    "A",
    "°C",
    "K",
    "L/min",
    "bar",
    "kn",
    "%",
    "°",
    "mm",
    "min",
    "h",
    "flushes",
    "openings",
    "ppm",
    "rpm",
    "dB(A)",
    "N·m",
    "cm²",
    "µS/cm",
)
KIT = (
    instrument("meter", title="Multimeter", accuracy_percent=0.5, accuracy_fixed=0.05, unit="V"),
    instrument("thermometer", title="Thermometer", accuracy_fixed=0.5, unit="°C"),
    instrument("gauge", title="Gauge", accuracy_percent=1.6, unit="psi"),
    instrument("tape", title="Tape", accuracy_fixed=2.0, unit="mm"),
    instrument("log", title="Log", accuracy_percent=3.0),
    instrument("eye", title="Eye"),
)
USED = (
    "",
    "",
    "",
    "Multimeter",
    "meter",
    "thermometer",
    "own meter ± 0.1 V",
    "± 2 %",
    "gauge ±0,05 bar",
    "+/- 1 °F",
    "a stick",
    "±",
)
PARTS = ("drain elbow", "vent hose", "pump union", "left from the left, in phase")
MARKS = "0123456789.,' -+~<>≤≥=–\u00a0\u202f"
WORDS = ("V", "mv", "knots", "°F", "Volts", "l", "gal/min", "%", "psi", "K", "flushes", "to", "about", "ca.", "at least", "less than", "ok", "OK", "not ok", "no", "yes",
    "n/a", "no: vent", "not: drain elbow, 2", "no; left from the left, in phase", "none", "x", "1", "14.3.2030", "2027-05", "May 2027", "12 Feb. 2030", "3/4/2027", "31/12/2026", "N.A.", "fine!", "✓", "ﬁne", "ſec", "ok\u2003", "m²", "min.")  # fmt: skip
numbers = st.one_of(st.integers(-50, 500).map(float), st.floats(-300, 3000).map(lambda x: round(x, 3)))


@st.composite
def limits(draw: st.DrawFn) -> tuple[float | None, float | None]:
    low, high = sorted((draw(numbers), draw(numbers)))
    which = draw(st.sampled_from(("both", "low", "high", "none")))
    return (low if which in ("both", "low") else None, high if which in ("both", "high") else None)


@st.composite
def expectations(draw: st.DrawFn, id: str) -> Expectation:
    kind = draw(st.sampled_from(("number", "number", "number", "series", "text", "parts", "record")))
    unit = draw(st.sampled_from(UNITS))
    used = draw(st.sampled_from((None, *(one.id for one in KIT))))
    common: dict[str, Any] = {"id": id, "instrument": used}
    if kind == "number":
        low, high = draw(limits())
        record = "count" if low is None and high is None and draw(st.booleans()) else None
        return expectation(id, unit=unit, low=low, high=high, record=record, condition=draw(st.integers(0, 4)) == 0, **common)  # fmt: skip
    if kind == "series":
        points = tuple(
            SeriesPoint(point=n, low=(own := draw(limits()))[0], high=own[1]) for n in (1.0, 2.0, 3.0)
        )
        return expectation(id, unit=unit, series=points, **common)
    if kind == "parts":
        return expectation(id, text="yes", parts=PARTS, **common)
    if kind == "text":
        return expectation(id, text=draw(st.sampled_from(("yes", "no", "none", "A", "5-B:C, powder", "agm"))), **common)  # fmt: skip
    return expectation(id, record=draw(st.sampled_from(("expiry-date", "serial-number", "text", "service-date"))), **common)  # fmt: skip


@st.composite
def near(draw: st.DrawFn, expected: Expectation) -> str:
    """A number at, near or far from a limit, as people write one."""
    ends = [x for x in (expected.low, expected.high, *(p.low for p in expected.series)) if x is not None]
    middle = draw(st.sampled_from(ends)) if ends else draw(numbers)
    value = middle + draw(st.sampled_from((0.0, 0.0, 0.01, -0.01, 0.1, -0.1, 1.0, -1.0, 40.0, -40.0)))
    text = f"{value:.{draw(st.integers(0, 3))}f}"
    text = text.replace(".", draw(st.sampled_from((".", ","))))
    before = draw(st.sampled_from(("", "", "", "~", "> ", "<", "≤ ", "ca. ", "more than ", "at most ")))
    after = draw(st.sampled_from(("", "", "", f" {expected.unit}", expected.unit.upper(), " °F", " gal/min", "psi", " Knots", "mV", f"-{value + 1:.1f}", " to 900")))  # fmt: skip
    return before + text + after


def texts() -> st.SearchStrategy[str]:
    pieces = st.one_of(st.sampled_from(WORDS), st.text(MARKS, max_size=6), st.text(max_size=4))
    return st.one_of(
        st.sampled_from(WORDS), st.lists(pieces, max_size=4).map(" ".join), st.text(MARKS, max_size=9), st.text(max_size=12)
    )  # fmt: skip


@st.composite
def readings(draw: st.DrawFn) -> tuple[tuple[Expectation, ...], dict[str, Any], dict[str, str]]:
    """What a check asks, what was typed for it, and with what it was read."""
    expected = [draw(expectations(f"r{number}")) for number in range(draw(st.integers(1, 3)))]
    conditions = tuple(one.id for one in expected if one.condition)
    expected = [one if one.condition else one.model_copy(update={"valid_if": conditions}) for one in expected]
    typed: dict[str, Any] = {}
    used: dict[str, str] = {}
    for one in expected:
        own = st.one_of(near(one), near(one), texts())
        if one.series:
            typed[one.id] = draw(st.one_of(st.lists(st.one_of(st.none(), own), min_size=1, max_size=3), own))
        elif one.parts:
            typed[one.id] = draw(st.one_of(texts(), st.lists(st.sampled_from((*PARTS, "vent", "lid")), max_size=3)))  # fmt: skip
        else:
            typed[one.id] = draw(own)
        used[one.id] = draw(st.sampled_from(USED))
    return tuple(expected), typed, used


def drawn(count: int) -> list[tuple[tuple[Expectation, ...], dict[str, Any], dict[str, str]]]:
    """Draw so many examples at once."""
    found: list[tuple[tuple[Expectation, ...], dict[str, Any], dict[str, str]]] = []

    @settings(max_examples=count, derandomize=True, phases=(Phase.generate,), database=None, deadline=None, suppress_health_check=list(HealthCheck))  # fmt: skip
    @given(readings())
    def draw(one: tuple[tuple[Expectation, ...], dict[str, Any], dict[str, str]]) -> None:
        found.append(one)

    draw()
    return found


def as_found(typed: Any) -> Typed:
    """What was typed, as it is written into the findings."""
    if isinstance(typed, list):
        return [None if one is None else number_or_text(one) for one in typed]
    return number_or_text(typed)


def compared(checks: list[PlannedCheck], kit: tuple[KitItem, ...], typed: dict[str, Any], used: dict[str, str], units: str) -> tuple[set[str], list[str]]:  # fmt: skip
    """Return the page's verdicts, and each reading of which page and assessment don't say the same."""
    whole: Plan = plan(*checks, kit=kit).model_copy(update={"units": units})
    tried = {}
    for one in checks:
        found = {e.id: as_found(typed[f"{one.id}#{e.id}"]) for e in one.expect}
        with_ = {e.id: text for e in one.expect if (text := used[f"{one.id}#{e.id}"])}
        tried[one.id] = [{"found": found, "with": with_}]
    kept = findings(tried).model_copy(update={"units": units})
    judged = judge_checks(whole, kept, bench_of(whole, kept))
    assessed = {f"{c.id}#{r.id}": r for c in judged for a in c.attempts for r in a.readings}
    shown = verdicts(plan_data(whole), typed, used)
    differing = []
    for one in checks:
        for e in one.expect:
            key = f"{one.id}#{e.id}"
            blank = "not-recorded" if e.condition else "not-done"  # nothing was typed for the whole check
            here = assessed[key].verdict if key in assessed else blank
            if shown[key] != here:
                differing.append(f"page {shown[key]}, assessment {here}: {typed[key]!r} with {used[key]!r} for {e!r}")  # fmt: skip
    return set(shown.values()), differing


def compare_drawn(count: int, units: str) -> tuple[set[str], list[str]]:
    """Return the verdicts that came up, and each reading of which page and assessment don't say the same."""
    examples = drawn(count)
    checks = [check(f"c{number}@boat", *expected) for number, (expected, _, _) in enumerate(examples)]
    typed = {f"c{n}@boat#{id}": text for n, (_, own, _) in enumerate(examples) for id, text in own.items()}
    used = {f"c{n}@boat#{id}": text for n, (_, _, own) in enumerate(examples) for id, text in own.items()}
    return compared(checks, KIT, typed, used, units)


def test_page_and_assessment_say_the_same_of_random_readings_and_random_text() -> None:
    said, differing = compare_drawn(300, "metric")
    assert said >= {"pass", "fail", "unclear", "recorded", "not-done"}
    assert not differing, "\n".join(differing[:5])


def test_page_and_assessment_say_the_same_where_us_units_are_printed() -> None:
    said, differing = compare_drawn(200, "us")
    assert said >= {"pass", "fail", "unclear"}
    assert not differing, "\n".join(differing[:5])


VOLTS = expectation("r", unit="V", low=12.5, instrument="meter")
WIND = expectation("wind", unit="kn", high=12.0, condition=True)
SPEED = expectation("speed", unit="kn", low=6.0, valid_if=("wind",))


@pytest.mark.parametrize(
    ("expected", "typed", "used", "verdict"),
    [
        # The meter is good to 0.5 % and 0.05 V: at 12.5 V an error limit of 0.1125 V, an expanded uncertainty of 0.13 V
        # (JCGM 100, 4.3.7); ILAC-G8:09/2019, 4.2.3, gives the four statements.
        (VOLTS, "12.7", "", "pass"),
        (VOLTS, "12,6", "", "leaning-pass"),
        (VOLTS, "12.4", "", "leaning-fail"),
        (VOLTS, "12.3", "", "fail"),
        (VOLTS, "12.6", "own meter ± 0.01 V", "pass"),
        (VOLTS, "12.4", "own meter ± 0.1 %", "fail"),
        (VOLTS, "> 13", "", "pass"),
        (VOLTS, "> 12", "", "unclear"),
        (VOLTS, "n/a", "", "does-not-apply"),
        (VOLTS, "1,200", "", "unclear"),
        (expectation("r", text="no"), "no", "", "pass"),
        (expectation("r", text="no"), "not ok", "", "fail"),
        (expectation("r", text="yes", parts=PARTS), "no: vent, drain elbow", "", "fail"),
        (expectation("r", record="expiry-date"), "13.5.2027", "", "fail"),
        (expectation("r", record="expiry-date"), "14.5.2027", "", "pass"),
        (expectation("r", record="expiry-date"), "May 2027", "", "pass"),
        (expectation("r", record="serial-number"), "NX 12345", "", "recorded"),
    ],
)
def test_a_typed_reading_is_judged_as_it_should_be(expected: Expectation, typed: str, used: str, verdict: str) -> None:  # fmt: skip
    key = f"c@boat#{expected.id}"
    said, differing = compared([check("c@boat", expected)], KIT, {key: typed}, {key: used}, "metric")
    assert (said, differing) == ({verdict}, [])


@pytest.mark.parametrize(("wind", "verdict"), [("10", "pass"), ("15", "limited"), ("", "pass")])
def test_a_reading_outside_its_conditions_is_limited_by_them(wind: str, verdict: str) -> None:
    typed = {"c@boat#wind": wind, "c@boat#speed": "6.5"}
    said, differing = compared([check("c@boat", WIND, SPEED)], (), typed, dict.fromkeys(typed, ""), "metric")
    assert verdict in said
    assert not differing
