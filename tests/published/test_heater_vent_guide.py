"""Combustion-air opening against the worked example of a published guide on boat heaters, formula 16-1."""

import pytest

from plangen.formulas import OutOfRange
from plangen.formulas.gas import heater_vent_area


def test_worked_example() -> None:
    # 6000 Btu/h flued: 7.74 cm2 (1.2 in2)
    assert heater_vent_area(6000.0 * 0.29307107 / 1000.0) == pytest.approx(7.74, abs=0.005)


def test_unknown_flue_is_refused() -> None:
    with pytest.raises(OutOfRange, match="known words are"):
        heater_vent_area(2.0, "balanced")
