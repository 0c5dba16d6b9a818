"""Cooling capacity by volume against Practical Sailor, "Calculating the Right Air Conditioner Size" (issue 45/6).

https://www.practical-sailor.com/issues/45_6/features/Calculating-the-Right-Air-Conditioner-Size_12606-1.html
"""

import pytest

from plangen.formulas import OutOfRange
from plangen.formulas.air_conditioning import cooling_capacity_needed


def test_worked_example() -> None:
    # the article: 17,000 Btu/h by 14 Btu/h per cubic foot, that is 1214 cubic feet
    kilowatt = cooling_capacity_needed(1214.0 * 0.0283168466)
    assert kilowatt * 1000.0 / 0.29307107 == pytest.approx(17000.0, rel=0.001)


def test_out_of_range_is_refused() -> None:
    with pytest.raises(OutOfRange, match="persons"):
        cooling_capacity_needed(30.0, persons=-1.0)
