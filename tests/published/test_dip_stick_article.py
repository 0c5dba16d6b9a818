"""Gauge of a V-shaped tank against a published article on marking a dip stick."""

import pytest

from plangen.formulas.tanks import tank_gauge_volume


def test_half_the_volume_stands_at_nearly_three_quarters() -> None:
    # the article: in a V-shaped tank half of the volume is reached at nearly three quarters of the height
    assert tank_gauge_volume(100.0, 0.7, "wedge") < 50.0 < tank_gauge_volume(100.0, 0.75, "wedge")


def test_box_is_linear() -> None:
    # geometry: straight sides
    assert tank_gauge_volume(100.0, 0.25) == pytest.approx(25.0)
