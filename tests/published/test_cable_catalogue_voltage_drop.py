"""A chandler's 2021 and 2022 catalogues, wire-size tables for 3 % and 10 % voltage drop."""

import pytest

from plangen.formulas.conductors import gauge_area
from plangen.formulas.voltage_drop import (
    conductor_area_american,
    conductor_gauge,
    voltage_drop,
    voltage_drop_limit,
    voltage_drop_percent,
)
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
    for current, gauge in zip(CURRENTS, TABLE_A[feet].split(), strict=True):
        drop = voltage_drop_percent(current, feet * FOOT, gauge_area(gauge), 12.0)
        assert drop < 3.3, f"{current} A, {feet} ft, {gauge} AWG"  # the table rounds by up to a tenth


def test_row_of_10_feet_is_chosen_exactly() -> None:
    chosen = [
        conductor_gauge(float(a), 10 * FOOT, voltage_drop_limit("critical", 12.0), 200.0) for a in CURRENTS
    ]
    assert " ".join(chosen) == TABLE_A[10]


def test_bilge_pump_at_10_per_cent() -> None:
    # 2021 catalogue, page 53: 10 A, 11 ft out and 10 ft back, the answer is 16 AWG.
    assert conductor_gauge(10.0, 21 * FOOT, voltage_drop_limit("other", 12.0)) == "16"


def test_bilge_pump_at_3_per_cent_by_the_formula() -> None:
    # A marine retailer's page on the same pump at 3 %: by formula 12 AWG.
    area = conductor_area_american(10.0, 21 * FOOT, voltage_drop_limit("critical", 12.0))
    assert area == pytest.approx(gauge_area("12"))


def test_example_of_a_marine_electrical_maker() -> None:
    # A panel maker's sizing page, example a: 12 V, 10 %, 40 ft and 45 A need 8 AWG.
    assert conductor_gauge(45.0, 40 * FOOT, 1.2) == "8"


def test_masthead_light_on_the_iso_constant() -> None:
    # A sailor's page works ISO's 0.0164 for 1.6 A, 22 m and 1.5 mm²: 0.38 V. Ours is 0.0179/0.0164 of it.
    assert voltage_drop(1.6, 22.0, 1.5) == pytest.approx(0.0164 * 1.6 * 22 / 1.5 * 0.0179 / 0.0164, rel=0.005)
    assert 0.38 < voltage_drop(1.6, 22.0, 1.5) < 0.43


def test_measured_loss_as_a_figure_of_the_report() -> None:
    # 2021 catalogue, page 53: 10 % of 12 V are 1.2 V.
    assert worked_out("voltage-drop-percent", {"lost": 1.2}, nominal_voltage=12.0).value == pytest.approx(
        10.0
    )
