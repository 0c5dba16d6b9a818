"""Zodiac, Futura Commando owner's manual, p. 9, https://manualshive.com/ru/manual/zodiac/milpro-futura-commando/4021852?page=9;
Avon, Seasport Deluxe owner's manual, p. 8, https://manualshive.com/ru/manual/avon/seasport-deluxe-jet-320/3033756?page=8:
4 mbar for each degree Celsius."""

import pytest

from plangen.formulas.inflatable_tender import tube_pressure_at_temperature


@pytest.mark.parametrize("pressure", [170.0, 240.0])
def test_four_millibars_for_each_degree(pressure: float) -> None:
    # Two makers' manuals give 4 mbar for each degree; a tube of fixed volume gives a little more.
    assert tube_pressure_at_temperature(pressure, 20.0, 21.0) - pressure == pytest.approx(4.0, abs=0.35)


def test_loss_from_a_hot_deck_into_the_water() -> None:
    # One maker: 240 mbar at 50 degrees loses up to 110 mbar in water of 20 degrees.
    assert 240.0 - tube_pressure_at_temperature(240.0, 50.0, 20.0) == pytest.approx(110.0, abs=7.0)
