"""The fluids library: Froude numbers, and the pressure lost through an opening."""

import pytest
from fluids.core import Froude, dP_from_K

from plangen.formulas.displacement_speed import froude_number
from plangen.formulas.engine_space import engine_space_depression


@pytest.mark.parametrize(("speed", "length"), [(4.0, 12.0), (12.35, 9.0), (3.0, 8.5)])
def test_froude_number(speed: float, length: float) -> None:
    # SI 2017/737 Schedule 1 Part C 1.3 fixes g at 9.8.
    assert froude_number(speed, length) == pytest.approx(Froude(speed, length, g=9.8))


@pytest.mark.parametrize(("airflow", "area", "coefficient"), [(500.0, 200.0, 0.6), (1200.0, 600.0, 0.8)])
def test_depression_as_a_loss_coefficient(airflow: float, area: float, coefficient: float) -> None:
    velocity = airflow / 3600.0 / (area * 1e-4)
    loss = dP_from_K(K=1.0 / coefficient**2, rho=1.164, V=velocity)
    assert engine_space_depression(airflow, area, coefficient) == pytest.approx(loss, rel=1e-3)
