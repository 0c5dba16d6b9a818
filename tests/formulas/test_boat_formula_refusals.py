"""Formulas of boat, deck, compass, radio, lights and sound refuse what is outside their source, in words."""

from collections.abc import Callable

import pytest

from plangen.formulas.compass import deviation_coefficients, fitted_deviation_coefficients
from plangen.formulas.declare import OutOfRange
from plangen.formulas.displacement_speed import displacement_speed, hull_speed
from plangen.formulas.engine_cooling_and_exhaust import (
    exhaust_back_pressure_limit,
)
from plangen.formulas.engine_space import engine_space_depression
from plangen.formulas.fuel_and_range import range_under_power
from plangen.formulas.ground_tackle import (
    anchor_watch_radius,
    ground_tackle_load,
    swing_radius,
    windlass_efficiency,
)
from plangen.formulas.lifting import line_tension_at_midspan
from plangen.formulas.lights import light_range_required
from plangen.formulas.planing_speed import planing_speed
from plangen.formulas.propeller import propeller_law_power
from plangen.formulas.radio import standing_wave_ratio_at_antenna
from plangen.formulas.reciprocal_runs import mean_of_means
from plangen.formulas.rig import wire_stretch
from plangen.formulas.sailing import expected_sailing_speed
from plangen.formulas.shallow_water import echo_sounder_tolerance
from plangen.formulas.sound import whistle_audible_range, whistle_sound_level
from plangen.formulas.steering import manoeuvring_limit


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: hull_speed(-1.0), "length waterline is -1"),
        (lambda: displacement_speed(10_000.0, 2000.0, 30.0), "speed length ratio reached"),
        (lambda: planing_speed(600.0, 10_000.0, 265.0), "hull constant is 265"),
        (lambda: propeller_law_power(40.0, 4000.0, 3000.0), "engine speed over rated speed"),
        (lambda: range_under_power(400.0, 6.0, 7.0, 120.0), "reserve is 120"),
        (lambda: mean_of_means([7.0]), "at least two runs"),
        (lambda: echo_sounder_tolerance(10.0, 50.0), "range scale is 50"),
        (lambda: echo_sounder_tolerance(30.0, 20.0), "beyond the range scale"),
        (lambda: engine_space_depression(90_000.0, 100.0), "depression"),
        (lambda: exhaust_back_pressure_limit("supercharged"), "natural, turbocharged"),
        (lambda: manoeuvring_limit(12.0, "gybe"), "tactical diameter"),
        (lambda: expected_sailing_speed(12.0, 30.0, 36.0), "true wind angle is 30"),
        (lambda: expected_sailing_speed(30.0, 90.0, 36.0), "true wind speed is 30"),
        (lambda: wire_stretch(3.0, "7x7"), "compact strand"),
        (lambda: ground_tackle_load(90.0), "length overall is 90"),
        (lambda: windlass_efficiency(3000.0, 0.5, 12.0, 40.0), "check the readings"),
        (lambda: swing_radius(5.0, 8.0, 1.0, 12.0), "shorter than"),
        (lambda: anchor_watch_radius(30.0, 5.0, 1.0, -2.0), "antenna distance is -2"),
        (lambda: line_tension_at_midspan(1000.0, 10.0, 0.01), "stretch rules"),
        (lambda: deviation_coefficients({0.0: 1.0}), "eight headings"),
        (lambda: fitted_deviation_coefficients({0.0: 1.0, 90.0: 2.0}), "at least five"),
        (
            lambda: fitted_deviation_coefficients(dict.fromkeys([0, 10, 90, 180, 270], 1.0)),
            "not evenly spaced",
        ),
        (
            lambda: fitted_deviation_coefficients(dict.fromkeys(range(0, 360, 45), 40.0)),
            "deviation on 000 is 40",
        ),
        (lambda: standing_wave_ratio_at_antenna(5.0, 6.0), "check it"),
        (lambda: light_range_required(14.0, "bow"), "masthead"),
        (lambda: whistle_audible_range(9.0), "below 12 m"),
        (lambda: whistle_sound_level(14.0, 3000.0), "frequency is 3000"),
    ],
)
def test_refusal_in_words(call: Callable[[], object], words: str) -> None:
    with pytest.raises(OutOfRange, match=words):
        call()


def test_length_that_a_change_of_unit_moved_stays_in_its_row() -> None:
    assert ground_tackle_load(12.192 / 0.3048 + 1e-9) == 1200.0
