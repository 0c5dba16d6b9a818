"""Garmin, NMEA 2000 network fundamentals (2021): voltage drop of the backbone; terminators of 120 ohm at each end.

https://www8.garmin.com/manuals/webhelp/GUID-1415AAD0-FE63-42A6-8F8D-DB713D616122/EN-US/GUID-7803C22A-BA02-4E92-BF60-6038F30EB817.html
"""

import pytest

from plangen.formulas.declare import OutOfRange
from plangen.formulas.network_backbone import backbone_resistance, backbone_voltage_drop


def test_drop_is_that_of_two_conductors() -> None:
    # 20 loads of 50 mA are 1 A; 12 m there and back of 0.053 ohm/m are 1.27 ohm.
    assert backbone_voltage_drop(12.0, 20.0, 0.053) == pytest.approx(1.27, abs=0.005)


def test_terminators() -> None:
    assert backbone_resistance(1.0) == 120
    assert backbone_resistance(2.0) == 60  # two of 120 ohm in parallel


def test_a_backbone_of_five_terminators_is_refused() -> None:
    with pytest.raises(OutOfRange):
        backbone_resistance(5.0)
