"""Public copies of the table of horizontal loads after ABYC H-40 (secondary), in pounds and kilograms."""

import pint
import pytest

from plangen.formulas.ground_tackle import ground_tackle_load

UNITS: pint.UnitRegistry[float] = pint.UnitRegistry()


@pytest.mark.parametrize(
    ("feet", "wind", "pounds"),
    [
        (20.0, 15.0, 90.0),
        (40.0, 15.0, 300.0),
        (35.0, 30.0, 900.0),
        (50.0, 42.0, 3200.0),
        (30.0, 60.0, 2800.0),
        (70.0, 60.0, 10800.0),
    ],
)
def test_table_in_pounds(feet: float, wind: float, pounds: float) -> None:
    # A chandler's anchoring guide and a waterway guide.
    assert ground_tackle_load(feet, wind) == pytest.approx(pounds, rel=0.003)


@pytest.mark.parametrize(
    ("feet", "kilograms"),
    [(20.0, 163.0), (25.0, 222.0), (30.0, 318.0), (35.0, 408.0), (40.0, 544.0), (50.0, 726.0), (60.0, 907.0)],
)
def test_metric_copy(feet: float, kilograms: float) -> None:
    # The guide's metric copy of the row for 30 kn.
    load = UNITS.Quantity(ground_tackle_load(feet), "pound_force").to("kilogram_force").magnitude
    assert load == pytest.approx(kilograms, abs=0.6)


def test_handbook_example() -> None:
    # Handbook of boat mechanical systems, ch. 24: a power boat of 32 ft has a working load of 900 lbf.
    assert ground_tackle_load(32.0) == 900.0
