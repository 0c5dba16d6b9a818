"""A battery maker's knowledge base and a battery monitor's manual on what charging costs."""

import pytest

from tests.assess.building import worked_out


def test_what_was_taken_out_of_lead_needs_a_fifth_more() -> None:
    # Knowledge base: an efficiency of about 85 %, so 100 Ah need approximately 120 Ah.
    found = worked_out("charge-balance", {"charge_in": 120.0, "charge_out": 100.0}, chemistry="flooded")
    assert found.value == pytest.approx(0.0, abs=3.0)


def test_lead_stores_less_than_goes_in() -> None:
    # Monitor manual: at 95 %, 10 Ah in are 9.5 Ah stored; flooded lead lies below that, lithium above.
    flooded = worked_out("charge-balance", {"charge_in": 10.0, "charge_out": 9.5}, chemistry="flooded")
    lithium = worked_out(
        "charge-balance", {"charge_in": 10.0, "charge_out": 9.5}, chemistry="lithium-iron-phosphate"
    )
    assert flooded.value is not None
    assert lithium.value is not None
    assert flooded.value < 0.0 < lithium.value
