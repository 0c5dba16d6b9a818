"""A bare number is read in the unit that the plan prints beside it."""

from __future__ import annotations

import pytest

from plangen.assess.assess import assess_findings
from plangen.findings.parse_reading import as_printed, typed_number
from tests.assess.building import check, expectation, findings, plan, series


@pytest.mark.parametrize(("units", "verdict"), [("us", "pass"), ("metric", "fail"), ("both", "fail")])
def test_a_bare_number_is_read_in_the_plans_unit(units: str, verdict: str) -> None:
    """NIST SP 811, B.8: 1 gal (US) is 3.785 412 L, so 2.9 gal/min is 10.98 L/min."""
    planned = plan(check("flow@pump", expectation("flow", unit="L/min", low=10.2))).model_copy(
        update={"units": units}
    )
    (found,) = assess_findings(planned, findings({"flow@pump": {"flow": 2.9}})).checks
    assert found.verdict == verdict
    if units == "us":
        assert found.attempts[0].readings[0].value == pytest.approx(2.9 * 3.785412, rel=1e-6)
        assert found.attempts[0].readings[0].found == "2.9 gal/min"


def test_a_series_too_and_a_unit_that_was_typed_stands() -> None:
    """NIST SP 811, B.8: t/°C = (t/°F - 32)/1.8: 176 °F is 80 °C."""
    readings = series("coolant", {1000.0: (70.0, 90.0), 2000.0: (70.0, 90.0)}, unit="°C", series_unit="rpm")
    planned = plan(check("coolant@engine", readings)).model_copy(update={"units": "us"})
    (found,) = assess_findings(planned, findings({"coolant@engine": {"coolant": [176, "81 °C"]}})).checks
    assert [point.found for point in found.attempts[0].readings[0].points] == pytest.approx([80.0, 81.0])


@pytest.mark.parametrize(("typed", "expected"), [("9 °F", 5.0), ("5 °C", 5.0), ("5 K", 5.0), (5, 5.0)])
def test_a_difference_of_temperatures_has_no_zero(typed: object, expected: float) -> None:
    """NIST SP 811, B.8: a difference of 1 °F is 5/9 K."""
    assert typed_number(typed, "K").number == pytest.approx(expected)


@pytest.mark.parametrize("typed", ["yes", "n/a", None, True, "3 of 4", "12 L/min", ""])
def test_what_is_no_bare_number_stands_as_typed(typed: object) -> None:
    assert as_printed(typed, "L/min", "us") == typed


@pytest.mark.parametrize("typed", ["15-17 kn", "12.1/12.3", "3 of 4"])
def test_several_numbers_are_kept_and_read_by_hand(typed: str) -> None:
    planned = plan(check("wind@boat", expectation("true wind", unit="kn", high=16.0)))
    (found,) = assess_findings(planned, findings({"wind@boat": {"true-wind": typed}})).checks
    assert found.verdict == "unclear"
    assert found.attempts[0].readings[0].found == typed


def test_what_was_found_is_shown_as_finely_as_it_was_typed() -> None:
    planned = plan(check("rest@house", expectation("voltage", unit="V", low=12.74)))
    (found,) = assess_findings(planned, findings({"rest@house": {"voltage": 12.735}})).checks
    assert found.attempts[0].readings[0].found == "12.735 V"
    assert found.verdict == "fail"
