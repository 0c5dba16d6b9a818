"""US Army TM 5-3820-256-24-4 and TM 10-3930-671-24, voltage drop of starting circuits."""

import pytest

from plangen.formulas.declare import OutOfRange
from plangen.formulas.starting_circuit import starting_cable_drop_limit, starting_circuit_drop_limit


@pytest.mark.parametrize(("feet", "volts"), [(1.0, 0.1), (2.9, 0.1), (3.0, 0.2), (6.0, 0.2)])
def test_cable(feet: float, volts: float) -> None:
    assert starting_cable_drop_limit(feet) == volts  # TM 5-3820-256-24-4, page 450


@pytest.mark.parametrize(("amperes", "volts"), [(100, 0.20), (250, 0.50), (400, 0.80)])
def test_whole_circuit(amperes: float, volts: float) -> None:
    assert starting_circuit_drop_limit(amperes) == pytest.approx(volts)  # TM 10-3930-671-24, page 556


def test_longer_cable_is_refused() -> None:
    with pytest.raises(OutOfRange):
        starting_cable_drop_limit(7.0)
