"""Verdicts on readings where one turns into another: at a limit, inside the guard band, by the accuracy that somebody wrote."""

from __future__ import annotations

import datetime
from typing import Any

import pytest

from plangen.assess.accuracy import accuracy_of, error_limits, states_accuracy
from plangen.assess.answers import judge_identity, judge_text
from plangen.assess.verdicts import decide, judge_reading
from plangen.formulas.uncertainty import expanded_uncertainty
from plangen.plan.model import KitItem
from tests.assess.building import expectation, instrument, series

DAY = datetime.date(2027, 5, 14)


def judged(expected: Any, typed: Any, used: str | None = None, *kit: KitItem) -> Any:
    return judge_reading(expected, typed, used, {one.id: one for one in kit}, DAY)


# --- what an instrument may be off by: U is 2/√3 = 1.1547 of it (JCGM 100, 4.3.7, k = 2)


@pytest.mark.parametrize(
    ("used", "unit", "reading", "error"),
    [
        # 2 % of 50 V; of a reading in per cent, 2 points; 1 °F is 5/9 of 1 K
        ("own ± 2 %", "V", 50.0, 1.0), ("own ± 2 %", "V", -50.0, 1.0), ("own ± 2 %", "%", 50.0, 2.0), ("own ± 0.5 V", "V", 50.0, 0.5),
        ("own +/- 500 mV", "V", 50.0, 0.5), ("own ± 0.5", "V", 50.0, 0.5), ("own ± 1 K", "°C", 20.0, 1.0), ("own ± 1 °C", "°C", 20.0, 1.0),
        ("own ± 1 °F", "°C", 20.0, 5 / 9), ("own ± 0.0 V", "V", 50.0, 0.0), ("own ± 0,5 V", "V", 50.0, 0.5),
    ],
)  # fmt: skip
def test_an_accuracy_that_somebody_wrote(used: str, unit: str, reading: float, error: float) -> None:
    found = accuracy_of(
        expectation(unit=unit, instrument="meter"), reading, used, {"meter": instrument(accuracy_fixed=9.0)}
    )
    assert found is not None
    assert found.uncertainty == pytest.approx(2 / 3**0.5 * error)
    assert (found.instrument, found.typical) == (used, False)
    assert states_accuracy(used)


def test_an_instrument_by_its_id_its_title_or_of_the_plan() -> None:
    kit = {
        "meter": instrument("meter", title="Bench meter", accuracy_percent=1.0, unit="V"),
        "lamp": instrument("lamp", title="Lamp"),
    }
    expected = expectation(unit="V", instrument="meter")
    for used in ("METER", "bench meter", None, "a neighbour's"):
        found = accuracy_of(expected, 50.0, used, kit)
        assert found is not None
        # 1 % of 50 V are 0.5 V
        assert found.uncertainty == pytest.approx(expanded_uncertainty(0.5))
        assert (found.instrument, found.typical) == (used or "Bench meter", True)
    unknown = accuracy_of(expected, 50.0, "lamp", kit)
    assert unknown is not None
    assert unknown.uncertainty is None
    alone = accuracy_of(expectation(unit="V"), 50.0, "a neighbour's", kit)
    assert alone is not None
    assert (alone.instrument, alone.uncertainty, alone.typical) == ("a neighbour's", None, False)
    assert accuracy_of(expectation(unit="V"), 50.0, None, kit) is None


@pytest.mark.parametrize(
    ("item", "label", "limits"),
    [
        (instrument(accuracy_fixed=0.2, unit="V"), "V", (0.0, 0.2)),
        (instrument(accuracy_fixed=0.2, accuracy_percent=1.0, unit="V"), "V", (1.0, 0.2)),
        (instrument(accuracy_percent=1.0), "V", (1.0, 0.0)),
        # 200 mV are 0.2 V, 0.2 V are 200 mV; a metre is no volt, and what is counted has no unit
        (instrument(accuracy_fixed=200.0, unit="mV"), "V", (0.0, 0.2)),
        (instrument(accuracy_fixed=0.2, unit="V"), "mV", (0.0, 200.0)),
        (instrument(accuracy_fixed=0.2, unit="m"), "V", None),
        (instrument(accuracy_fixed=0.2, unit="V"), "strokes", None),
        (instrument(accuracy_fixed=0.2, unit="strokes"), "V", None),
        (instrument(accuracy_fixed=0.2, unit=""), "V", (0.0, 0.2)),
        (instrument(accuracy_fixed=0.2, unit="V"), "", (0.0, 0.2)),
        (instrument(), "V", None),
    ],
)
def test_the_error_limits_of_an_instrument(
    item: KitItem, label: str, limits: tuple[float, float] | None
) -> None:
    found = error_limits(item, label)
    assert found == (pytest.approx(limits) if limits is not None else None)


# --- single readings


@pytest.mark.parametrize(
    ("reading", "uncertainty", "verdict"),
    [
        # limits 10 to 20, guard band 1 (ILAC-G8:09/2019, 4.2.2): good from 11 to 19, bad from 9 down and 21 up
        (11.0, 1.0, "pass"), (10.9, 1.0, "leaning-pass"), (10.0, 1.0, "leaning-pass"), (9.9, 1.0, "leaning-fail"), (8.9, 1.0, "fail"),
        (19.0, 1.0, "pass"), (19.1, 1.0, "leaning-pass"), (20.1, 1.0, "leaning-fail"), (21.1, 1.0, "fail"),
        (10.0, None, "pass"), (9.999, None, "fail"), (20.0, None, "pass"), (20.001, None, "fail"),
    ],
)  # fmt: skip
def test_inside_the_guard_band_a_reading_leans(
    reading: float, uncertainty: float | None, verdict: str
) -> None:
    assert decide(reading, 10.0, 20.0, uncertainty) == verdict


@pytest.mark.parametrize(("low", "high"), [(10.0, None), (None, 20.0), (None, None)])
def test_one_limit_decides_alone(low: float | None, high: float | None) -> None:
    assert decide(5.0, low, high, None) == ("fail" if low else "pass" if high else "recorded")
    assert decide(25.0, low, high, None) == ("pass" if low else "fail" if high else "recorded")


def test_the_nearer_limit_says_which_instrument_would_decide() -> None:
    # 12.55 V is 0.05 V from the lower limit and 0.35 V from the upper: 0.05 × √3/2 = 0.0433 V
    expected = expectation(unit="V", low=12.5, high=12.9, instrument="meter")
    found = judged(expected, 12.55, None, instrument("meter", accuracy_fixed=0.1, unit="V"))
    assert (found.verdict, found.deciding_accuracy) == ("leaning-pass", "± 0.0433 V")
    assert "nearer to the limit than the uncertainty of meter (± 0.115 V)" in found.reason
    sure = judged(expected, 12.7, None, instrument("meter", accuracy_fixed=0.1, unit="V"))
    assert (sure.deciding_accuracy, sure.reason) == (None, "with the accuracy usual for such an instrument")


def test_what_no_number_was_expected_of_is_recorded() -> None:
    free = expectation(unit="V")
    assert judged(free, "about right").verdict == "recorded"
    assert judged(free, 12.5).verdict == "recorded"
    assert (judged(free, "~12.5").verdict, judged(free, "~12.5").reason) == (
        "recorded",
        "typed as an approximate value",
    )
    assert (
        judged(expectation(unit="V", low=1.0), "~12.5").reason
        == "typed as an approximate value; no instrument is named, so the limits alone decide"
    )


@pytest.mark.parametrize(
    ("typed", "verdict"),
    [
        # limits 10 to 20: all of a range lies within, beyond, or on both sides of a limit
        ("12-13", "pass"), ("9-11", "unclear"), ("19-21", "unclear"), ("5-9", "fail"), ("21-25", "fail"), ("9-21", "unclear"), ("10-20", "pass"),
        (">20.5", "fail"), (">15", "unclear"), ("<9.5", "fail"), ("<15", "unclear"), (">5", "unclear"), ("<25", "unclear"),
    ],
)  # fmt: skip
def test_a_range_is_good_or_bad_only_as_a_whole(typed: str, verdict: str) -> None:
    found = judged(expectation(unit="V", low=10.0, high=20.0), typed)
    assert found.verdict == verdict
    assert bool(found.reason) == (verdict == "unclear")


@pytest.mark.parametrize(
    ("typed", "low", "high", "verdict"),
    [
        (">20", 10.0, None, "pass"), (">5", 10.0, None, "unclear"), ("<5", 10.0, None, "fail"), ("<15", 10.0, None, "unclear"),
        ("<5", None, 10.0, "pass"), ("<15", None, 10.0, "unclear"), (">15", None, 10.0, "fail"), (">5", None, 10.0, "unclear"),
    ],
)  # fmt: skip
def test_a_bound_against_one_limit(typed: str, low: float | None, high: float | None, verdict: str) -> None:
    assert judged(expectation(unit="V", low=low, high=high), typed).verdict == verdict


def test_the_end_that_is_furthest_from_nothing_has_the_greatest_error() -> None:
    # 10 % of 15 V is an error of 1.5 V: 10 to 15 V lean towards good against at most 16 V
    meter = instrument("meter", accuracy_percent=10.0, unit="V")
    found = judged(expectation(unit="V", high=16.0, instrument="meter"), "10-15", None, meter)
    assert (found.verdict, found.uncertainty) == ("leaning-pass", pytest.approx(1.5 * 2 / 3**0.5))
    cold = judged(expectation(unit="V", high=16.0, instrument="meter"), "-15 to -10", None, meter)
    assert cold.uncertainty == pytest.approx(1.5 * 2 / 3**0.5)


def test_a_date_behind_a_reading_in_years_is_its_age() -> None:
    # from 14 May 2025 to 14 May 2027 are 730 days: 2.0 years
    found = judged(expectation(unit="years", high=2.0), "2025-05-14")
    assert (found.verdict, found.found) == ("pass", "2025-05-14 (2 years)")
    assert judged(expectation(unit="years", high=2.0), "2.5").verdict == "fail"


def test_a_series_wants_each_of_its_points_or_any() -> None:
    points = {1.0: (1.0, 2.0), 2.0: (1.0, 2.0)}
    every, any_point = series("s", points, unit="V"), series("s", points, unit="V", any_point=True)
    assert (judged(every, [1.5]).verdict, judged(any_point, [1.5]).verdict) == ("not-done", "pass")
    assert (judged(every, [1.5, ""]).verdict, judged(any_point, [None, ""]).verdict) == (
        "not-done",
        "not-done",
    )
    assert judged(every, [1.5, 1.6]).verdict == "pass"
    assert judged(every, 1.5).points[0].verdict == "pass"
    wrong = judged(every, [1.5, "1-2"])
    assert (wrong.verdict, wrong.points[1].verdict, wrong.points[1].uncertainty) == (
        "unclear",
        "unclear",
        None,
    )
    assert wrong.reason == "at 2: no single number"


@pytest.mark.parametrize(
    ("typed", "day", "verdict"),
    [
        ("2027-05-14", DAY, "pass"), ("2027-05-13", DAY, "fail"), (DAY, DAY, "pass"), ("05/2027", DAY, "pass"), ("04/2027", DAY, "fail"),
        ("soon", DAY, "unclear"), ("2027-05-14", None, "recorded"),
    ],
)  # fmt: skip
def test_what_expires_on_the_day_itself_is_still_good(
    typed: Any, day: datetime.date | None, verdict: str
) -> None:
    found = judge_identity(expectation(record="expiry-date"), typed, day)
    assert found.verdict == verdict
    assert (found.reason == "expired before the trial (2027-05-14)") == (verdict == "fail")


@pytest.mark.parametrize(
    ("wanted", "typed", "verdict"),
    [
        ("yes", "yes", "pass"), ("yes", "no", "fail"), ("no", "no", "pass"), ("no", "yes", "fail"), ("none", "no", "pass"), ("none", "yes", "fail"),
        ("nothing", "nothing", "pass"), ("dry", "DRY", "pass"), ("dry", "yes", "pass"), ("dry", "no", "fail"), ("dry", "damp", "unclear"),
        ("no", "ok", "pass"), ("yes", "not ok", "fail"), ("none", "ok", "pass"),
    ],
)  # fmt: skip
def test_answers_in_words(wanted: str, typed: str, verdict: str) -> None:
    assert judge_text(expectation(text=wanted), typed).verdict == verdict


def test_a_plate_is_held_against_what_the_spec_states() -> None:
    plate = expectation(record="plate", plate={"serial": "4711", "model": "PD 235"})
    assert judge_identity(plate, "PD-235 / 4711", DAY).verdict == "recorded"
    wrong = judge_identity(plate, "PD 280 / 4711", DAY)
    assert (wrong.verdict, wrong.reason) == ("fail", "model PD 280, where the spec has PD 235")
    assert judge_identity(plate, "4712", DAY).reason == "serial number 4712, where the spec has 4711"
