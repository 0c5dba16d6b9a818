"""Published limits of exhaust back pressure, which their sources print in several units.

Dave Gerr, Boat Mechanical Systems Handbook, ch. 7, https://issuhub.com/view/index/10037?pageIndex=127;
Westerbeke, 33A technical data,
https://www.manualshelf.com/manual/westerbeke/33a/technical-data-english/page-11.html
"""

import pint
import pytest

from plangen.formulas.engine_cooling_and_exhaust import exhaust_back_pressure_limit

UNITS: pint.UnitRegistry[float] = pint.UnitRegistry()


@pytest.mark.parametrize(
    ("aspiration", "inches", "kilopascals"),
    # Handbook of boat mechanical systems, ch. 7, guide for engines without a maker's limit.
    [("natural", 2.5, 8.5), ("turbocharged", 2.0, 6.8)],
)
def test_handbook_guide(aspiration: str, inches: float, kilopascals: float) -> None:
    limit = exhaust_back_pressure_limit(aspiration)
    assert limit == inches
    assert UNITS.Quantity(limit, "inHg").to("kilopascal").magnitude == pytest.approx(kilopascals, abs=0.06)


def test_guide_lies_below_a_small_diesel_maker() -> None:
    # Small diesel maker's operation manual: 80 mmHg at full speed, natural aspiration.
    maker = UNITS.Quantity(80.0, "mmHg").to("inHg").magnitude
    assert maker == pytest.approx(3.1, abs=0.06)  # the manual's own second unit
    assert exhaust_back_pressure_limit("natural") < maker
