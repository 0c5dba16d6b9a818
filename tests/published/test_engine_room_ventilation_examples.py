"""Worked examples of engine room air: a boat systems handbook, a power boat magazine, a diesel manual."""

import pint
import pytest

from plangen.formulas.engine_space import combustion_air, engine_space_airflow, engine_vent_area

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


def test_magazine_airflow() -> None:
    # Power boat magazine: 2.75 x 650 - 90 = 1,697 cubic feet per minute, 48 m3 per minute.
    airflow = engine_space_airflow(650.0)
    assert airflow == pytest.approx(1697.0, abs=1.0)
    assert UNITS.Quantity(airflow, "foot**3").to("metre**3").magnitude == pytest.approx(48.0, abs=0.2)


def test_manual_combustion_air() -> None:
    # Marine diesel manual: 40 hp need 170 m3/h.
    assert combustion_air(40.0) == pytest.approx(170.0, abs=1.0)
