"""Watermaker flow against membrane suppliers' temperature correction charts and the questions printed on them.

Thin film: https://scribd.com/document/472189330/temperature-correction-chart-for-ro-membranes.
Older table: https://watertreatmentguide.com/temperature_correction.htm.
Second supplier: https://www.aquasafecanada.com/reverse-osmosis-membrane-temperature-correction-chart/.
"""

import pytest

from plangen.formulas import OutOfRange
from plangen.formulas.watermaker import (
    membrane_temperature_factor,
    net_driving_pressure,
    watermaker_flow,
    watermaker_pressure,
)

THIN_FILM = {  # a published correction chart for thin-film membranes
    10: 1.711, 11: 1.648, 12: 1.588, 13: 1.530, 14: 1.475, 15: 1.422, 16: 1.371, 17: 1.323, 18: 1.276, 19: 1.232,
    20: 1.189, 21: 1.148, 22: 1.109, 23: 1.071, 24: 1.035, 25: 1.000, 26: 0.971, 27: 0.943, 28: 0.915, 29: 0.889,
}  # fmt: skip


@pytest.mark.parametrize(("temperature", "factor"), THIN_FILM.items())
def test_thin_film_table(temperature: int, factor: float) -> None:
    assert membrane_temperature_factor(float(temperature)) == pytest.approx(factor, rel=0.002)


OLDER = {  # the older table, whole
    5: 2.58, 6: 2.38, 7: 2.22, 8: 2.11, 9: 2.00, 10: 1.89, 11: 1.78, 12: 1.68, 13: 1.61, 14: 1.54, 15: 1.47, 16: 1.39, 17: 1.34,
    18: 1.29, 19: 1.24, 20: 1.19, 21: 1.15, 22: 1.11, 23: 1.09, 24: 1.04, 25: 1.00, 26: 0.97, 27: 0.94, 28: 0.91, 29: 0.88, 30: 0.85,
}  # fmt: skip


@pytest.mark.parametrize(("temperature", "factor"), OLDER.items())
def test_older_table(temperature: int, factor: float) -> None:
    assert membrane_temperature_factor(float(temperature), "older") == pytest.approx(factor)


def test_between_two_lines_of_the_older_table() -> None:
    # a quarter of the way from 10 °C, 1.89, to 11 °C, 1.78: 1.89 - 0.0275
    assert membrane_temperature_factor(10.25, "older") == pytest.approx(1.8625)


def test_worked_examples() -> None:
    # the thin-film chart's question: 1800 US gal/day at 25 °C give 1266 at 15 °C
    assert watermaker_flow(1800.0, 15.0) == pytest.approx(1266.0, rel=0.002)
    # the older table's question: 1224 at 15 °C
    assert watermaker_flow(1800.0, 15.0, table="older") == pytest.approx(1224.0, abs=1.0)
    # a second supplier's question with the older table: 100 give 68
    assert watermaker_flow(100.0, 15.0, table="older") == pytest.approx(68.0, abs=0.1)


def test_pressure_is_the_inverse_of_flow() -> None:
    # the rated flow at the rated pressure, temperature and salinity: the definition of a rating
    assert watermaker_pressure(25.0, 35.0) == pytest.approx(55.0)
    assert watermaker_flow(60.0, 25.0, 35.0) == pytest.approx(60.0)


def test_out_of_range_is_refused() -> None:
    with pytest.raises(OutOfRange, match="known tables are"):
        membrane_temperature_factor(15.0, "cellulose")
    with pytest.raises(OutOfRange, match="water temperature is 2"):
        watermaker_flow(60.0, 2.0)
    with pytest.raises(OutOfRange, match="does not exceed the osmotic pressure"):
        net_driving_pressure(20.0)
