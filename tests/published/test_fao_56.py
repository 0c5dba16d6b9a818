"""FAO Irrigation and Drainage Paper 56, chapter 3, as the NCAR command language's documentation replicates it."""

from datetime import date

import pytest

from plangen.formulas.clear_sky import extraterrestrial_energy, sum_over_day
from plangen.formulas.declare import OutOfRange


def test_rio_de_janeiro() -> None:
    # Day 135 at 22.9 degrees south: 25.111 MJ/m², and 18.833 MJ/m² under a clear sky.
    energy = 3.6 * extraterrestrial_energy(date(2026, 5, 15), -22.9)
    assert energy == pytest.approx(25.111, abs=0.001)
    assert 0.75 * energy == pytest.approx(18.833, abs=0.001)


def test_example_8() -> None:
    # Day 246 at 20 degrees south: 32.2 MJ/m².
    assert 3.6 * extraterrestrial_energy(date(2026, 9, 3), -20.0) == pytest.approx(32.2, abs=0.05)


def test_length_of_day() -> None:
    # Day 246 at 20 degrees south: 11.67 hours of sun, by the paper's declination, which is half a degree off.
    hours = sum_over_day(date(2026, 9, 3), -20.0, lambda height: 1.0 if height > 0 else 0.0)
    assert hours == pytest.approx(11.67, abs=0.07)


def test_polar_latitudes_are_refused() -> None:
    with pytest.raises(OutOfRange):
        extraterrestrial_energy(date(2026, 12, 21), 75.0)
