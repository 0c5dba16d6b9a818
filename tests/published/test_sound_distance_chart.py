"""Inverse square law as a published sound meter for distances states it: 6.02 dB for each doubling."""

import pytest

from plangen.formulas.sound import sound_level_at_distance


@pytest.mark.parametrize(("doublings", "loss"), [(1, 6.02), (2, 12.04), (3, 18.06)])
def test_doubling_the_distance(doublings: int, loss: float) -> None:
    assert 150.0 - sound_level_at_distance(150.0, 10.0, 10.0 * 2**doublings) == pytest.approx(loss, abs=0.01)
