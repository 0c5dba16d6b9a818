"""Conductivity and dissolved solids against the standards tables in meters' manuals."""

import pytest

from plangen.formulas import OutOfRange
from plangen.formulas.sea_water import conductivity_at_25, dissolved_solids


@pytest.mark.parametrize(
    ("measured", "temperature", "at_25"),
    [  # a laboratory conductivity meter's manual, table of standards
        (1.147, 15.0, 1.413),
        (1.278, 20.0, 1.413),
        (1.552, 30.0, 1.413),
        (0.4515, 20.0, 0.500),
        (11.67, 20.0, 12.88),
        (14.12, 30.0, 12.88),
    ],
)
def test_temperature_compensation(measured: float, temperature: float, at_25: float) -> None:
    assert conductivity_at_25(measured, temperature) == pytest.approx(at_25, rel=0.01)


@pytest.mark.parametrize(
    ("conductivity", "factor", "expected"),
    [  # two meters' manuals: sodium chloride, potassium chloride and "442" scales
        (447.0, 0.482, 215.5),
        (1413.0, 0.497, 702.0),
        (1413.0, 0.527, 745.0),
        (1413.0, 0.708, 1000.0),
        (2764.0, 0.512, 1415.0),
        (8974.0, 0.848, 7608.0),
    ],
)
def test_dissolved_solids(conductivity: float, factor: float, expected: float) -> None:
    assert dissolved_solids(conductivity, factor) == pytest.approx(expected, rel=0.002)


def test_watermaker_default_lies_on_the_sodium_chloride_scale() -> None:
    # the same manuals: 8974 uS/cm is 4487 ppm of sodium chloride
    assert dissolved_solids(8974.0) == pytest.approx(4487.0)


def test_out_of_range_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"factor is 1\.2"):
        dissolved_solids(1413.0, 1.2)
    with pytest.raises(OutOfRange, match="conductivity is 0"):
        conductivity_at_25(0.0, 20.0)
