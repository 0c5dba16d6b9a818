"""Refrigerants against published pressure-temperature charts."""

import pytest

from plangen.formulas.vapour_pressure import saturation_pressure, saturation_temperature

PSI = 0.0689475729


@pytest.mark.parametrize(
    ("substance", "fahrenheit", "psig"),
    [  # a published chart from REFPROP for service engineers: °F and psi gauge, bubble point
        ("R134a", 0, 6.5), ("R134a", 20, 18.4), ("R134a", 40, 35.0), ("R134a", 100, 124.2), ("R134a", 140, 229.2),
        ("R404A", 0, 33.7), ("R404A", 40, 86.9), ("R404A", 60, 126.0),
        ("R410A", 0, 48.4), ("R410A", 40, 118.8), ("R410A", 100, 318.5),
    ],
)  # fmt: skip
def test_service_chart(substance: str, fahrenheit: float, psig: float) -> None:
    celsius = (fahrenheit - 32.0) / 1.8
    assert saturation_pressure(substance, celsius, "bubble") == pytest.approx(psig * PSI, rel=0.015, abs=0.02)


def test_both_sides_of_a_blend() -> None:
    # a chart for R404A: liquid 189.5 and vapour 187.5 psi gauge at 85 °F
    celsius = (85.0 - 32.0) / 1.8
    assert saturation_temperature("R404A", 189.5 * PSI, "bubble") == pytest.approx(celsius, abs=0.5)
    assert saturation_temperature("R404A", 187.5 * PSI, "dew") == pytest.approx(celsius, abs=0.5)


@pytest.mark.parametrize(("celsius", "bar"), [(-20.0, 2.445), (10.0, 6.366), (40.0, 13.694), (60.0, 21.168)])
def test_propane_chart(celsius: float, bar: float) -> None:
    # a published table for R290, bar absolute
    assert saturation_pressure("R290", celsius) + 1.01325 == pytest.approx(bar, rel=0.001)
