"""Conditions of the trial limit a reading and never fail; parts of a tick are named; yes, no and what isn't said."""

from __future__ import annotations

from typing import Any

import pytest

from plangen.assess.assess import assess_findings
from plangen.assess.model import Assessment, ReadingVerdict
from tests.assess.building import check, expectation, findings, plan

SPEED = expectation("speed", unit="kn", low=8.0, valid_if=("wind",))
WIND = expectation("wind", unit="kn", high=15.0, condition=True, shown="≤ 15 kn")
RUN = check("run@boat", WIND, SPEED, grade="before-handover")


def assessed(found: Any, *checks: Any) -> Assessment:
    """The assessment of one check, of grade before handover unless told otherwise."""
    own = checks or (RUN,)
    return assess_findings(plan(*own), findings({own[0].id: found}))


def reading(assessment: Assessment, id: str) -> ReadingVerdict:
    """The verdict on a reading of the first check's last attempt."""
    return next(one for one in assessment.checks[0].attempts[-1].readings if one.id == id)


@pytest.mark.parametrize(
    ("wind", "speed", "of_wind", "of_speed"),
    [
        (10, 8.5, "met", "pass"),
        (10, 7.0, "met", "fail"),
        (22, 7.0, "not-met", "limited"),
        (22, 8.5, "not-met", "limited"),
        (None, 7.0, "not-recorded", "fail"),
        ("breezy", 8.5, "not-recorded", "pass"),
        (22, None, "not-met", "not-done"),
    ],
)
def test_a_reading_outside_its_conditions_is_limited(
    wind: Any, speed: Any, of_wind: str, of_speed: str
) -> None:
    found = assessed({"wind": wind, "speed": speed})
    assert (reading(found, "wind").verdict, reading(found, "speed").verdict) == (of_wind, of_speed)
    assert found.checks[0].verdict == of_speed
    assert bool(found.snags) == (of_speed == "fail")


def test_it_says_what_would_make_it_count_and_what_was_not_recorded() -> None:
    assert reading(assessed({"wind": 22, "speed": 7.0}), "speed").reason == (
        "wind was 22 kn; it counts once read with wind ≤ 15 kn"
    )
    assert "not recorded: wind" in reading(assessed({"speed": 8.5}), "speed").reason


def test_a_limited_check_is_no_fail_and_leaves_handover_open() -> None:
    found = assessed({"wind": 22, "speed": 7.0})
    assert (found.handover.answer, found.handover.limited, found.handover.forbidding) == (
        "cannot-be-said",
        1,
        (),
    )
    assert "1 limited by conditions" in found.handover.line
    assert (found.summary[0].limited, found.summary[0].failed, found.summary[0].done) == (1, 0, 1)


def test_a_condition_in_words() -> None:
    calm = expectation("sea", text="smooth", condition=True)
    one = check("run@boat", calm, SPEED.model_copy(update={"valid_if": ("sea",)}))
    assert reading(assessed({"sea": "no", "speed": 7.0}, one), "speed").verdict == "limited"
    assert reading(assessed({"sea": "smooth", "speed": 7.0}, one), "speed").verdict == "fail"


PARTS = check(
    "bond@boat",
    expectation("bonded", text="yes", parts=("port tank", "starboard tank", "gas locker"), shown="yes"),
)


@pytest.mark.parametrize(
    ("typed", "verdict", "bad"),
    [
        ("yes", "pass", ()),
        ("no", "fail", ()),
        ("no: gas locker", "fail", ("gas locker",)),
        ("No - port, gas", "fail", ("port tank", "gas locker")),
        (["starboard tank", 3], "fail", ("starboard tank", "gas locker")),
        ("no: tank", "fail", ("tank",)),
        ("perhaps", "unclear", ()),
    ],
)
def test_the_bad_parts_are_named(typed: Any, verdict: str, bad: tuple[str, ...]) -> None:
    found = assessed({"bonded": typed}, PARTS)
    assert (reading(found, "bonded").verdict, reading(found, "bonded").bad_parts) == (verdict, bad)
    if bad:
        assert found.snags[0].found == f"bonded: no: {', '.join(bad)}"


def test_a_part_that_there_is_not_is_said() -> None:
    assert reading(assessed({"bonded": "no: tank"}, PARTS), "bonded").reason.startswith("no such part: tank")


@pytest.mark.parametrize(
    ("typed", "verdict"),
    [
        (">9", "pass"),
        (">7", "unclear"),
        ("<7", "fail"),
        ("<9", "unclear"),
        ("8.2-8.6", "pass"),
        ("7-7.5", "fail"),
        ("7.5-8.5", "unclear"),
        ("8.5 knots", "pass"),
        ("n/a", "does-not-apply"),
    ],
)
def test_bounds_and_ranges_are_judged_where_they_decide(typed: str, verdict: str) -> None:
    assert reading(assessed({"wind": 5, "speed": typed}), "speed").verdict == verdict


@pytest.mark.parametrize(
    ("typed", "verdict"),
    [
        ("2027-05", "pass"),
        ("04/2027", "fail"),
        ("14.5.2027", "pass"),
        ("May 13, 2027", "fail"),
        ("soon", "unclear"),
    ],
)
def test_an_expiry_date_as_it_is_printed_on_the_thing(typed: str, verdict: str) -> None:
    """The day of trial is 2027-05-14; what expires in a month is good to its last day."""
    flare = check("flare@boat", expectation("expiry", record="expiry-date"))
    assert reading(assessed({"expiry": typed}, flare), "expiry").verdict == verdict
