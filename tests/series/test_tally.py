"""Tallies of hulls whose counts can be told by looking at them."""

from __future__ import annotations

from typing import Any

import pytest

from plangen.assess.assess import assess_findings
from plangen.assess.model import Assessment
from plangen.plan.model import PlannedStage
from plangen.series.model import Cause, FailingCheck, ReadingSpread, Tally
from plangen.series.tally import SeriesTally
from tests.assess.building import check, expectation, findings, series
from tests.series.building import FLOW, VOLTS, hull_plan

GOOD = {"voltage": 12.8, "terminals-tight": "yes"}
BAD = {"voltage": 12.1, "terminals-tight": "yes"}


def hull(
    name: str, checks: dict[str, Any], snags: dict[str, Any] | None = None, *, plan: Any = None, **boat: Any
) -> Assessment:
    planned = plan or hull_plan(name, **boat)
    return assess_findings(planned, findings(checks, snags, boat=name))


def tallied(*hulls: Assessment) -> Tally:
    counted = SeriesTally()
    for one in hulls:
        counted.add(one)
    return counted.result()


def retest(
    first: dict[str, Any], second: dict[str, Any], days: tuple[str, str] = ("2027-05-14", "2027-05-20")
) -> list[Any]:
    return [{"found": first, "when": days[0]}, {"found": second, "when": days[1]}]


def failing(tally: Tally, check: str) -> FailingCheck:
    return next(one for one in tally.failing if one.check == check)


def spread(tally: Tally, reading: str) -> ReadingSpread:
    return next(one for one in tally.readings if one.reading == reading)


def cause(tally: Tally) -> Cause:
    (found,) = tally.causes
    return found


def test_a_check_counts_by_its_first_attempt() -> None:
    found = tallied(
        hull("A", {"volts@bank": retest(BAD, GOOD), "flow@bilge": {"flow": 35}}),
        hull("B", {"volts@bank": GOOD, "flow@bilge": {"flow": 35}}),
        hull("C", {"volts@bank": GOOD}),
    )
    assert (found.whole.passed, found.whole.judged) == (4, 5)
    assert (found.whole.hulls.count, found.whole.hulls.of) == (2, 3)
    (system,) = found.by_system
    assert (system.group, system.title, system.passed, system.judged) == ("test", "Test", 4, 5)
    assert found.by_stage == ()


def test_what_is_unclear_or_not_done_counts_neither_way() -> None:
    found = tallied(
        hull("A", {"volts@bank": {"voltage": "about that", "terminals-tight": "yes"}}),
        hull("B", {"volts@bank": {"voltage": 12.8}}),
        hull("C", {"volts@bank": [{"does_not_apply": "no bank"}]}),
    )
    assert found.whole.judged == 0
    assert found.whole.share is None
    assert found.whole.hulls.interval is None


def test_failing_checks_come_by_how_many_hulls_and_say_which_option_set() -> None:
    sport, plain = ("model", "sport"), ("model",)
    found = tallied(
        hull("A", {"volts@bank": BAD, "flow@bilge": {"flow": 35}}, layers=sport),
        hull("B", {"volts@bank": retest(BAD, GOOD), "flow@bilge": {"flow": 20}}, layers=sport),
        hull("C", {"volts@bank": GOOD, "flow@bilge": {"flow": 35}}, layers=plain),
        hull("D", {"volts@bank": [{"found": {}}], "flow@bilge": {"flow": 35}}, layers=plain),
        hull("E", {"volts@bank": GOOD, "flow@bilge": {"flow": 35}}, layers=plain),
    )
    assert [one.check for one in found.failing] == ["volts@bank", "flow@bilge"]
    volts = failing(found, "volts@bank")
    assert (volts.failed.count, volts.failed.of) == (2, 4)
    assert (volts.hulls, volts.still_open, volts.readings) == (("A", "B"), ("A",), ("voltage",))
    assert volts.cumulated == pytest.approx(2 / 3)
    assert [str(one) for one in volts.options] == ["sport: 2 of 2 with, 0 of 2 without"]
    assert failing(found, "flow@bilge").cumulated == 1.0
    assert found.options == ("sport",)


def test_a_few_say_little() -> None:
    volts = failing(tallied(hull("A", {"volts@bank": BAD}), hull("B", {"volts@bank": GOOD})), "volts@bank")
    assert volts.failed.is_of_few
    # by hand for 1 of 2: p² = 0.025 at one end, (1 - p)² = 0.025 at the other
    assert volts.failed.interval == pytest.approx((1 - 0.975**0.5, 0.975**0.5), abs=1e-9)
    assert str(volts.failed) == "1 of 2 (1–99 %)"


def test_a_reading_counts_as_the_hull_stands_now() -> None:
    found = tallied(
        hull("A", {"volts@bank": retest(BAD, {"voltage": 12.9})}),
        hull("B", {"volts@bank": {"voltage": 12.7}}),
    )
    volts = spread(found, "voltage")
    assert [one.value for one in volts.readings] == [12.9, 12.7]
    assert volts.spread.mean == pytest.approx(12.8)
    assert volts.spread.deviation == pytest.approx(0.2 / 2**0.5)
    assert volts.limits == ((12.6, 12.6), None)


def test_a_hull_that_stands_apart_within_her_limits_is_named() -> None:
    flows = {"A": 40.0, "B": 40.5, "C": 39.5, "D": 40.2, "E": 39.8, "F": 31.5, "G": 40.1}
    found = tallied(*(hull(name, {"flow@bilge": {"flow": value}}) for name, value in flows.items()))
    ((one, reading),) = found.outliers
    assert (one.item, reading.hull, reading.value, reading.fails) == ("bilge", "F", 31.5, False)
    assert found.failing == ()


def test_hulls_with_limits_of_their_own_are_compared_by_what_was_expected() -> None:
    def speed(name: str, expected: float, value: float) -> Assessment:
        one = check(
            "speed@boat",
            expectation("speed", low=0.97 * expected, value=expected, high=1.03 * expected, unit="kn"),
        )
        return hull(name, {"speed@boat": {"speed": value}}, plan=hull_plan(name, one))

    found = tallied(
        *(speed(f"slow {n}", 33.0, 33.0 + n / 10) for n in range(4)),
        *(speed(f"fast {n}", 37.0, 37.0 + n / 10) for n in range(4)),
        speed("odd", 37.0, 33.2),
    )
    speeds = spread(found, "speed")
    assert speeds.against == "aim"
    assert [one.hull for one in speeds.outliers] == ["odd"]
    assert speeds.spread.mean == pytest.approx((2 * 0.6 - 3.8) / 9)
    assert speeds.failing == 1


def test_each_point_of_a_series_is_a_reading_of_its_own() -> None:
    curve = check(
        "curve@engine",
        series("fuel rate", {1000.0: (1.0, 2.0), 2000.0: (3.0, 4.0)}, unit="L/h", series_unit="rpm"),
    )
    found = tallied(*(
        hull(name, {"curve@engine": {"fuel-rate": values}}, plan=hull_plan(name, curve))
        for name, values in {"A": [1.5, 3.5], "B": [1.7, None]}.items()
    ))  # fmt: skip
    assert [(one.words, len(one.readings)) for one in found.readings] == [
        ("fuel rate at 1000 rpm", 2),
        ("fuel rate at 2000 rpm", 1),
    ]


def test_conditions_and_what_they_limit_are_no_part_of_the_spread() -> None:
    one = check(
        "roll@boat",
        expectation("depth", low=10.0, unit="m", condition=True),
        expectation("speed", low=8.0, unit="kn", valid_if=("depth",)),
    )
    found = tallied(hull("A", {"roll@boat": {"depth": 3, "speed": 6}}, plan=hull_plan("A", one)))
    assert found.readings == ()


def test_what_is_open_by_hull_the_gravest_first() -> None:
    found = tallied(
        hull("A", {"flow@bilge": {"flow": 20}}, {"flow@bilge": {"due": "2027-06-01"}}),
        hull("B", {"volts@bank": BAD}),
        hull("C", {"volts@bank": BAD}, {"volts@bank": {"settlement": "accepted"}}),
    )
    assert [(one.hull, one.grade, one.due) for one in found.open_snags] == [
        ("B", "before-handover", None),
        ("A", "by-date", "2027-06-01"),
    ]
    standing = {one.name: one for one in found.hulls}
    assert standing["A"].open_snags == (("by-date", 1),)
    assert (standing["A"].to_do, standing["A"].failed_at_first, standing["B"].handover) == (1, 1, "no")
    assert standing["C"].open_snags == ()


CRIMP = {"cause": "lug-crimp", "cause_text": "Wrong die for the lugs"}


def linked(name: str, found: Any = None, when: str = "2027-03-01", **more: str) -> Assessment:
    attempt = {"found": found or BAD, "when": when}
    return hull(name, {"volts@bank": [attempt]}, {"volts@bank": {**CRIMP, **more}})


def sound(name: str, when: str | None = "2027-05-01") -> Assessment:
    return hull(name, {"volts@bank": [{"found": GOOD, "when": when}]})


def test_one_cause_stands_for_snags_on_several_hulls() -> None:
    found = cause(tallied(linked("A"), linked("B"), sound("C")))
    assert (found.text, found.hulls, found.standing) == ("Wrong die for the lugs", ("A", "B"), "open")


@pytest.mark.parametrize(
    ("hulls", "standing", "why"),
    [
        ([linked("A", proved_on="C"), linked("B"), sound("C")], "proved", "passes on C: volts@bank"),
        ([linked("A", proved_on="c"), sound("C")], "proved", "passes on C"),
        ([linked("A", proved_on="X"), sound("C")], "not-proved", "X isn't among these hulls"),
        ([linked("A", proved_on="B"), linked("B")], "not-proved", "still open on B"),
        ([linked("A", proved_on="C"), hull("C", {})], "not-proved", "volts@bank doesn't pass on C yet"),
        (
            [linked("A", proved_on="C"), sound("C", "2027-02-01")],
            "not-proved",
            "found on A after C had passed",
        ),
        (
            [linked("A", proved_on="C"), sound("C"), linked("D", when="2027-06-01")],
            "not-proved",
            "found on D after C had passed",
        ),
        (
            [linked("A", proved_on="C"), hull("C", {"flow@bilge": {"flow": 40}}, plan=hull_plan("C", FLOW))],
            "not-proved",
            "none of its checks is in the plan of C",
        ),
        (
            [linked("A", proved_on="A"), sound("C")],
            "not-proved",
            "still open on A",
        ),
        (
            [hull("A", {"volts@bank": retest(BAD, GOOD)}, {"volts@bank": {**CRIMP, "proved_on": "A"}})],
            "proved",
            "passes on A",
        ),
    ],
)
def test_a_cause_is_closed_only_where_the_named_hull_proves_it(
    hulls: list[Assessment], standing: str, why: str
) -> None:
    found = cause(tallied(*hulls))
    assert found.standing == standing
    assert why in found.why


def test_without_days_nothing_proves_that_it_came_after() -> None:
    planned = hull_plan("A", trial_date=None)
    first = hull("A", {"volts@bank": BAD}, {"volts@bank": {**CRIMP, "proved_on": "C"}}, plan=planned)
    found = cause(tallied(first, sound("C", None)))
    assert found.standing == "not-proved"
    assert "no day shows" in found.why


def test_a_cause_has_a_short_name() -> None:
    with pytest.raises(ValueError, match="Wrong die"):
        findings({}, {"volts@bank": {"cause": "Wrong die!"}})


def test_what_was_found_beside_all_checks_may_have_a_cause() -> None:
    planned = hull_plan("A")
    one = {"what": "lug loose", "place": "engine space", "grade": "stop", **CRIMP}
    found = tallied(assess_findings(planned, findings({}, boat="A", also_found=[one])), linked("B"))
    assert cause(found).hulls == ("A", "B")
    assert found.open_snags[0].item == "engine space"


def test_no_two_hulls_share_what_is_counted() -> None:
    many = tallied(*(hull(f"H{n}", {"volts@bank": BAD if n % 3 == 0 else GOOD}) for n in range(40)))
    volts = failing(many, "volts@bank")
    assert (volts.failed.count, volts.failed.of) == (14, 40)
    assert volts.hulls == tuple(f"H{n}" for n in range(0, 40, 3))
    assert VOLTS.grade == volts.grade


def test_stages_come_in_their_order_and_each_hull_in_hers() -> None:
    def staged(name: str, fit_out: bool, released: bool) -> Assessment:
        plan = hull_plan(
            name, VOLTS.model_copy(update={"stage": "afloat"}), FLOW.model_copy(update={"stage": "fit-out"})
        )
        stages = (
            PlannedStage(id="fit-out", title="Fit-out", hold="quality manager"),
            PlannedStage(id="afloat", title="Afloat"),
        )
        record = {"fit-out": {"released": "2027-05-01", "by": "QM"}} if released else {}
        found = {"flow@bilge": {"flow": 35 if fit_out else 20}, "volts@bank": BAD}
        return assess_findings(
            plan.model_copy(update={"stages": stages}), findings(found, boat=name, stages=record)
        )

    found = tallied(staged("A", True, True), staged("B", False, False))
    assert [(one.title, one.passed, one.judged) for one in found.by_stage] == [
        ("Fit-out", 1, 2),
        ("Afloat", 0, 2),
    ]
    assert [hull.stage for hull in found.hulls] == ["Afloat", "Fit-out"]
