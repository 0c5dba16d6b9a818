"""Yachting and Boating World forums, Cruising yacht to windward, page 2 (undated), a vector example of 12 kn of wind
at 30 degrees and 7 kn of boat speed: https://forums.ybw.com/threads/cruising-yacht-to-windward.246091/page-2."""

import pytest

from plangen.formulas.sailing import apparent_wind_angle, apparent_wind_speed


def test_apparent_wind() -> None:
    # The forum prints 18.4 kn at 18.9 degrees (19.03 without rounding on the way).
    assert apparent_wind_speed(12.0, 30.0, 7.0) == pytest.approx(18.4, abs=0.05)
    assert apparent_wind_angle(12.0, 30.0, 7.0) == pytest.approx(18.9, abs=0.2)
