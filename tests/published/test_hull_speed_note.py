"""Hull speed, with an example of 500 ft.

everything2.com, hull speed, https://everything2.com/title/hull+speed
"""

import pytest

from plangen.formulas.displacement_speed import hull_speed


def test_five_hundred_feet() -> None:
    # "Hull speed" note: a waterline of 500 ft gives 30 kn.
    assert hull_speed(500.0) == pytest.approx(30.0, abs=0.1)
