"""Water through a hole against published flooding rates, in US gallons per minute.

Table: whsyc.org, "Boat flooding rates", https://www.whsyc.org/Flooding/Flooding.html (Cd = 1).
Ocean Navigator, voyaging tips of June 2021, https://oceannavigator.com/voyaging-tips-june-2021/.
Steve D'Antonio Marine Consulting, "Seacocks" (2008), https://studylib.net/doc/18335572/seacocks---steve-d-antonio-marine-consulting.
"""

import pytest

from plangen.formulas import OutOfRange
from plangen.formulas.flooding import flooding_time, hole_inflow

INCH, FOOT, GALLON = 25.4, 0.3048, 3.785411784
DIAMETERS = (1.0, 1.5, 2.0, 2.5, 3.0, 3.5, 4.0)
TABLE = {  # the club's page, Cd = 1: feet of depth, gallons for each diameter
    1.0: (19.4, 43.8, 77.9, 121.7, 175.3, 238.6, 311.6),
    2.0: (27.8, 62.5, 111.1, 173.6, 250.0, 340.2, 444.4),
    3.0: (33.9, 76.3, 135.7, 212.0, 305.3, 415.6, 542.8),
    4.0: (39.3, 88.4, 157.1, 245.3, 353.5, 481.2, 628.4),
}


@pytest.mark.parametrize("depth", TABLE)
def test_table(depth: float) -> None:
    found = [hole_inflow(d * INCH, depth * FOOT, 1.0) / GALLON for d in DIAMETERS]
    assert found == pytest.approx(TABLE[depth], rel=0.02)


def test_magazine_with_a_sharp_hole() -> None:
    # a voyaging magazine (June 2021): 2 in at 1 ft lets in 47 gal/min, that is Cd = 0.6
    assert hole_inflow(2.0 * INCH, 1.0 * FOOT) / GALLON == pytest.approx(47.0, rel=0.01)


def test_consultant() -> None:
    # a marine consultant's article on seacocks (2008): 1 in at 3 ft, 34 gal/min (129 L/min)
    assert hole_inflow(1.0 * INCH, 3.0 * FOOT, 1.0) == pytest.approx(129.0, rel=0.01)


def test_pumps_that_keep_up_are_no_flood() -> None:
    with pytest.raises(OutOfRange, match="keep up"):
        flooding_time(500.0, 30.0, 30.0)
    with pytest.raises(OutOfRange, match="depth is 0"):
        hole_inflow(25.0, 0.0)
