"""FAO Irrigation and Drainage Paper 56, chapter 3, example 9 (length of day)."""

from datetime import date

import pytest

from plangen.formulas.clear_sky import sum_over_day


def test_length_of_day() -> None:
    # Day 246 at 20 degrees south: 11.67 hours of sun, by the paper's declination, which is half a degree off.
    hours = sum_over_day(date(2026, 9, 3), -20.0, lambda height: 1.0 if height > 0 else 0.0)
    assert hours == pytest.approx(11.67, abs=0.07)
