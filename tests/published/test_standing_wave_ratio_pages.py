"""Pages on standing waves: from two powers, and tables of return loss."""

import pytest

from plangen.formulas.radio import (
    mismatch_loss,
    reflected_power_share,
    return_loss,
    standing_wave_ratio_at_antenna,
    voltage_standing_wave_ratio,
)


@pytest.mark.parametrize(
    ("forward", "reflected", "ratio"),
    # One example from each of three pages.
    [(25.0, 1.0, 1.50), (10.0, 1.0, 1.92), (100.0, 5.0, 1.58)],
)
def test_ratio_from_powers(forward: float, reflected: float, ratio: float) -> None:
    assert voltage_standing_wave_ratio(forward, reflected) == pytest.approx(ratio, abs=0.006)


@pytest.mark.parametrize(
    ("ratio", "decibels"),
    # An amateur's table of relationships, rounded up to 0.1 dB from the true value.
    [(1.02, 40.0), (1.1, 26.4), (1.2, 20.8), (1.3, 17.8), (1.4, 15.6), (1.5, 14.0), (2.0, 9.6)],
)
def test_table_of_return_loss(ratio: float, decibels: float) -> None:
    assert return_loss(ratio) == pytest.approx(decibels, abs=0.11)


def test_calculator_page() -> None:
    # A calculator page at 1.5: return loss 13.979 dB, mismatch loss 0.1773 dB, reflected 4 %.
    assert return_loss(1.5) == pytest.approx(13.979, abs=0.0005)
    assert mismatch_loss(1.5) == pytest.approx(0.1773, abs=0.00005)
    assert reflected_power_share(1.5) == pytest.approx(4.0)


def test_cable_loss_adds_twice_to_the_return_loss() -> None:
    # Calculator note: return loss improved = 2 x attenuator + return loss of the load.
    at_antenna = standing_wave_ratio_at_antenna(1.5, 2.0)
    assert return_loss(1.5) == pytest.approx(return_loss(at_antenna) + 2.0 * 2.0)
