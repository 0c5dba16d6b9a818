"""A sound level meter maker's note on adding and subtracting decibels, and pages on background noise."""

import pytest

from plangen.formulas.sound import background_corrected_level, combined_sound_level


@pytest.mark.parametrize(
    ("difference", "addition"),
    # The note's table of additions to the higher level.
    [
        (0.0, 3.0),
        (1.0, 2.5),
        (2.0, 2.1),
        (3.0, 1.8),
        (4.0, 1.5),
        (5.0, 1.2),
        (6.0, 1.0),
        (8.0, 0.6),
        (10.0, 0.4),
    ],
)
def test_adding(difference: float, addition: float) -> None:
    assert combined_sound_level(80.0, 80.0 - difference) - 80.0 == pytest.approx(addition, abs=0.051)


def test_two_machines() -> None:
    # The note's example: 84 and 79 dB(A) together are 85.2 dB(A).
    assert combined_sound_level(84.0, 79.0) == pytest.approx(85.2, abs=0.05)


@pytest.mark.parametrize(
    ("difference", "correction"),
    # The note's table of corrections to the higher level.
    [(3.0, 3.0), (4.0, 2.2), (5.0, 1.7), (6.0, 1.3), (7.0, 1.0), (8.0, 0.7), (10.0, 0.5)],
)
def test_subtracting(difference: float, correction: float) -> None:
    assert 80.0 - background_corrected_level(80.0, 80.0 - difference) == pytest.approx(correction, abs=0.06)


def test_background_of_89_decibels() -> None:
    # A page on background corrections: 93 dB in all over 89 dB leaves 90.7 dB.
    assert background_corrected_level(93.0, 89.0) == pytest.approx(90.7, abs=0.11)
