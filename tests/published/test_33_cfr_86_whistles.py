"""33 CFR 86.05 table 86.05, level and audible range of whistles (text read)."""

import pytest

from plangen.formulas.sound import whistle_audible_range, whistle_sound_level


@pytest.mark.parametrize(
    ("length", "frequency", "decibels", "miles"),
    [
        (14.0, 400.0, 120.0, 0.5),
        (14.0, 630.0, 115.0, 0.5),
        (14.0, 1000.0, 111.0, 0.5),
        (25.0, 315.0, 130.0, 1.0),
        (25.0, 630.0, 125.0, 1.0),
        (100.0, 200.0, 138.0, 1.5),
        (220.0, 200.0, 143.0, 2.0),
    ],
)
def test_table(length: float, frequency: float, decibels: float, miles: float) -> None:
    assert whistle_sound_level(length, frequency) == decibels
    assert whistle_audible_range(length) == miles
