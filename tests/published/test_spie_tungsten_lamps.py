"""SPIE Field Guide to Illumination (2007), tungsten lamps: flux goes with current^6.5, voltage with current^1.9."""

import pytest

from plangen.formulas.lamp_supply import filament_light


@pytest.mark.parametrize("drop", [1.0, 3.0, 5.0])
def test_light_at_reduced_voltage(drop: float) -> None:
    expected = 100 * (1 - drop / 100) ** (6.5 / 1.9)
    assert filament_light(drop) == pytest.approx(expected, abs=0.2)


def test_lamp_engineers_rule() -> None:
    assert 100 - filament_light(1.0) == pytest.approx(3.5, abs=0.15)  # 3.5 % light for 1 % voltage


def test_spie_example() -> None:
    # 5 % more current: 1040 to 1428 lm and 10.8 to 11.8 V; the drop back costs the same share of light.
    drop = 100 * (1 - 10.8 / 11.8)
    assert filament_light(drop) == pytest.approx(100 * 1040 / 1428, abs=2.0)
