"""EN 50160 as Rockwell's PowerMonitor 5000 manual restates it, and ANSI C84.1 range A as quick220.com does.

https://www.easymanua.ls/rockwell-automation/allen-bradley-powermonitor-5000-unit/manual?p=474 ,
http://www.quick220.com/page/cp-voltage.html
"""

import pytest

from plangen.formulas.declare import OutOfRange
from plangen.formulas.shore_supply import (
    supply_frequency_tolerance,
    supply_voltage_maximum,
    supply_voltage_minimum,
)


def test_european_supply() -> None:
    # EN 50160: 230 V with 10 % either way, 95 % of 10-minute means; 50 Hz with 1 % either way.
    assert (supply_voltage_minimum(230.0), supply_voltage_maximum(230.0)) == (207, 253)
    assert (50 - supply_frequency_tolerance(50.0), 50 + supply_frequency_tolerance(50.0)) == (49.5, 50.5)


def test_three_phases() -> None:
    # EN 50160: 400 V between phases with 10 % either way.
    assert (supply_voltage_minimum(400.0), supply_voltage_maximum(400.0)) == (360, 440)


def test_american_supply() -> None:
    # ANSI C84.1: "any voltage between 114 V and 126 V acceptable under normal operating conditions".
    assert (supply_voltage_minimum(120.0), supply_voltage_maximum(120.0)) == (114, 126)


def test_two_legs() -> None:
    # North American voltage page: 120 and 240 V, 5 % either way at the transformer.
    assert (supply_voltage_minimum(240.0), supply_voltage_maximum(240.0)) == (228, 252)


def test_unknown_system_is_refused() -> None:
    with pytest.raises(OutOfRange):
        supply_voltage_minimum(100.0)
