"""Fuel use from power: 0.40 lb per hp hour at 7.1 lb per gallon, petrol 0.50 at 6.1.

Fuel use from hours and horsepower, three examples, https://calculator7.snowdaycalculatornow.com/?p=5408;
Barrington Diesel Club, fuel consumption calculations,
https://barringtondieselclub.co.za/amp/technical/fuel-consumption-calculations-amp.html
"""

import pint
import pytest

from plangen.formulas.fuel_and_range import fuel_rate

UNITS: pint.UnitRegistry[float] = pint.UnitRegistry()
DIESEL = UNITS.Quantity(0.40, "pound/(horsepower*hour)").to("gram/kilowatt_hour").magnitude
PETROL = UNITS.Quantity(0.50, "pound/(horsepower*hour)").to("gram/kilowatt_hour").magnitude
DIESEL_DENSITY = UNITS.Quantity(7.1, "pound/gallon").to("gram/litre").magnitude
PETROL_DENSITY = UNITS.Quantity(6.1, "pound/gallon").to("gram/litre").magnitude


def gallons(horsepower: float, hours: float, consumption: float, density: float) -> float:
    """Return the US gallons that an engine burns in some hours."""
    kilowatts = UNITS.Quantity(horsepower, "horsepower").to("kilowatt").magnitude
    litres = fuel_rate(kilowatts, consumption, density) * hours
    return float(UNITS.Quantity(litres, "litre").to("gallon").magnitude)


@pytest.mark.parametrize(
    ("horsepower", "hours", "printed"),
    [(150.0 * 0.65, 10.0, 54.6), (80.0, 12.0, 53.76)],  # the page's diesel examples
)
def test_diesel_examples(horsepower: float, hours: float, printed: float) -> None:
    assert gallons(horsepower, hours, DIESEL, DIESEL_DENSITY) == pytest.approx(printed, rel=0.007)


def test_petrol_example() -> None:
    # The page's petrol example: 25 hp, 6 h at 70 % burn 8.61 gal.
    assert gallons(25.0 * 0.70, 6.0, PETROL, PETROL_DENSITY) == pytest.approx(8.61, rel=0.001)


def test_conversion_page() -> None:
    # A club's page of diesel conversions: 0.40 lb per hp hour is 0.2132 L at a density of 0.853.
    assert fuel_rate(0.7457, DIESEL, 853.0) == pytest.approx(0.2132, rel=0.003)
