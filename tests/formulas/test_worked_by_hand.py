"""Formulas at the places where one case turns into another; the arithmetic of each stands beside it, by the words of its docstring."""

import itertools

import pytest

from plangen.formulas import FORMULAS, OutOfRange
from plangen.formulas.charge_time import charge_time
from plangen.formulas.conductors import STANDARD_RATINGS, conductor_resistance, standard_rating_above
from plangen.formulas.generator_set import (
    frequency_droop_limit,
    generator_dip_voltage,
    generator_frequency,
    generator_voltage_tolerance,
)
from plangen.formulas.ground_tackle import anchor_watch_radius
from plangen.formulas.interpolation import interpolate
from plangen.formulas.sailing import expected_sailing_speed


@pytest.mark.parametrize(
    ("name", "given", "expected"),
    [
        # lead to 80 % at 20 A with 5 % lost: 30 Ah × 1.05 / 20 A; then 20 Ah × 1.25 at a mean of (20 - 2) / ln 10 = 7.817 A
        ("charge_time", (100.0, 50.0, 20.0, "flooded"), 1.575 + 3.198),
        ("charge_time", (100.0, 90.0, 20.0, "flooded"), 12.5 / 7.817),
        # lithium from 97 %: 3 Ah at half the current, 0.99 of it stored
        ("charge_time", (100.0, 97.0, 20.0, "lithium-iron-phosphate"), 2 * 3 / (0.99 * 20)),
        ("charge_balance", (0.0, 0.0, "agm"), 0.0),
        # 7.98 ohm/km × 10 m; at 60 °C × 294.5 / 254.5
        ("conductor_resistance", (2.5, 10.0), 0.0798),
        ("conductor_resistance", (2.5, 10.0, 60.0), 0.0798 * 294.5 / 254.5),
        # above 5000 rpm an alternator gives no more than at 5000, 48/50 of its rating
        ("alternator_hot_output", (2500.0, 2.0, 50.0), 48.0),
        ("alternator_hot_output", (5000.0, 2.0, 50.0), 48.0),
        # at 0.8 of the voltage the head falls to 5 × 0.64 = 3.2 m, the flow to 48 L/min, at 2 m to 48 × (1 - 2 / 3.2)
        ("pump_flow_at_head", (60.0, 5.0, 2.0, 0.8), 18.0),
        ("pump_flow_at_head", (60.0, 5.0, 0.0, 1.0), 60.0),
        ("pump_flow_at_head", (60.0, 5.0, 2.0, 0.5), 0.0),
        # ISO 15083 (from memory): 10 L/min up to 6 m, 15 below 12, 30 from there
        ("bilge_pump_minimum", (6.0,), 10.0), ("bilge_pump_minimum", (6.1,), 15.0),
        ("bilge_pump_minimum", (11.9,), 15.0), ("bilge_pump_minimum", (12.0,), 30.0),
        # 3 × √(4 × 1) = 6 m beside 2.75 × 5² / 9.80665 = 7.01 m, and beside 2.75 × 2² / 9.80665 = 1.12 m
        ("depth_free_of_shallow_water", (4.0, 1.0, 5.0), 7.0106),
        ("depth_free_of_shallow_water", (4.0, 1.0, 2.0), 6.0),
        # 33 CFR 183.610 (b), table: 50 below 34 cubic feet, then 1.5 V up to 100, then V/2 + 100
        ("petrol_blower_rating", (33.9,), 50.0), ("petrol_blower_rating", (34.0,), 51.0),
        ("petrol_blower_rating", (100.0,), 150.0), ("petrol_blower_rating", (102.0,), 151.0),
        # 1.25 times up to 20 t, 5 t more up to 50 t, 1.1 times above
        ("proof_load", (10.0,), 12.5), ("proof_load", (30.0,), 35.0), ("proof_load", (52.0,), 57.2),
        # three times the working pressure, at most 150 mbar
        ("gas_pipework_test_pressure", (30.0,), 90.0), ("gas_pipework_test_pressure", (49.0,), 147.0), ("gas_pipework_test_pressure", (60.0,), 150.0),
        ("voltage_loss_percent", (0.0, 12.0), 0.0), ("voltage_loss_percent", (0.36, 12.0), 3.0),
        ("tank_gauge_error", (0.0, 0.0, 100.0), 0.0), ("tank_gauge_error", (0.0, 5.0, 100.0), -5.0),
        ("string_open_circuit_voltage", (24.0, 2.0, 25.0), 48.0),
        # per cell 2.43, 2.40, 2.40 and 3.55 V at 25 °C, and 5, 4, 5 and no mV more for each degree below
        ("absorption_voltage", ("flooded", 12.0, 5.0), 6 * (2.43 + 0.100)), ("absorption_voltage", ("agm", 12.0, 5.0), 6 * (2.40 + 0.080)),
        ("absorption_voltage", ("gel", 12.0, 5.0), 6 * (2.40 + 0.100)), ("absorption_voltage", ("lithium-iron-phosphate", 12.0, 5.0), 4 * 3.55),
        # 1050.25 mbar × 2 K / 293.15 K
        ("gas_pressure_drift", (37.0, 20.0, 2.0), 7.165),
        # 1.164 / 2 × (3963 / 3600 / 0.02 / 0.6)² = 4898 Pa
        ("engine_space_depression", (3963.0, 200.0, 0.6), 4898.0),
        # a rise of 8 K at 40 and at 100 % of full load: 8 × 2.5^1.6 = 34.66
        ("full_load_rise", (8.0, 40.0, 100.0), 34.66), ("full_load_rise", (8.0, 100.0, 100.0), 8.0),
        ("insulation_resistance_minimum", (50.0,), 0.5), ("insulation_resistance_minimum", (51.0,), 1.0),
    ],
)  # fmt: skip
def test_worked_by_hand(name: str, given: tuple[object, ...], expected: float) -> None:
    assert FORMULAS[name].function(*given) == pytest.approx(expected, rel=5e-4, abs=1e-9)


@pytest.mark.parametrize(
    ("name", "given"),
    [
        ("engine_space_depression", (4044.0, 200.0, 0.6)), ("full_load_rise", (8.0, 39.9, 100.0)), ("full_load_rise", (8.0, 100.1, 100.0)),
        ("anchor_watch_radius", (30.0, 5.0, 5.1, 0.0)), ("anchor_watch_radius", (500.0, 201.0, 1.0, 0.0)), ("vent_air_pressure", (100.0, 19.0, -0.1)),
        ("charge_time", (100.0, 50.0, 51.0, "agm")), ("charge_time", (100.0, 50.0, 2.0, "agm")),
        ("anchor_watch_radius", (5.5, 5.0, 1.0, 0.0)), ("water_heating_energy", (40.0, 20.0, 20.0)),
        ("insulation_heat_leak", (2.0, 50.0, 20.0, 20.0)), ("pump_flow_at_head", (60.0, 5.0, -0.1)), ("voltage_loss_percent", (-0.01, 12.0)),
        ("tank_gauge_error", (-0.1, 0.0, 100.0)), ("tank_gauge_error", (0.0, -0.1, 100.0)), ("charge_balance", (-0.1, 0.0, "agm")),
    ],
)  # fmt: skip
def test_what_lies_beyond_is_refused(name: str, given: tuple[object, ...]) -> None:
    with pytest.raises(OutOfRange):
        FORMULAS[name].function(*given)


def test_half_of_the_capacity_is_still_a_charging_current() -> None:
    assert charge_time(100.0, 50.0, 50.0, "agm") > 0


def test_an_anchor_watch_adds_up_what_lies_between() -> None:
    # 30 m of rode over 5 + 1 m reach √(900 - 36) = 29.39 m; antenna 10 m, position 5 m, margin 2 m
    assert anchor_watch_radius(30.0, 5.0, 1.0, 10.0, 5.0, 2.0) == pytest.approx(46.39, abs=0.01)
    # straight up and down there is only what stands beside it
    assert anchor_watch_radius(6.0, 5.0, 1.0, 0.0, 5.0) == pytest.approx(5.0)


def test_ratings_are_those_of_the_national_electrical_code() -> None:
    """NEC 240.6 (A): standard ampere ratings up to 1000 A with the smaller ones for fuses (from memory)."""
    assert STANDARD_RATINGS == (
        1, 3, 6, 10, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450, 500,
        600, 700, 800, 1000,
    )  # fmt: skip
    for lower, upper in itertools.pairwise(STANDARD_RATINGS):
        assert standard_rating_above(lower) == lower
        assert standard_rating_above(lower + 0.01) == upper


@pytest.mark.parametrize(
    ("group", "droop", "steady", "dip"), [("G1", 8, 5, 25), ("G2", 5, 2.5, 20), ("G3", 3, 1, 15)]
)
def test_classes_of_generating_sets(group: str, droop: float, steady: float, dip: float) -> None:
    """ISO 8528-5, performance limits of the classes (G1 and G3 from memory): per cent of the rated values."""
    assert frequency_droop_limit(group) == droop
    assert generator_voltage_tolerance(100.0, group) == pytest.approx(steady)
    assert generator_dip_voltage(100.0, group) == pytest.approx(100.0 - dip)


@pytest.mark.parametrize(("poles", "speed"), [(2, 3000), (4, 1500), (6, 1000), (8, 750)])
def test_fifty_hertz_by_the_number_of_poles(poles: int, speed: int) -> None:
    assert generator_frequency(speed, poles) == pytest.approx(50.0)
    with pytest.raises(OutOfRange):
        generator_frequency(speed, poles + 1)


@pytest.mark.parametrize("chemistry", ["flooded", "agm", "gel"])
def test_a_fuller_battery_never_stands_lower(chemistry: str) -> None:
    rest = FORMULAS["rest_voltage"].function
    volts = [rest(charge, chemistry) for charge in range(0, 101, 5)]
    assert all(later > earlier for earlier, later in itertools.pairwise(volts))
    assert 12.5 < volts[-1] < 13.0


def test_the_acid_of_a_fuller_battery_is_heavier() -> None:
    found = [FORMULAS["specific_gravity"].function(charge) for charge in range(0, 101, 5)]
    assert all(later > earlier for earlier, later in itertools.pairwise(found))
    assert 1.1 < found[0] < found[-1] < 1.3


@pytest.mark.parametrize("chemistry", ["flooded", "agm", "gel", "lithium-iron-phosphate"])
def test_a_bank_floats_below_absorption_and_above_rest(chemistry: str) -> None:
    """Per 12 V, between the least and the greatest that makers print for any chemistry."""
    volts = {
        name: FORMULAS[name].function(chemistry)
        for name in ("absorption_voltage", "float_voltage", "charged_rest_voltage")
    }
    assert 12.6 <= volts["charged_rest_voltage"] < volts["float_voltage"] < volts["absorption_voltage"] < 14.8


def test_between_two_lines_a_table_is_straight() -> None:
    # a quarter of the way from 1 to 3 is a quarter of the way from 10 to 30
    rows = ((1.0, 10.0), (3.0, 30.0), (4.0, 0.0))
    assert [interpolate("x", x, rows) for x in (1.0, 1.5, 3.0, 3.75, 4.0)] == pytest.approx(
        [10, 15, 30, 7.5, 0]
    )
    for outside in (0.99, 4.01):
        with pytest.raises(OutOfRange, match="x is"):
            interpolate("x", outside, rows)


def test_a_vent_without_length_has_its_ends_only() -> None:
    # half the density, 1.225 kg/m³, times the speed squared, times 1.5 for both ends: 50 L/min in 19 mm are 2.939 m/s
    assert FORMULAS["vent_air_pressure"].function(50.0, 19.0, 0.0) == pytest.approx(
        1.5 * 1.225 / 2 * 2.939**2, rel=1e-3
    )


def test_in_fresh_wind_she_is_fastest_on_a_broad_reach() -> None:
    for wind in (16.0, 20.0):
        speeds = [
            expected_sailing_speed(wind, angle, 30.0, 7.20)
            for angle in (52.0, 60.0, 75.0, 90.0, 110.0, 120.0)
        ]
        assert sorted(speeds) == speeds


def test_more_wind_never_makes_her_slower() -> None:
    winds = (6.0, 8.0, 10.0, 12.0, 14.0, 16.0, 20.0)
    for angle in (52.0, 60.0, 75.0, 90.0, 110.0, 120.0, 135.0, 150.0):
        speeds = [expected_sailing_speed(wind, angle, 30.0, 7.20) for wind in winds]
        assert all(later > earlier for earlier, later in itertools.pairwise(speeds))
    for wind in winds:
        from_abeam = [expected_sailing_speed(wind, angle, 30.0, 7.20) for angle in (120.0, 135.0, 150.0)]
        assert sorted(from_abeam, reverse=True) == from_abeam


def test_a_warm_cable_resists_more() -> None:
    assert conductor_resistance(2.5, 10.0, 60.0) > conductor_resistance(2.5, 10.0, 20.0)
