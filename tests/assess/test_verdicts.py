"""Verdicts on single readings: typed forms, series, dates, text, and what can't be read."""

from __future__ import annotations

import datetime
from typing import Any

import pytest

from plangen.assess.verdicts import judge_reading, worst
from plangen.plan.model import KitItem
from tests.assess.building import expectation, instrument, series

DAY = datetime.date(2027, 5, 14)
VOLTS = expectation(unit="V", low=12.6, high=12.8)


def judged(expected: Any, typed: Any, used: str | None = None, kit: dict[str, KitItem] | None = None) -> Any:
    return judge_reading(expected, typed, used, kit or {}, DAY)


@pytest.mark.parametrize("typed", [12.7, "12.7", "12,7", "12.7v", "12.7 V", "12700 mV"])
def test_a_number_is_read_as_people_type_it(typed: Any) -> None:
    found = judged(VOLTS, typed)
    assert (found.verdict, found.value) == ("pass", pytest.approx(12.7))


def test_a_temperature_in_another_unit() -> None:
    # 212 °F is the boiling point of water, 100 °C
    found = judged(expectation(unit="°C", high=100.5), "212 °F")
    assert (found.verdict, found.value) == ("pass", pytest.approx(100.0))


@pytest.mark.parametrize("typed", [None, "", []])
def test_a_blank_is_not_done(typed: Any) -> None:
    assert judged(VOLTS, typed).verdict == "not-done"


@pytest.mark.parametrize("typed", ["1,270", "12 or 13", "full", "12.7 L", True])
def test_what_can_be_read_in_two_ways_or_none_is_unclear_and_kept(typed: Any) -> None:
    found = judged(VOLTS, typed)
    assert found.verdict == "unclear"
    assert found.found
    assert "read it by hand" in found.reason


def test_without_an_instrument_the_limits_alone_decide() -> None:
    found = judged(VOLTS, 12.61)
    assert found.verdict == "pass"
    assert "limits alone decide" in found.reason


def test_an_accuracy_that_was_written_down_beats_the_catalogue() -> None:
    kit = {"meter": instrument(accuracy_fixed=0.2, unit="V")}
    expected = VOLTS.model_copy(update={"instrument": "meter"})
    coarse, fine = judged(expected, 12.65, kit=kit), judged(expected, 12.65, "bench meter ± 0.01 V", kit)
    assert (coarse.verdict, fine.verdict) == ("leaning-pass", "pass")
    assert "usual for such an instrument" in coarse.reason
    assert fine.instrument == "bench meter ± 0.01 V"


def test_too_close_to_call_names_the_accuracy_that_would_decide() -> None:
    kit = {"meter": instrument(accuracy_fixed=0.2, unit="V")}
    expected = expectation(unit="V", low=12.0, instrument="meter")
    found = judged(expected, 12.1, kit=kit)
    # U = 2/sqrt(3) x limit (JCGM 100, 4.3.7, rectangular): 0.1 V of margin needs a limit of 0.1 x sqrt(3)/2
    assert found.deciding_accuracy == "± 0.0866 V"
    assert judged(expected, 12.1, "meter ± 0.086 V", kit).verdict == "pass"
    assert judged(expected, 12.0, kit=kit).deciding_accuracy == "none: the reading stands on the limit"


def test_a_series_is_as_good_as_its_worst_point() -> None:
    expected = series("gauge", {30: (24, 36), 60: (54, 66), 90: (84, 96)}, unit="L", series_unit="L")
    found = judged(expected, [30, "70 L", 90])
    assert [point.verdict for point in found.points] == ["pass", "fail", "pass"]
    assert found.verdict == "fail"
    assert [p.verdict for p in judged(expected, [30, None]).points] == ["pass", "not-done", "not-done"]
    unread = judged(expected, [30, "half", 90])
    assert unread.verdict == "unclear"
    assert "at 60: no single number" in unread.reason


@pytest.mark.parametrize(
    ("typed", "verdict"),
    [
        (datetime.date(2027, 5, 14), "pass"),
        ("2027-05-13", "fail"),
        ("2031-01-01", "pass"),
        ("05/27", "unclear"),
    ],
)
def test_an_expiry_date_is_held_against_the_day_of_trial(typed: Any, verdict: str) -> None:
    assert judged(expectation(record="expiry-date"), typed).verdict == verdict


def test_an_expiry_date_without_a_day_of_trial_is_recorded() -> None:
    expected = expectation(record="expiry-date")
    assert judge_reading(expected, "2027-05-13", None, {}, None).verdict == "recorded"


@pytest.mark.parametrize("record", ["serial-number", "service-date", "text", "count"])
def test_what_is_only_written_down_is_recorded(record: str) -> None:
    found = judged(expectation(record=record), "A-17")
    assert (found.verdict, found.found) == ("recorded", "A-17")


def test_a_number_that_is_only_written_down_keeps_its_value_and_accuracy() -> None:
    kit = {"meter": instrument(accuracy_fixed=0.5, unit="°C")}
    found = judged(expectation(unit="°C", record="count", instrument="meter"), "21.4 °C", kit=kit)
    assert (found.verdict, found.value, found.reason) == ("recorded", 21.4, "")
    assert found.uncertainty == pytest.approx(0.5 * 2 / 3**0.5)  # JCGM 100, 4.3.7


@pytest.mark.parametrize(
    ("wanted", "typed", "verdict"),
    [
        ("yes", "Yes", "pass"),
        ("yes", True, "pass"),
        ("yes", "no", "fail"),
        ("no", False, "pass"),
        ("none", "None", "pass"),
        ("none", "no", "pass"),
        ("none", "yes", "fail"),
        ("none", "two", "unclear"),
        ("green to starboard", "red", "unclear"),
    ],
)
def test_words(wanted: str, typed: Any, verdict: str) -> None:
    assert judged(expectation(text=wanted), typed).verdict == verdict


def test_the_order_of_verdicts() -> None:
    assert worst(["pass", "leaning-pass", "not-done"]) == "not-done"
    assert worst(["fail", "unclear", "not-done"]) == "fail"
    assert worst([]) == "not-done"
