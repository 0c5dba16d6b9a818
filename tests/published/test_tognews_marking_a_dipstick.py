"""Gauge of a V-shaped tank against "Marking a Dipstick", read-me on the site tognews.com.

https://ftp.tognews.com/Projects/Tanks/Dipsticks/Marking%20a%20Dipstick%20readme.htm
"""

import pytest

from plangen.formulas.tanks import tank_gauge_volume


def test_half_the_volume_stands_at_nearly_three_quarters() -> None:
    # the page: in a V-shaped tank half of the volume is reached at nearly three quarters of the height
    assert tank_gauge_volume(100.0, 0.7, "wedge") < 50.0 < tank_gauge_volume(100.0, 0.75, "wedge")


def test_box_is_linear() -> None:
    # geometry: straight sides
    assert tank_gauge_volume(100.0, 0.25) == pytest.approx(25.0)
