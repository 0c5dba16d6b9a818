"""American Boat and Yacht Council, H-40, horizontal loads on ground tackle, from public copies: Waterway Guide, Loads on
ground tackle, https://waterwayguide-data.com/knowledge-center/news-post/12333/loads-on-ground-tackle; Star Marine Depot,
anchoring guide, https://www.starmarinedepot.com/blog/?cat=3; D. Gerr, Boat Mechanical Systems Handbook, ch. 24,
https://issuhub.com/view/index/10037?pageIndex=395. Mantus Marine's copy
(https://www.mantusmarine.com/mantus-anchor-knowledgebase/anchor-sizing) prints the columns of 20 and 25 ft at 42 and
60 kn one place over; the others agree with twice and four times the load at 30 kn."""

import pint
import pytest

from plangen.formulas.ground_tackle import ground_tackle_load

UNITS: pint.UnitRegistry[float] = pint.UnitRegistry()


@pytest.mark.parametrize(
    ("feet", "wind", "pounds"),
    [
        (20.0, 15.0, 90.0),
        (20.0, 42.0, 720.0),
        (20.0, 60.0, 1440.0),
        (25.0, 42.0, 980.0),
        (25.0, 60.0, 1960.0),
        (40.0, 15.0, 300.0),
        (35.0, 30.0, 900.0),
        (50.0, 42.0, 3200.0),
        (30.0, 60.0, 2800.0),
        (70.0, 60.0, 10800.0),
    ],
)
def test_table_in_pounds(feet: float, wind: float, pounds: float) -> None:
    # Star Marine Depot and Waterway Guide.
    assert ground_tackle_load(feet, wind) == pytest.approx(pounds, rel=0.003)


@pytest.mark.parametrize(
    ("feet", "kilograms"),
    [(20.0, 163.0), (25.0, 222.0), (30.0, 318.0), (35.0, 408.0), (40.0, 544.0), (50.0, 726.0), (60.0, 907.0)],
)
def test_metric_copy(feet: float, kilograms: float) -> None:
    # Star Marine Depot's metric copy of the row for 30 kn.
    load = UNITS.Quantity(ground_tackle_load(feet), "pound_force").to("kilogram_force").magnitude
    assert load == pytest.approx(kilograms, abs=0.6)


def test_handbook_example() -> None:
    # Gerr: a power boat of 32 ft has a working load of 900 lbf.
    assert ground_tackle_load(32.0) == 900.0
