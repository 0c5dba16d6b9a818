"""ISO 8528-5 class G2 as a tender specification quotes it, and generator makers' manuals.

Tender specification, http://www.mrb78.info/?page_id=1616; Eaton, 8 kW air-cooled generator, owner's manual,
https://manualarchiveguide.com/manuals/Eaton-8-kW-Air-cooled-Owner-s-Manual-5025339?page=18
"""

import pytest

from plangen.formulas.generator_set import (
    frequency_droop_limit,
    generator_dip_voltage,
    generator_voltage_tolerance,
)


def test_class_g2() -> None:
    assert frequency_droop_limit("G2") == 5  # "(a) frequency droop: < 5 %"
    assert generator_voltage_tolerance(400.0, "G2") == pytest.approx(10)  # "(e) < ± 2.5 %"
    assert generator_dip_voltage(400.0, "G2") == pytest.approx(320)  # "(h)(ii) sudden increase: < - 20 %"
