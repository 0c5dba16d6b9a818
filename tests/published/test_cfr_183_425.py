"""33 CFR 183.425 Table 5, allowable amperage of conductors, and what a cable maker prints from it.

http://federal.elaws.us/cfr/title-33/section-183.425
"""

import math

import pytest

from plangen.formulas.conductors import allowable_current, gauge_area, standard_rating_above
from plangen.formulas.declare import OutOfRange

#: A cable maker's 2023 catalogue, page 70, 105 °C cable: gauge, A outside and inside an engine space.
CATALOGUE = [
    ("18", 20, 17), ("16", 25, 21), ("14", 35, 30), ("12", 45, 38), ("10", 60, 51), ("8", 80, 68),
    ("6", 120, 102), ("4", 160, 136), ("3", 180, 153), ("2", 210, 178), ("1", 245, 208),
    ("1/0", 285, 242), ("2/0", 330, 280), ("3/0", 385, 327), ("4/0", 445, 378),
]  # fmt: skip

#: 33 CFR 183.425 Table 5, whole rows, columns 60, 75, 80, 90, 105, 125 and 200 °C.
TABLE_5 = [
    ("18", (10, 10, 15, 20, 20, 25, 25)), ("16", (15, 15, 20, 25, 25, 30, 35)), ("14", (20, 20, 25, 30, 35, 40, 45)),
    ("12", (25, 25, 35, 40, 45, 50, 55)), ("10", (40, 40, 50, 55, 60, 70, 70)), ("8", (55, 65, 70, 70, 80, 90, 100)),
    ("6", (80, 95, 100, 100, 120, 125, 135)), ("4", (105, 125, 130, 135, 160, 170, 180)), ("3", (120, 145, 150, 155, 180, 195, 210)),
    ("2", (140, 170, 175, 180, 210, 225, 240)), ("1", (165, 195, 210, 210, 245, 265, 280)), ("0", (195, 230, 245, 245, 285, 305, 325)),
    ("00", (225, 265, 285, 285, 330, 355, 370)), ("000", (260, 310, 330, 330, 385, 410, 430)), ("0000", (300, 360, 385, 385, 445, 475, 510)),
]  # fmt: skip


@pytest.mark.parametrize(("gauge", "outside", "inside"), CATALOGUE)
def test_catalogue_of_105_degree_cable(gauge: str, outside: int, inside: int) -> None:
    area = gauge_area(gauge)
    assert allowable_current(area) == outside  # catalogue, "Ampacity outside"
    assert allowable_current(area, 105.0, "engine space") == pytest.approx(inside, abs=0.51)  # "inside"


@pytest.mark.parametrize(("gauge", "row"), TABLE_5)
def test_rows_of_table_5(gauge: str, row: tuple[int, ...]) -> None:
    temperatures = (60.0, 75.0, 80.0, 90.0, 105.0, 125.0, 200.0)
    assert tuple(allowable_current(gauge_area(gauge), t) for t in temperatures) == row


@pytest.mark.parametrize("insulation", [60.0, 75.0, 80.0, 90.0, 105.0, 125.0])
def test_engine_space_factor_follows_the_heat_balance(insulation: float) -> None:
    # Heat shed is proportional to the rise over the air: 30 °C in the table, 50 °C in an engine space.
    balance = math.sqrt((insulation - 50) / (insulation - 30))
    area = gauge_area("6")
    factor = allowable_current(area, insulation, "engine space") / allowable_current(area, insulation)
    assert factor == pytest.approx(balance, abs=0.01)


def test_metric_conductor_takes_the_row_of_the_thinner_gauge() -> None:
    # 2.5 mm² lies between 14 AWG (2.08 mm²) and 12 AWG (3.31 mm²): Table 5 gives 14 AWG 35 A at 105 °C.
    assert allowable_current(2.5) == 35


@pytest.mark.parametrize(
    ("area", "temperature", "space"),
    [
        (0.5, 105.0, "elsewhere"),
        (4.0, 100.0, "elsewhere"),
        (4.0, 200.0, "engine space"),
        (4.0, 105.0, "attic"),
    ],
)
def test_what_the_table_does_not_cover_is_refused(area: float, temperature: float, space: str) -> None:
    with pytest.raises(OutOfRange):
        allowable_current(area, temperature, space)


@pytest.mark.parametrize(("ampacity", "rating"), [(45, 45), (55, 60), (327, 350), (385, 400), (445, 450)])
def test_next_standard_rating(ampacity: float, rating: float) -> None:
    # NFPA 70 (NEC) 240.6(A), standard ampere ratings of fuses and breakers, from memory.
    assert standard_rating_above(ampacity) == rating
