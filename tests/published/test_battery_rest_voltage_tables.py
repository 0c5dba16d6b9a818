"""Open-circuit voltage by charge: a flooded battery maker's state-of-charge page (tables 6 and 7, 80 °F) and Concorde's manual.

https://batterymanagement.concordebattery.com/BatteryImages/manual2.htm
"""

import pytest

from plangen.formulas.battery_rest_voltage import charged_rest_voltage, rest_voltage, specific_gravity
from plangen.formulas.declare import OutOfRange

FAHRENHEIT = [(0, -0.192), (30, -0.120), (50, -0.072), (80, 0.0), (100, 0.048), (120, 0.096)]


@pytest.mark.parametrize(
    ("charge", "volts"), [(100, 12.65), (75, 12.45), (50, 12.24), (25, 12.06), (0, 11.89)]
)
def test_table_6(charge: float, volts: float) -> None:
    assert rest_voltage(charge, "flooded") == pytest.approx(volts, abs=0.001)


@pytest.mark.parametrize(("fahrenheit", "correction"), FAHRENHEIT)
def test_table_7_voltmeter(fahrenheit: float, correction: float) -> None:
    celsius = (fahrenheit - 32) / 1.8
    assert rest_voltage(100.0, "flooded", 12.0, celsius) - 12.65 == pytest.approx(correction, abs=0.001)


def test_examples_of_the_page() -> None:
    # "At 30 °F the voltage reading would be 12.53 for 100 %. At 100 °F it would be 12.698."
    assert rest_voltage(100.0, "flooded", 12.0, (30 - 32) / 1.8) == pytest.approx(12.53, abs=0.001)
    assert rest_voltage(100.0, "flooded", 12.0, (100 - 32) / 1.8) == pytest.approx(12.698, abs=0.001)


@pytest.mark.parametrize(("fahrenheit", "added"), [(40, -0.016), (100, 0.008), (110, 0.012)])
def test_table_7_hydrometer(fahrenheit: float, added: float) -> None:
    # The page adds to a reading to bring it to 80 °F, where a full cell has 1.265.
    reading = specific_gravity(100.0, (fahrenheit - 32) / 1.8)
    assert reading + added == pytest.approx(1.265, abs=0.0002)


@pytest.mark.parametrize(
    ("charge", "volts"), [(100, 12.80), (75, 12.55), (50, 12.20), (25, 11.75), (0, 10.5)]
)
def test_absorbed_glass_mat_maker(charge: float, volts: float) -> None:
    # Concorde Battery, manual of absorbed-glass-mat batteries, state-of-charge table.
    assert rest_voltage(charge, "agm") == pytest.approx(volts)
    assert rest_voltage(charge, "agm", 48.0) == pytest.approx(4 * volts)


def test_charged_bank() -> None:
    assert charged_rest_voltage("flooded", 24.0) == pytest.approx(2 * 12.65)  # table 6, full row


def test_voltage_of_lithium_iron_phosphate_is_refused() -> None:
    with pytest.raises(OutOfRange, match="count ampere-hours"):
        rest_voltage(50.0, "lithium-iron-phosphate")
