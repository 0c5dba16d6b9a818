"""The propeller's load curve as owners state it.

YBW forum, diesel consumption, https://forums.ybw.com/threads/diesel-consuption.92755/post-915607
"""

import pytest

from plangen.formulas.propeller import propeller_law_power


def test_half_power_near_eighty_percent_of_the_speed() -> None:
    # Owners' forum on diesel consumption: half power at about 80 % of the revolutions.
    assert propeller_law_power(100.0, 2400.0, 3000.0, 3.0) == pytest.approx(50.0, abs=2.0)
