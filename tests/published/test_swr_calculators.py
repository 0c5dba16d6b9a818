"""Standing waves: 3roam, "Calculate VSWR from forward and reflected power", bit1024's SWR calculator, and cable loss.

https://3roam.com/calculate-vswr-from-forward-and-reflected-power/ and https://bit1024.com/tool/SWR-Calculator ;
cable: American Radio Relay League, corrected table 6-1, http://www.arrl.org/Chapter-6-Antennas
"""

import math

import pytest

from plangen.formulas.radio import (
    reflected_power_share,
    standing_wave_ratio_at_antenna,
    standing_wave_ratio_at_set,
    thick_cable_loss,
)


@pytest.mark.parametrize(
    ("ratio", "forward", "reflected"),
    # One example from each of three pages.
    [(1.50, 25.0, 1.0), (1.92, 10.0, 1.0), (1.58, 100.0, 5.0)],
)
def test_share_that_comes_back(ratio: float, forward: float, reflected: float) -> None:
    assert reflected_power_share(ratio) == pytest.approx(100 * reflected / forward, rel=0.02)


def return_loss(ratio: float) -> float:
    """The textbook's return loss in decibels of a standing wave ratio."""
    return -20 * math.log10((ratio - 1) / (ratio + 1))


@pytest.mark.parametrize(("at_set", "loss"), [(1.5, 2.0), (1.2, 3.0), (1.44, 2.66)])
def test_cable_loss_adds_twice_to_the_return_loss(at_set: float, loss: float) -> None:
    # bit1024: return loss at the set = return loss of the load + 2 × attenuation.
    at_antenna = standing_wave_ratio_at_antenna(at_set, loss)
    assert return_loss(at_set) == pytest.approx(return_loss(at_antenna) + 2 * loss)
    assert return_loss(standing_wave_ratio_at_set(at_antenna, loss)) == pytest.approx(return_loss(at_set))


def test_calculator_at_1_5() -> None:
    assert return_loss(1.5) == pytest.approx(
        13.979, abs=0.0005
    )  # the page's figure, which proves the helper above
    assert reflected_power_share(1.5) == pytest.approx(4.0)


def test_rg_213_at_150_megahertz() -> None:
    # Table 6-1: 2.53 dB in 100 ft; a repeater maker's training guide (Codan) gives 8.9 dB in 100 m.
    assert thick_cable_loss(30.48) == pytest.approx(2.53)
    assert thick_cable_loss(100.0) == pytest.approx(8.9, rel=0.08)
