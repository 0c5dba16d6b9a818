"""Holland Marine Products, catalogues of 2021 (p. 53) and 2022 (p. 52), wire-size tables for 3 % and 10 % loss.

http://hollandmarine.com/hmp-flipbook-2021/flipbook/inc/html/53.html
"""

import pytest

from plangen.formulas.conductors import gauge_area
from plangen.formulas.voltage_drop import voltage_drop, voltage_drop_limit
from tests.assess.building import worked_out

FOOT = 0.3048
CURRENTS = (5, 10, 15, 20, 25, 30, 40, 50, 60, 70, 80, 90, 100)
#: 2022 catalogue, page 52, Table A, 3 % at 12 V: length there and back in feet, gauge by current.
TABLE_A = {
    10: "18 14 12 12 10 10 8 8 6 6 6 4 4",
    15: "16 12 10 10 8 8 6 6 4 4 4 2 2",
    20: "14 10 10 8 6 6 6 4 4 2 2 2 2",
    25: "12 10 8 6 4 4 4 2 2 2 2 1 1",
    30: "12 10 8 6 6 6 4 4 2 2 2 1 1",
    40: "10 8 6 6 4 4 2 2 1 0 0 2/0 2/0",
}


@pytest.mark.parametrize("feet", TABLE_A)
def test_conductors_of_the_3_per_cent_table_keep_to_it(feet: int) -> None:
    limit = voltage_drop_limit("critical", 12.0)
    for current, gauge in zip(CURRENTS, TABLE_A[feet].split(), strict=True):
        drop = voltage_drop(current, feet * FOOT, gauge_area(gauge))
        assert drop < 1.1 * limit, f"{current} A, {feet} ft, {gauge} AWG"  # the table rounds by up to a tenth


@pytest.mark.parametrize(("gauge", "does"), [("16", True), ("18", False)])
def test_bilge_pump_at_10_per_cent(gauge: str, does: bool) -> None:
    # 2021 catalogue, page 53: 10 A, 11 ft out and 10 ft back, the answer is 16 AWG.
    drop = voltage_drop(10.0, 21 * FOOT, gauge_area(gauge))
    assert (drop <= voltage_drop_limit("other", 12.0)) is does


def test_measured_loss_as_a_figure_of_the_report() -> None:
    # 2021 catalogue, page 53: 10 % of 12 V are 1.2 V.
    found = worked_out("voltage-drop-percent", {"lost": 1.2}, nominal_voltage=12.0)
    assert found.value == pytest.approx(10.0)
