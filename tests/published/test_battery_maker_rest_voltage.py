"""A battery maker's state-of-charge page, tables 6 to 8, and a charger forum's table for 20 °C."""

import pytest

from plangen.formulas.battery_rest_voltage import (
    charged_rest_voltage,
    rest_voltage,
    specific_gravity,
    state_of_charge,
)
from plangen.formulas.declare import OutOfRange

FAHRENHEIT = [(0, -0.192), (30, -0.120), (50, -0.072), (80, 0.0), (100, 0.048), (120, 0.096)]


@pytest.mark.parametrize(
    ("charge", "volts"), [(100, 12.65), (75, 12.45), (50, 12.24), (25, 12.06), (0, 11.89)]
)
def test_table_6(charge: float, volts: float) -> None:
    assert rest_voltage(charge, "flooded") == pytest.approx(volts, abs=0.001)
    assert state_of_charge(volts, "flooded") == pytest.approx(charge, abs=0.1)


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
    ("charge", "volts"), [(100, 12.70), (75, 12.40), (50, 12.20), (25, 12.00), (0, 11.90)]
)
def test_another_flooded_table_at_20_degrees(charge: float, volts: float) -> None:
    # A forum's table of flooded batteries at 20 °C; such tables differ by a tenth of a volt.
    assert rest_voltage(charge, "flooded", 12.0, 20.0) == pytest.approx(volts, abs=0.1)


@pytest.mark.parametrize(
    ("charge", "volts"), [(100, 12.80), (75, 12.55), (50, 12.20), (25, 11.75), (0, 10.5)]
)
def test_absorbed_glass_mat_maker(charge: float, volts: float) -> None:
    # An absorbed-glass-mat battery maker's manual, state-of-charge table.
    assert rest_voltage(charge, "agm") == pytest.approx(volts)
    assert state_of_charge(4 * volts, "agm", 48.0) == pytest.approx(charge)


def test_one_per_cent_of_meter_error_is_about_15_per_cent_of_charge() -> None:
    # A mailing list's rule of thumb for lead.
    shift = state_of_charge(12.5, "flooded") - state_of_charge(12.5 * 0.99, "flooded")
    assert shift == pytest.approx(15, abs=3)


def test_charged_bank() -> None:
    assert charged_rest_voltage("flooded", 24.0) == pytest.approx(2 * 12.65)  # table 6, full row


@pytest.mark.parametrize(
    ("volts", "chemistry"),
    [(13.2, "lithium-iron-phosphate"), (14.4, "flooded"), (9.0, "agm"), (12.4, "nickel")],
)
def test_what_voltage_does_not_tell_is_refused(volts: float, chemistry: str) -> None:
    with pytest.raises(OutOfRange):
        state_of_charge(volts, chemistry)
