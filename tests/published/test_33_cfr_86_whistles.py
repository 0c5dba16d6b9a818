"""33 CFR 86.05 table 86.05, level and audible range of whistles (text read).

https://www.law.cornell.edu/cfr/text/33/86.05
"""

import pytest

from plangen.formulas import OutOfRange
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


#: Lengths at either end of a row, and its bands: from, to, level.
ROWS = [
    ((200.0, 400.0), ((130, 180, 145), (180, 250, 143), (250, 1200, 140))),
    ((75.0, 199.9), ((130, 180, 140), (180, 250, 138), (250, 1200, 134))),
    ((20.0, 74.9), ((250, 450, 130), (450, 800, 125), (800, 1600, 121))),
    ((12.0, 19.9), ((250, 450, 120), (450, 800, 115), (800, 2100, 111))),
]


@pytest.mark.parametrize(("lengths", "bands"), ROWS)
def test_every_row_to_the_ends_of_its_bands(
    lengths: tuple[float, ...], bands: tuple[tuple[int, int, int], ...]
) -> None:
    for length in lengths:
        for low, high, decibels in bands:
            assert whistle_sound_level(length, low + 0.5) == decibels
            assert whistle_sound_level(length, high - 0.5) == decibels
        assert whistle_sound_level(length, bands[0][0]) == bands[0][2]
        assert whistle_sound_level(length, bands[-1][1]) == bands[-1][2]
        for outside in (bands[0][0] - 0.5, bands[-1][1] + 0.5):
            with pytest.raises(OutOfRange):
                whistle_sound_level(length, outside)
