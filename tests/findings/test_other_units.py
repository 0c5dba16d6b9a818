"""Numbers keep the unit that they were typed under, whatever units the plan is drafted in next."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plangen.assess.assess import assess_findings
from plangen.collect.collect import collect
from plangen.collect.field_names import plan_value, read_plan_value, reading_field
from plangen.findings.blank import findings_text
from plangen.findings.carry import carry
from plangen.findings.read import read_findings
from plangen.plan.model import Plan
from plangen.spec.problems import InputProblems
from tests.assess.building import check, expectation, series
from tests.collect.forms import form, small_plan

UNITS = ("metric", "us", "both")
LABELS = ("m", "mm", "L", "L/min", "bar", "kPa", "°C", "K", "kg", "V", "rpm", "flushes", "%", "kn")
typed_numbers = st.one_of(
    st.integers(-20, 400),
    st.floats(0.1, 400, allow_nan=False).map(lambda x: round(x, 2)),
    st.sampled_from(
        ["14,1", "~12", "12-13", "> 20", "<5", "1 200", "3 bar", "14 °F", "2.5 gal", "n/a", "yes", "12.70"]
    ),
)


def plan_of(label: str, low: float, high: float, units: str) -> Plan:
    """A plan of one number and one series."""
    points = {1.0: (low, high), 2.0: (low, high)}
    return small_plan(
        check(
            "a@boat", expectation("one", unit=label, low=low, high=high), series("more", points, unit=label)
        ),
        digest=units[0] * 64,
    ).model_copy(update={"units": units})


def written(value: Any) -> str:
    """A value as somebody types it into the file."""
    return (
        value
        if isinstance(value, str) and value[0].isalpha()
        else f'"{value}"'
        if isinstance(value, str)
        else str(value)
    )


def verdicts(text: str, plan: Plan) -> list[Any]:
    """What a findings file comes to."""
    (judged,) = assess_findings(plan, read_findings(text, "x", plan)).checks
    return [
        (reading.verdict, [point.verdict for point in reading.points])
        for attempt in judged.attempts
        for reading in attempt.readings
    ]


@settings(max_examples=150, deadline=None)
@given(
    st.sampled_from(LABELS),
    st.floats(-10, 100),
    st.floats(0.5, 300),
    st.lists(st.sampled_from(UNITS), min_size=2, max_size=4),
    typed_numbers,
    st.lists(typed_numbers, max_size=2),
)
def test_no_verdict_changes_when_the_plan_is_drafted_in_other_units(
    label: str, low: float, width: float, units: list[str], one: Any, more: list[Any]
) -> None:
    plans = [plan_of(label, low, low + width, system) for system in units]
    text = findings_text(plans[0])
    text = text.replace("        one:\n", f"        one: {written(one)}   # mine\n")
    text = text.replace(
        "        more: []\n", f"        more: [{', '.join(written(value) for value in more)}]\n"
    )
    try:
        first = verdicts(text, plans[0])
    except InputProblems:
        return  # a unit that doesn't fit is refused, as it should be
    for before, after in pairwise(plans):
        text = carry(text, "x", before, after).text
        assert verdicts(text, after) == first
    assert "# mine" in text


def test_the_unit_is_written_behind_the_number_as_it_was_typed() -> None:
    """15.8 in stay 15.8 in; the zero that was typed stays, too."""
    us, metric = (plan_of("mm", 380.0, 420.0, units) for units in ("us", "metric"))
    text = (
        findings_text(us)
        .replace("        one:\n", "        one: 15.80 # rule\n")
        .replace("more: []", "more: [15.8, null]")
    )
    text = carry(text, "x", us, metric).text
    assert "        one: 15.80 in # rule\n" in text
    assert "        more: [15.8 in, null]\n" in text
    assert carry(text, "x", metric, metric).text == text


def test_without_the_plan_before_the_file_says_its_units() -> None:
    us, metric = (plan_of("mm", 380.0, 420.0, units) for units in ("us", "metric"))
    text = findings_text(us).replace("        one:\n", "        one: 15.8\n")
    assert "one: 15.8 in" in carry(text, "x", None, metric).text
    assert verdicts(text, metric)[0][0] == "pass"


@pytest.mark.parametrize(("printed", "now"), [("us", "metric"), ("metric", "us"), ("us", "us")])
def test_a_form_carries_its_units(printed: str, now: str) -> None:
    """NIST SP 811, B.8: 1 in is 25.4 mm, so 15.8 in is 401 mm."""
    old, plan = plan_of("mm", 380.0, 420.0, printed), plan_of("mm", 380.0, 420.0, now)
    number = {"us": "15.8", "metric": "401"}[printed]
    filled = form(old, {reading_field(old.checks[0], 0): number, reading_field(old.checks[0], 1, 0): number})
    identity, units = read_plan_value(plan_value(old))
    assert (identity, units) == (filled.boat, printed)
    filled = type(filled)(filled.name, filled.boat, filled.digest, False, filled.fields, units)
    text = collect(findings_text(plan), "x", plan, [filled]).text
    assert verdicts(text, plan) == [("pass", []), ("not-done", ["pass", "not-done"])]
    assert collect(text, "x", plan, [filled]).text == text


def test_each_number_keeps_the_unit_of_its_own_reading() -> None:
    lengths, volts = expectation("length", unit="m", low=1.0), expectation("volts", unit="V", low=1.0)
    us, metric = (
        small_plan(check("a@boat", volts, lengths)).model_copy(update={"units": units})
        for units in ("us", "metric")
    )
    text = (
        findings_text(us)
        .replace("        length:\n", "        length: 33\n")
        .replace("        volts:\n", "        volts: 12\n")
    )
    text = carry(text, "x", us, metric).text
    assert "        length: 33 ft\n" in text
    assert "        volts: 12\n" in text
