"""A compass maker's manual on checking the steering compass with a hand bearing compass."""

import pytest

from plangen.formulas.compass import compass_deviation


def test_hand_bearing_compass() -> None:
    # The manual: 030 by hand, 034 by the steering compass, deviation 4 west.
    assert compass_deviation(30.0, 34.0) == pytest.approx(-4.0)


def test_across_north() -> None:
    # The same difference on either side of north.
    assert compass_deviation(358.0, 2.0) == pytest.approx(-4.0)
