"""Daily charge of a refrigerator against an owner's published record in the tropics (2020)."""

import pytest

from plangen.formulas import OutOfRange
from plangen.formulas.refrigeration import refrigeration_daily_charge


def test_record() -> None:
    # 267 Ah in 197 h for fridge and freezer: 1.36 A on average
    assert refrigeration_daily_charge(267.0, 197.0) / 24.0 == pytest.approx(1.36, abs=0.005)


def test_empty_record_is_refused() -> None:
    with pytest.raises(OutOfRange, match="time is 0"):
        refrigeration_daily_charge(10.0, 0.0)
