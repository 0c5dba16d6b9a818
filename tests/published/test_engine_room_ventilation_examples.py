"""Worked examples of engine room air.

Dave Gerr, Boat Mechanical Systems Handbook, ch. 16, formula 16-2, https://issuhub.com/view/index/10037?pageIndex=290;
Power & Motoryacht, How to properly ventilate your boat's engine room,
https://www.powerandmotoryacht.com/maintenance/how-to-properly-ventilate-your-boats-engine-room;
marinedieselbasics.com, Good engine room ventilation,
https://marinedieselbasics.com/engine-breathing-air-intake-exhaust/good-engine-room-ventilation/
"""

import pint
import pytest

from plangen.formulas.engine_space import combustion_air, engine_vent_area

UNITS: pint.UnitRegistry[float] = pint.UnitRegistry()


def test_handbook_area_in_square_inches() -> None:
    # Handbook of boat mechanical systems, formula 16-2: two engines of 325 hp need 197 square inches.
    assert engine_vent_area(650.0) == pytest.approx(197.0, abs=0.5)


def test_handbook_area_in_square_centimetres() -> None:
    # The same page in metric units: 484 kW x 2.6 = 1,260 cm2.
    horsepower = UNITS.Quantity(484.0, "kilowatt").to("horsepower").magnitude
    area = UNITS.Quantity(engine_vent_area(horsepower), "inch**2").to("centimetre**2").magnitude
    assert area == pytest.approx(1260.0, rel=0.015)


def test_handbook_area_with_complex_ducts() -> None:
    # The same page: about 237 square inches with long, bent ducts.
    assert engine_vent_area(650.0, 20.0) == pytest.approx(237.0, abs=1.0)


def test_manual_combustion_air() -> None:
    # Marine diesel manual: 40 hp need 170 m3/h.
    assert combustion_air(40.0) == pytest.approx(170.0, abs=1.0)
