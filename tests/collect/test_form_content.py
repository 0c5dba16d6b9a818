"""What the fields of a form say of a plan, field by field; no PDF is needed for it."""

from __future__ import annotations

import datetime
from collections.abc import Mapping

import pytest

from plangen.collect.form_content import Said, what_is_said
from plangen.plan.model import Plan
from tests.collect.forms import form, small_plan

REST = "check/rest@house"
GAUGE = "check/gauge@tank/reading/gauge-at-quarters"
PLAN = small_plan()


def said(typed: Mapping[str, str | bool], plan: Plan = PLAN) -> Said:
    return what_is_said(form(plan, typed), plan)


def test_a_value_stands_with_its_initials_and_the_round_s_day() -> None:
    found = said(
        {f"{REST}/reading/resting-voltage": "12,7", f"{REST}/by": "AL", "round/alongside/by": "BM", "round/alongside/date": "14.3.2027"}
    )  # fmt: skip
    (attempt,) = found.attempts.values()
    assert (attempt.found, attempt.by, attempt.when) == (
        {"resting-voltage": "12,7"},
        "AL",
        datetime.date(2027, 3, 14),
    )
    assert (found.remarks, found.apart, found.faults) == ((), {}, ())


def test_the_head_of_a_round_stays_a_remark_where_no_check_takes_it_over() -> None:
    assert said({"round/alongside/by": "BM", "round/alongside/date": "14.3.2027"}).remarks == (
        "round 1: by BM; date 14.3.2027",
    )
    # a day that can't be read in one way is kept in its words
    found = said({f"{REST}/note": "cold", "round/alongside/by": "BM", "round/alongside/date": "3/4/2027"})
    assert found.attempts["rest@house"].by == "BM"
    assert found.attempts["rest@house"].when is None
    assert found.remarks == ("round 1: date 3/4/2027",)
    # initials alone say that somebody was there, and take nothing of the head
    found = said({f"{REST}/by": "AL", "round/alongside/by": "BM", "round/alongside/date": "14.3.2027"})
    assert (found.attempts["rest@house"].by, found.attempts["rest@house"].when) == ("AL", None)
    assert found.remarks == ("round 1: by BM; date 14.3.2027",)
    assert said({"round/alongside/done": True, "plan/digest": "x"}).remarks == ("round alongside: done",)


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ({"1": "31", "2": "", "3": "88,5"}, [31, None, "88,5"]),
        ({"1": "", "2": "61", "3": ""}, [None, 61, None]),
        ({"1": "31"}, [31, None, None]),
    ],
)
def test_a_series_is_read_by_its_steps(typed: Mapping[str, str], found: list[object]) -> None:
    attempt = said({f"{GAUGE}/{step}": value for step, value in typed.items()}).attempts["gauge@tank"]
    assert attempt.found == {"gauge-at-quarters": found}


def test_what_the_plan_asks_otherwise_is_kept_apart() -> None:
    # a fourth step, one value for a series, a step for a single value, a reading and a check that the plan hasn't
    four = dict(form(PLAN, {}).fields) | {f"{GAUGE}/{step}": "1" for step in "1234"}
    apart = what_is_said(form_of(four), PLAN).apart
    assert apart["gauge@tank"].found == {"gauge-at-quarters": [1, 1, 1, 1]}
    one = {name: value for name, value in form(PLAN, {}).fields.items() if not name.startswith(GAUGE)} | {
        GAUGE: "30"
    }
    assert what_is_said(form_of(one), PLAN).apart["gauge@tank"].found == {"gauge-at-quarters": 30}
    found = said_of({f"{REST}/reading/colour": "red", f"{REST}/note": "old", f"{REST}/by": "AL"})
    assert found.apart["rest@house"].found == {"colour": "red"}
    assert found.apart["rest@house"].by == "AL"
    assert found.attempts["rest@house"].note == "old"
    gone = said_of(
        {
            "check/gone@x/reading/a": "7",
            "check/gone@x/reading/b/yes": True,
            "check/gone@x/note": "n",
            "check/gone@x/by": "AL",
        }
    )
    assert gone.apart["gone@x"].found == {"a": 7, "b": "yes"}
    assert (gone.apart["gone@x"].note, gone.apart["gone@x"].by) == ("n", "AL")
    assert said_of({"check/gone@x/reading/a": "", "check/gone@x/note": ""}).apart == {}
    assert said_of({"check/gone@x/note": "n"}).apart["gone@x"].note == "n"
    assert said_of({"check/gone@x/by": "AL"}).apart["gone@x"].by == "AL"
    assert said_of({"check/gone@x/reading/a/2": "7", "check/gone@x/reading/a/9": "8"}).apart[
        "gone@x"
    ].found == {"a": "7 / 8"}


def form_of(fields: Mapping[str, str | bool]):  # type: ignore[no-untyped-def]
    filled = form(PLAN, {})
    return type(filled)(filled.name, filled.boat, filled.digest, False, dict(fields), filled.units)


def said_of(fields: Mapping[str, str | bool]) -> Said:
    return what_is_said(form_of({**form(PLAN, {}).fields, **fields}), PLAN)


def test_yes_and_no_are_words_and_both_are_both() -> None:
    tight = f"{REST}/reading/terminals-tight"
    assert said({f"{tight}/yes": True}).attempts["rest@house"].found == {"terminals-tight": "yes"}
    assert said({f"{tight}/no": True}).attempts["rest@house"].found == {"terminals-tight": "no"}
    both = said({f"{tight}/yes": True, f"{tight}/no": True})
    assert "yes and no" in str(both)


def test_a_value_of_another_unit_goes_into_the_note() -> None:
    found = said({f"{REST}/reading/resting-voltage": "3 bar", f"{REST}/note": "cold"})
    attempt = found.attempts["rest@house"]
    assert attempt.found == {}
    assert attempt.note == "cold; typed for resting voltage: 3 bar"
    assert len(found.faults) == 1
    assert found.faults[0].startswith("rest@house: resting voltage: '3 bar': ")
    series = said({f"{GAUGE}/1": "3 bar", f"{GAUGE}/3": "7"})
    assert series.attempts["gauge@tank"].note == "typed for gauge at quarters: 3 bar, –, 7"


def test_a_blank_form_says_nothing() -> None:
    found = said({})
    assert (found.attempts, found.apart, found.snags, found.remarks, found.faults, found.earlier) == (
        {},
        {},
        {},
        (),
        (),
        {},
    )


def test_lists_and_answers_become_one_remark_each() -> None:
    remarks = said_of(
        {
            "question/vessel:beam": "4.2 m", "kit/multimeter": True, "kit/lamp": True, "kit/rope/length": "20 m",
            "gear/flares/there": True, "gear/flares/date": "2030", "gear/raft": True, "odd": "x",
        }
    ).remarks  # fmt: skip
    assert remarks == (
        "answer to vessel.beam: 4.2 m", "kit brought: multimeter, lamp", "kit rope: length 20 m",
        "gear flares: there; date 2030", "gear raft: there", "odd: x",
    )  # fmt: skip


@pytest.mark.parametrize(
    ("row", "head", "mended", "day", "words", "left"),
    [
        ({"mended": True}, {}, True, None, "", ()),
        ({"mended": True, "day": "2027-05-20"}, {"date": "2027-05-21"}, True, "2027-05-20", "", ("retest: date 2027-05-21",)),
        ({"mended": True}, {"date": "2027-05-21", "by": "AL"}, True, "2027-05-21", "", ()),
        ({"mended": True, "day": "Friday"}, {}, True, None, "day Friday", ()),
        ({"remark": "still loose"}, {"by": "AL"}, False, None, "still loose", ()),
        ({"remark": "loose", "day": "soon"}, {}, False, None, "loose; day soon", ()),
    ],
)  # fmt: skip
def test_what_is_seen_again_has_its_own_day_or_the_retest_s(
    row: Mapping[str, str | bool], head: Mapping[str, str], mended: bool, day: str | None, words: str, left: tuple[str, ...]
) -> None:  # fmt: skip
    fields = {f"also/x1/{name}": value for name, value in row.items()}
    found = said_of({**fields, **{f"retest/{name}": value for name, value in head.items()}})
    (seen,) = found.seen_again.values()
    assert (seen.mended, str(seen.day) if seen.day else None, seen.words) == (mended, day, words)
    assert found.remarks == left
