"""A trawler magazine's article of March 2018 on fuel burn: nautical miles for each US gallon."""

import pytest

from tests.assess.building import worked_out

LITRES_PER_GALLON = 3.785411784


@pytest.mark.parametrize(
    ("knots", "gallons_per_hour", "miles_per_gallon"),
    [(10.0, 11.0, 0.9), (22.0, 22.0, 1.0)],  # the article's boats A and B
)
def test_fuel_for_each_mile(knots: float, gallons_per_hour: float, miles_per_gallon: float) -> None:
    found = worked_out("fuel-per-mile", {"rate": gallons_per_hour * LITRES_PER_GALLON, "speed": knots})
    assert found.value is not None
    assert LITRES_PER_GALLON / found.value == pytest.approx(miles_per_gallon, abs=0.05)


def test_five_hours_at_twenty_gallons_an_hour_take_a_hundred_gallons() -> None:
    # the article: 20 gallons an hour for five hours are 100 gallons; at 10 kn they reach 50 miles
    found = worked_out(
        "range-under-power",
        {"rate": 20.0 * LITRES_PER_GALLON, "speed": 10.0},
        usable_fuel=100.0 * LITRES_PER_GALLON,
        reserve=0.0,
    )
    assert found.value == pytest.approx(50.0)
