"""Figures where one thing turns into another: units, sums, weights, uncertainties, and what a run doesn't tell."""

from __future__ import annotations

import gsw
import pytest

from plangen.assess.assess import assess_findings
from plangen.assess.derived.collect import Found, combined
from plangen.assess.derived.data import SINGLE, Data
from plangen.assess.derived.spread import spread
from plangen.assess.derived.workers import WORKERS
from tests.assess.building import (
    check,
    expectation,
    figure,
    findings,
    plan,
    worked_out,
)
from tests.assess.test_derived import BACK, GIVEN, OUT, ROLES, derived, last, trial


def test_values_go_into_another_unit_with_their_points_and_uncertainties() -> None:
    # 5 kn are 5 × 1852 m in an hour, 2.57222 m/s; 0.1 kn are 0.0514444 m/s; 3 m³ are 3000 L
    speed = Found({3.0: 5.0}, {3.0: 0.1}, "kn", "m³").converted("m/s", "L")
    assert [round(point or 0, 6) for point in speed.values] == [3000]
    assert [*speed.values.values()] == pytest.approx([2.57222], abs=1e-5)
    assert [*speed.uncertainties.values()] == pytest.approx([0.0514444], abs=1e-6)
    assert (speed.unit, speed.point_unit) == ("m/s", "L")
    # 20 °C are 68 °F; a width of 1 °C is one of 1.8 °F
    warm = Found({SINGLE: 20.0}, {SINGLE: 1.0}, "°C").converted("°F", "")
    assert (warm.values, warm.uncertainties) == ({SINGLE: pytest.approx(68.0)}, {SINGLE: pytest.approx(1.8)})
    assert Found({3.0: 5.0}, {3.0: None}, "kn", "m³").converted("m/s", "").uncertainties == {3.0: None}


@pytest.mark.parametrize(("point_unit", "wanted"), [("turns of the key", "L"), ("L", "turns of the key")])
def test_points_that_are_no_measure_stay_as_they_are(point_unit: str, wanted: str) -> None:
    assert list(Found({3.0: 5.0}, {3.0: None}, "kn", point_unit).converted("m/s", wanted).values) == [3.0]


@pytest.mark.parametrize(("unit", "wanted"), [("turns", "L"), ("L", "turns")])
def test_what_is_counted_has_no_other_unit(unit: str, wanted: str) -> None:
    found = Found({SINGLE: 5.0}, {SINGLE: None}, unit)
    assert found.converted(wanted, "") is found


def test_several_readings_are_added_where_a_role_is_a_sum_at_the_points_that_all_have() -> None:
    economy = figure("fuel-per-mile", "L/nmi", {"rate": ("a@x", "rate"), "speed": ("a@x", "speed")})
    port = Found({1500.0: 2.0, 3000.0: 8.0}, {1500.0: 0.3, 3000.0: 0.3}, "L/h", "rpm")
    speed = Found({3000.0: 6.0}, {3000.0: None}, "kn", "rpm")
    starboard = Found({3000.0: 7.0}, {3000.0: 0.4}, "L/h", "rpm")
    both = combined([port, starboard], economy, "rate")
    # uncertainties add as squares: 0.3² + 0.4² = 0.5²
    assert both == Found({3000.0: 15.0}, {3000.0: pytest.approx(0.5)}, "L/h", "rpm")
    assert combined([starboard, port], economy, "rate") == both
    unknown = Found({3000.0: 7.0}, {3000.0: None}, "L/h", "rpm")
    assert combined([port, unknown], economy, "rate") == Found({3000.0: 15.0}, {3000.0: None}, "L/h", "rpm")
    assert combined([speed, speed], economy, "speed") is None
    assert combined([port, Found({2000.0: 7.0}, {2000.0: None}, "L/h", "rpm")], economy, "rate") is None
    alone = combined([port], economy, "rate")
    assert alone is not None
    assert alone.values == port.values


def test_two_figures_of_one_kind_have_names_of_their_own_and_four_decimals() -> None:
    of = plan(
        check(
            "c@x",
            *(expectation(name, unit="V", record="count") for name in "ab"),
            derive=[
                figure("voltage-drop-percent", "%", {"lost": ("c@x", name)}, inputs={"nominal_voltage": volts}, **more)
                for name, volts, more in (("a", 12.0, {"high": 3.0}), ("b", 24.0, {"low": 2.0}), ("b", 30.0, {}))
            ],
        )
    )  # fmt: skip
    # 0.4 V of 12 V are 3.3333…, 0.4 V of 24 V 1.6667, of 30 V 1.3333 of a hundred
    figures = derived(of, {"c@x": {"a": 0.4, "b": 0.4}})
    assert [(one.id, one.value, one.verdict) for one in figures] == [
        ("voltage-drop-percent/c@x", 3.3333, "fail"),
        ("voltage-drop-percent-2/c@x", 1.6667, "fail"),
        ("voltage-drop-percent-3/c@x", 1.3333, None),
    ]
    assert [one.points for one in figures] == [(), (), ()]
    assert {one.uncertainty for one in figures} == {None}
    assert figures[0].how.endswith("; a: 0.4 V")
    assert "at " not in figures[0].how
    assert "written down aboard" not in figures[0].how


def test_a_series_that_is_judged_by_one_value_only_is_shown_and_not_judged() -> None:
    of = trial(figure("mean-of-runs", "kn", ROLES, gives="economy"))
    of = of.model_copy(
        update={
            "checks": (check("runs@boat", OUT, BACK, expectation("economy", unit="kn", low=6.0), derive=of.checks[0].derive),)
        }
    )  # fmt: skip
    (mean,) = derived(of, {"runs@boat": {"outward": [6.0, 8.0], "back": [5.0, 7.0]}})
    assert [(point.found, point.low, point.verdict) for point in mean.points] == [
        (5.5, None, "recorded"),
        (7.5, None, "recorded"),
    ]
    assert mean.verdict is None
    assert mean.point_unit == "rpm"


def test_a_figure_at_one_point_has_that_point_s_uncertainty() -> None:
    rated = figure("mean-of-runs", "kn", ROLES, at=3000.0, low=7.5)
    (speed,) = derived(trial(rated), {"runs@boat": {"outward": [6.0, 8.0], "back": [5.0, 7.4]}})
    # the 0.1155 kn of one reading over √2, as above
    assert speed.uncertainty == pytest.approx(0.0816, abs=1e-4)
    assert speed.values == ()
    assert speed.point_unit == ""


def test_four_runs_in_turn_are_weighted_and_the_first_pair_alone_where_the_second_is_blank() -> None:
    # (5.0 + 3 × 7.0 + 3 × 5.4 + 7.2) / 8 = 49.4 / 8 = 6.175; of the first two (5 + 7) / 2
    turns = {"outward": 5.0, "back": 7.0, "outward_again": 5.4, "back_again": 7.2}
    assert worked_out("mean-of-runs", turns).value == pytest.approx(6.175)
    assert worked_out("mean-of-runs", {"outward": 5.0, "back": 7.0}).value == pytest.approx(6.0)
    # by their numbers, in whatever order they were written down
    in_turn = {2.0: 7.0, 1.0: 5.0, 4.0: 7.2, 3.0: 5.4}
    assert worked_out("mean-of-means", {"runs": in_turn}).value == pytest.approx(6.175)


def test_the_range_keeps_a_tenth_where_no_reserve_is_named() -> None:
    # 200 L less 10 % at 4 L/h and 6 kn: 180 / 4 × 6 = 270 nmi; less 25 %: 150 / 4 × 6 = 225 nmi
    readings = {"rate": 4.0, "speed": 6.0}
    assert worked_out("range-under-power", readings, usable_fuel=200.0).value == pytest.approx(270.0)
    assert worked_out("range-under-power", readings, usable_fuel=200.0, reserve=25.0).value == pytest.approx(
        225.0
    )


def test_what_the_run_doesn_t_tell_is_asked_for() -> None:
    slip = worked_out("apparent-slip", {"speed": 6.0}, pitch=13.0, gear_ratio=2.6)
    assert (slip.value, slip.verdict) == (None, "unclear")
    assert "engine speed" in slip.how
    # 13 in × 3000 / 2.6 in a minute: 13 × 0.0254 m × 1153.85 × 60 / 1852 m = 12.34 kn; 1 - 6 / 12.34 = 51.4 %
    slip = worked_out("apparent-slip", {"speed": 6.0}, pitch=13.0, gear_ratio=2.6, engine_speed=3000.0)
    assert slip.value == pytest.approx(51.4, abs=0.1)
    gauge = worked_out("tank-gauge-error", {"gauge": 100.0}, capacity=200.0)
    assert (gauge.value, gauge.verdict) == (None, "unclear")
    assert "volume" in gauge.how


def test_a_feed_that_is_measured_takes_the_place_of_one_worked_out_of_conductivity() -> None:
    # 1 - 350 / 35000 = 99 %
    both = {"feed": 35000.0, "feed_conductivity": 20.0, "product": 350.0}
    assert worked_out("salt-rejection", both).value == pytest.approx(99.0)


def test_flushes_of_a_tank_whose_lockout_is_not_known() -> None:
    # the whole 120 L at 3 L are 40 flushes; 44 counted are a tenth more
    found = worked_out("flush-count", {"counted": 44, "flush_volume": 3.0}, capacity=120.0)
    assert found.value == pytest.approx(10.0)


def test_people_who_disagree_leave_a_filled_blank_unclear() -> None:
    attempts = [
        {"found": {"outward": [6.0, 8.0], "back": [5.0, 7.0]}, "by": "AL"},
        {"found": {"outward": [6.0, 8.0], "back": [5.0, 5.0]}, "by": "BM", "beside": 1},
    ]
    found = assess_findings(GIVEN, findings({"runs@boat": attempts}))
    assert next(one for one in found.checks if one.id == "runs@boat").verdict == "unclear"


def test_a_blank_with_one_value_is_filled_with_its_unit() -> None:
    of = plan(
        check(
            "c@x",
            expectation("lost", unit="V", record="count"),
            expectation("drop", unit="%", high=3.0),
            derive=[figure("voltage-drop-percent", "%", {"lost": ("c@x", "lost")}, inputs={"nominal_voltage": 12.0}, gives="drop")],
        )
    )  # fmt: skip
    found = assess_findings(of, findings({"c@x": {"lost": 0.3}}))
    drop = last(found, "c@x").readings[1]
    # 0.3 V of 12 V are 2.5 %
    assert (drop.found, drop.value, drop.verdict) == ("2.5 %", 2.5, "pass")
    assert last(found, "c@x").verdict == "pass"
    assert derived(of, {"c@x": {"lost": "about 0.3"}})[0].value == pytest.approx(2.5)
    assert derived(of, {"c@x": {"lost": "0.2-0.3"}}) == ()
    assert derived(of, {"c@x": {"lost": ">0.3"}}) == ()


def test_the_uncertainty_of_a_quotient_is_that_of_both_its_readings() -> None:
    # 4 L/h over 5 kn. Rate: 0.4 / 5 = 0.08. Speed: half of 4/4.5 - 4/5.5 = 0.0808. Together √(0.08² + 0.0808²) = 0.1137
    found = spread(
        WORKERS["fuel-per-mile"].work,
        Data({"rate": {SINGLE: 4.0}, "speed": {SINGLE: 5.0}}, {}),
        {SINGLE: 0.8},
        {"rate": {SINGLE: 0.4}, "speed": {SINGLE: 0.5}},
    )
    assert found == {SINGLE: pytest.approx(0.1137, abs=1e-4)}


def test_where_a_figure_ends_the_other_side_alone_gives_its_uncertainty() -> None:
    # nothing is lost by less than 0 V: 0.1 V ± 0.2 V of 10 V may be 3 % and not -1 %; 3 - 1 = 2 %
    lost = Data({"lost": {SINGLE: 0.1}}, {"nominal_voltage": 10.0})
    work = WORKERS["voltage-drop-percent"].work
    assert spread(work, lost, {SINGLE: 1.0}, {"lost": {SINGLE: 0.2}}) == {SINGLE: pytest.approx(2.0)}
    assert spread(work, lost, {SINGLE: 1.0}, {"lost": {SINGLE: None}}) is None


def test_the_attempts_before_stay_beside_a_blank_that_is_filled() -> None:
    found = assess_findings(
        GIVEN,
        findings({"runs@boat": [{"found": {"outward": [6.0, 8.0], "back": [5.0, 5.0]}}, {"found": {"outward": [6.0, 8.0], "back": [5.0, 7.0]}}]}),
    )  # fmt: skip
    attempts = next(one for one in found.checks if one.id == "runs@boat").attempts
    assert [one.attempt for one in attempts] == [1, 2]


def test_a_figure_at_one_point_isn_t_judged_by_limits_of_others() -> None:
    # 7.7 kn at 3000 rpm; the limit at 1500 rpm, at most 6 kn, says nothing of it
    (mean,) = derived(
        trial(figure("mean-of-runs", "kn", ROLES, gives="mean", at=3000.0)),
        {"runs@boat": {"outward": [6.0, 8.0], "back": [5.0, 7.4]}},
    )
    assert (mean.value, mean.verdict) == (pytest.approx(7.7), None)


def test_a_figure_of_a_check_in_which_nothing_was_typed_feeds_another() -> None:
    of = plan(
        check("a@x", expectation("hot end", id="hot", unit="°C", record="count"), expectation("cold end", id="cold", unit="°C", record="count")),
        check("b@x", expectation("what it gains", id="gain", unit="K", record="count"), derive=[
            figure("temperature-rise", "K", {"inlet": ("a@x", "cold"), "outlet": ("a@x", "hot")}, gives="gain")]),
        check("c@x", expectation("again", unit="K", high=30.0), derive=[
            figure("temperature-rise", "K", {"inlet": ("b@x", "gain"), "outlet": ("a@x", "hot")}, gives="again")]),
    )  # fmt: skip
    found = {one.id: one for one in derived(of, {"a@x": {"hot": 60, "cold": 20}})}
    assert found["temperature-rise/b@x"].value == pytest.approx(40.0)
    assert "what it gains of x: worked out; hot end of x: 60 °C" in found["temperature-rise/c@x"].how


def test_a_feed_s_conductivity_is_that_at_25_degrees() -> None:
    # PSS-78 and TEOS-10 by the gsw library: sea water of 35 at 25 °C conducts 53.07 mS/cm and holds 35.165 g/kg at 1023.3 kg/m³
    conductivity = float(gsw.C_from_SP(35.0, 25.0, 0.0))
    solids = 35.16504 * float(gsw.rho_t_exact(35.16504, 25.0, 0.0))
    found = worked_out("salt-rejection", {"feed_conductivity": conductivity, "product": 350.0})
    assert found.value == pytest.approx(100 * (1 - 350.0 / solids), abs=0.01)
