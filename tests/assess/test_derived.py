"""How figures find their readings, are judged, and fill what was left blank."""

from __future__ import annotations

from typing import Any

import pytest

from plangen.assess.assess import assess_findings
from plangen.assess.derived.workers import WORKERS
from plangen.assess.model import Assessment, DerivedFigure
from plangen.packs.figures import FIGURES
from plangen.plan.model import Plan
from tests.assess.building import (
    check,
    expectation,
    figure,
    findings,
    instrument,
    plan,
    runs,
    series,
    worked_out,
)
from tests.conftest import drafted

STEPS = (1500.0, 3000.0)
OUT = runs("outward", STEPS, "kn", "rpm", instrument="positioner")
BACK = runs("back", STEPS, "kn", "rpm", instrument="positioner")
MEAN = series("mean", {1500: (5.0, 6.0), 3000: (7.0, None)}, unit="kn", series_unit="rpm")
ROLES = {"outward": ("runs@boat", "outward"), "back": ("runs@boat", "back")}
POSITIONER = instrument("positioner", accuracy_fixed=0.1, unit="kn")


def trial(*figures: Any, **fields: Any) -> Plan:
    return plan(check("runs@boat", OUT, BACK, MEAN, derive=figures, **fields), kit=[POSITIONER])


GIVEN = trial(figure("mean-of-runs", "kn", ROLES, gives="mean"))


def derived(of: Plan, found: dict[str, Any]) -> tuple[DerivedFigure, ...]:
    return assess_findings(of, findings(found)).derived


def last(assessment: Assessment, id: str = "runs@boat") -> Any:
    return next(one for one in assessment.checks if one.id == id).attempts[-1]


def test_every_figure_that_a_rule_may_name_can_be_worked_out() -> None:
    assert set(WORKERS) == set(FIGURES)


def test_a_series_is_worked_out_at_each_point_and_judged_by_the_reading_that_it_gives() -> None:
    (mean,) = derived(GIVEN, {"runs@boat": {"outward": [6.0, 8.0], "back": [5.0, 7.0]}})
    assert mean.values == ((1500.0, 5.5), (3000.0, 7.5))
    assert [point.verdict for point in mean.points] == ["pass", "pass"]
    assert (mean.verdict, mean.expected, mean.reading) == ("pass", "as planned", "mean")


def test_how_it_was_worked_out_names_every_reading() -> None:
    (mean,) = derived(GIVEN, {"runs@boat": {"outward": [6.0, 8.0], "back": [5.0, 7.0], "mean": [5.4, 7.5]}})
    assert "outward: 6, 8 kn; back: 5, 7 kn" in mean.how
    assert "written down aboard: 5.4, 7.5" in mean.how


def test_the_uncertainty_of_the_readings_goes_into_the_verdict() -> None:
    # JCGM 100, 5.1.2 (from memory): u of a mean of two is u/sqrt(2); 0.1 kn rectangular, k = 2, is U = 0.1155 kn
    (mean,) = derived(GIVEN, {"runs@boat": {"outward": [6.0, 8.05], "back": [5.0, 6.05]}})
    assert mean.points[1].uncertainty == pytest.approx(0.1155 / 2**0.5, abs=1e-4)
    assert [point.verdict for point in mean.points] == ["pass", "leaning-pass"]
    assert mean.verdict == "leaning-pass"


def test_a_point_that_one_run_lacks_is_left_to_do() -> None:
    (mean,) = derived(GIVEN, {"runs@boat": {"outward": [6.0, 8.0], "back": [5.0, None]}})
    assert mean.values == ((1500.0, 5.5),)
    assert (mean.points[1].found, mean.verdict) == (None, "not-done")


def test_a_blank_that_a_figure_gives_is_filled_and_says_so() -> None:
    found = assess_findings(GIVEN, findings({"runs@boat": {"outward": [6.0, 8.0], "back": [5.0, 5.0]}}))
    reading = next(one for one in last(found).readings if one.reading == "mean")
    assert (reading.found, reading.verdict) == ("5.5, 6.5", "fail")
    assert reading.reason.startswith("worked out: mean of the speeds")
    assert [snag.found for snag in found.snags] == ["mean: 5.5, 6.5"]


def test_what_was_typed_stands_beside_the_figure() -> None:
    typed = {"runs@boat": {"outward": [6.0, 8.0], "back": [5.0, 5.0], "mean": [5.5, 7.5]}}
    found = assess_findings(GIVEN, findings(typed))
    assert last(found).verdict == "pass"
    assert found.derived[0].verdict == "fail"


def test_no_readings_no_figure() -> None:
    assert derived(GIVEN, {}) == ()
    assert derived(GIVEN, {"runs@boat": {"outward": [6.0, 8.0]}}) == ()
    assert derived(GIVEN, {"runs@boat": {"outward": ["fast", "faster"], "back": [5.0, 7.0]}}) == ()


def test_the_last_attempt_alone_counts() -> None:
    attempts = [
        {"found": {"outward": [6.0, 8.0], "back": [5.0, 5.0]}},
        {"found": {"outward": [6.0, 8.0], "back": [5.0, 7.0]}},
    ]
    assert derived(GIVEN, {"runs@boat": attempts})[0].verdict == "pass"


def test_people_who_disagree_leave_the_figure_unclear() -> None:
    attempts = [
        {"found": {"outward": [6.0, 8.0], "back": [5.0, 7.0]}, "by": "AL"},
        {"found": {"outward": [6.0, 8.0], "back": [5.0, 5.0]}, "by": "BM", "beside": 1},
    ]
    (mean,) = derived(GIVEN, {"runs@boat": attempts})
    assert mean.verdict == "unclear"
    assert "two people found different things" in mean.how


def test_one_point_of_a_series_against_limits_of_its_own() -> None:
    rated = figure("mean-of-runs", "kn", ROLES, at=3000.0, low=7.5, shown="≥ 7.5 kn")
    of, typed = trial(rated), {"outward": [6.0, 8.0], "back": [5.0, 7.4]}
    (speed,) = derived(of, {"runs@boat": typed})
    assert (speed.value, speed.values, speed.expected) == (pytest.approx(7.7), (), "≥ 7.5 kn")
    assert speed.verdict == "pass"
    assert "at 3000 rpm" in speed.how
    assert derived(trial(rated.model_copy(update={"at": 2000.0})), {"runs@boat": typed}) == ()


def test_a_figure_without_limits_has_no_verdict() -> None:
    (speed,) = derived(
        trial(figure("mean-of-runs", "kn", ROLES)), {"runs@boat": {"outward": [6, 8], "back": [5, 7]}}
    )
    assert speed.verdict is None
    assert speed.values == ((1500.0, 5.5), (3000.0, 7.5))


ENGINES = plan(
    check("runs@boat", OUT, BACK, MEAN, derive=(figure("mean-of-runs", "kn", ROLES, gives="mean"),)),
    *(
        check(
            f"engine@{side}",
            runs("fuel rate", STEPS, "L/h", "rpm"),
            derive=(
                figure(
                    "apparent-slip",
                    "%",
                    {"speed": ("runs@boat", "mean")},
                    inputs={"pitch": 13.0, "gear_ratio": 2.6},
                    inputs_shown={"pitch": "13 in", "gear_ratio": "2.6"},
                ),
            ),
        )
        for side in ("port", "starboard")
    ),
    check(
        "cruise@boat",
        expectation("economy", unit="L/nmi", high=2.0),
        derive=(
            figure(
                "fuel-per-mile",
                "L/nmi",
                {
                    "rate": [("engine@port", "fuel rate"), ("engine@starboard", "fuel rate")],
                    "speed": ("runs@boat", "mean"),
                },
            ),
        ),
    ),
)
RUN = {"outward": [6.0, 8.0], "back": [5.0, 7.0]}


def test_a_figure_builds_on_another_and_adds_up_the_engines() -> None:
    found = {
        "runs@boat": RUN,
        "engine@port": {"fuel-rate": [2.0, 8.0]},
        "engine@starboard": {"fuel-rate": [2.4, 7.0]},
    }
    by_id = {one.id: one for one in derived(ENGINES, found)}
    economy = by_id["fuel-per-mile/cruise@boat"]
    assert dict(economy.values) == {1500.0: pytest.approx(4.4 / 5.5), 3000.0: pytest.approx(2.0)}
    assert economy.checks == ("cruise@boat", "engine@port", "engine@starboard", "runs@boat")
    assert "fuel rate of port: 2, 8 L/h" in economy.how
    slip = by_id["apparent-slip/engine@port"]
    assert len(slip.values) == 2
    assert "mean of boat: worked out; pitch: 13 in; gear ratio: 2.6" in slip.how


def test_one_engine_that_was_not_read_leaves_the_sum_out() -> None:
    found = derived(ENGINES, {"runs@boat": RUN, "engine@port": {"fuel-rate": [2.0, 8.0]}})
    assert "fuel-per-mile/cruise@boat" not in {one.id for one in found}


def test_out_of_the_range_of_its_formula_a_figure_says_why() -> None:
    of = plan(
        check(
            "set@watermaker",
            expectation("feed", unit="mg/L", record="count"),
            expectation("product", unit="mg/L", high=500),
            expectation("rejection", unit="%", low=99),
            derive=(
                figure(
                    "salt-rejection",
                    "%",
                    {"feed": ("set@watermaker", "feed"), "product": ("set@watermaker", "product")},
                    gives="rejection",
                ),
            ),
        )
    )
    (rejection,) = derived(of, {"set@watermaker": {"feed": 300, "product": 400}})
    assert (rejection.value, rejection.verdict) == (None, "unclear")
    assert "product 400 mg/L is not below the feed" in rejection.how


def test_figures_in_a_circle_come_to_nothing() -> None:
    one = figure("temperature-rise", "K", {"inlet": ("c@x", "b"), "outlet": ("c@x", "d")}, gives="a")
    other = figure("temperature-rise", "K", {"inlet": ("c@x", "a"), "outlet": ("c@x", "d")}, gives="b")
    names = [expectation(name, unit="K", high=5) for name in "abd"]
    assert derived(plan(check("c@x", *names, derive=(one, other))), {"c@x": {"d": 3}}) == ()


def test_the_catamaran_s_plan_carries_its_figures_with_the_values_of_the_spec() -> None:
    checks = {one.id: one for one in drafted("catamaran.yaml").plan.checks}
    assert {figure.figure for one in checks.values() for figure in one.derive} == set(FIGURES)
    for one in checks.values():
        for planned in one.derive:
            for places in planned.readings.values():
                for place in places:
                    assert place.reading in {e.id for e in checks[place.check].expect}
            assert planned.gives is None or planned.gives in {e.id for e in one.expect}


def test_flushes_that_don_t_fit_the_water_of_one_flush() -> None:
    # 95 % of 120 L at 3 L are 38 flushes; 57 counted are half as many again
    readings = {"counted": 57, "flush_volume": 3.0}
    found = worked_out("flush-count", readings, capacity=120.0, lockout_share=0.95)
    assert found.value == pytest.approx(50.0)
    readings = {"counted": 57, "flush_volume": 15.0}
    five = worked_out("flush-count", readings, capacity=120.0, lockout_share=0.95, flushes_measured=5.0)
    assert five.value == pytest.approx(50.0)


def test_a_temperature_rise_of_degrees_fahrenheit_is_in_kelvin() -> None:
    # 212 °F less 32 °F is 100 K
    found = worked_out("temperature-rise", {"inlet": "32 °F", "outlet": "212 °F"})
    assert (found.value, found.unit) == (pytest.approx(100.0), "K")
