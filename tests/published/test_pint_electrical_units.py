"""pint: the same physics computed with units by a reference library."""

import pint
import pytest

from plangen.formulas.alternator import alternator_speed
from plangen.formulas.conductors import OHMS_PER_MIL_FOOT, RESISTIVITY_30
from plangen.formulas.corrosion_protection import anode_life, anode_mass
from plangen.formulas.declare import DATE, FORMULAS, TEXT
from plangen.formulas.flow_generator import wind_generator_power
from plangen.formulas.generator_set import generator_frequency
from plangen.formulas.network_backbone import backbone_voltage_drop
from plangen.formulas.power_conversion import charger_input_current, inverter_input_current
from plangen.formulas.shore_supply import shore_power
from plangen.formulas.voltage_drop import voltage_drop

units: pint.UnitRegistry[float] = pint.UnitRegistry()
Q = units.Quantity


def test_mil_foot_constant_in_metric_units() -> None:
    constant = Q(OHMS_PER_MIL_FOOT, "ohm * circular_mil / foot").to("ohm * millimetre**2 / metre")
    assert constant.magnitude == pytest.approx(RESISTIVITY_30, rel=1e-9)


def test_voltage_drop_in_american_and_metric_units() -> None:
    mils = 10.75 * 10.0 * 21.0 / 1.2  # ABYC E-11 11.14.2.6 as quoted
    area = Q(mils, "circular_mil").to("millimetre**2").magnitude
    length = Q(21.0, "foot").to("metre").magnitude
    assert voltage_drop(10.0, length, area) == pytest.approx(1.2, rel=1e-9)


def test_wind_generator() -> None:
    speed = Q(15.0, "knot")
    area = 3.141592653589793 / 4 * Q(1.17, "metre") ** 2
    power = (0.25 * 0.5 * Q(1.225, "kilogram/metre**3") * area * speed**3).to("watt")
    assert wind_generator_power(1.17, speed.to("metre/second").magnitude) == pytest.approx(power.magnitude)


def test_backbone_is_ohms_law_over_two_conductors() -> None:
    current = 20 * Q(50.0, "milliampere")
    drop = (current * 2 * Q(0.053, "ohm/metre") * Q(12.0, "metre")).to("volt")
    assert backbone_voltage_drop(12.0, 20.0, 0.053) == pytest.approx(drop.magnitude)


def test_inverter_and_charger_power_balance() -> None:
    current = (Q(1500.0, "watt") / 0.9 / Q(12.5, "volt")).to("ampere")
    assert inverter_input_current(1500.0, 12.5) == pytest.approx(current.magnitude)
    supply = (Q(60.0, "ampere") * Q(14.4, "volt") / 0.88 / Q(230.0, "volt")).to("ampere")
    assert charger_input_current(60.0, 14.4, 230.0) == pytest.approx(supply.magnitude)


def test_shore_power() -> None:
    power = (Q(16.0, "ampere") * Q(230.0, "volt")).to("kilowatt")
    assert shore_power(16.0, 230.0) == pytest.approx(power.magnitude)


def test_anode_consumption() -> None:
    mass = (Q(0.1, "ampere") * Q(276.0, "day") / Q(780.0, "ampere_hour/kilogram") / 0.85).to("kilogram")
    assert anode_mass(100.0, 276.0) == pytest.approx(mass.magnitude)
    assert anode_life(mass.magnitude, 100.0) == pytest.approx(276.0)


def test_synchronous_speed() -> None:
    # Turns per second times pairs of poles.
    turns = Q(3600.0, "turn/minute").to("turn/second").magnitude
    assert generator_frequency(3600.0, 2.0) == pytest.approx(turns)


def test_pulley_rim_speeds_are_equal() -> None:
    rim = Q(800.0, "turn/minute") * Q(178.0, "millimetre")
    assert alternator_speed(800.0, 1.78) == pytest.approx((rim / Q(100.0, "millimetre")).magnitude)


@pytest.mark.parametrize("name", sorted(FORMULAS))
def test_every_declared_unit_is_known_to_pint(name: str) -> None:
    declared = FORMULAS[name]
    for unit in (*declared.units.values(), declared.returns):
        assert unit in (TEXT, DATE) or units.parse_units(unit) is not None
