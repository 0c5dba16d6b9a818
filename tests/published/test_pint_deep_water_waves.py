"""Deep-water wave theory worked by the pint library: a wave as long as the hull travels at hull speed."""

import math

import pint
import pytest

from plangen.formulas.displacement_speed import hull_speed
from plangen.formulas.propeller import theoretical_propeller_speed

UNITS: pint.UnitRegistry[float] = pint.UnitRegistry()


@pytest.mark.parametrize("feet", [20.0, 36.0, 50.0])
def test_wave_as_long_as_the_hull(feet: float) -> None:
    # Deep-water waves: speed = square root of (g x length / 2 pi).
    wave = ((UNITS.standard_gravity * UNITS.Quantity(feet, "foot")) / (2 * math.pi)) ** 0.5
    assert hull_speed(feet) == pytest.approx(wave.to("knot").magnitude, rel=0.002)


def test_pitch_times_revolutions() -> None:
    # Units only: 16 in for each of 1,000 turns a minute.
    speed = UNITS.Quantity(16.0 * 1000.0, "inch/minute").to("knot").magnitude
    assert theoretical_propeller_speed(16.0, 2000.0, 2.0) == pytest.approx(speed, rel=1e-6)
