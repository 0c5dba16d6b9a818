"""US Army TM 10-3930-671-24, p. 556: 0.20 V for each 100 A of a starting circuit.

http://constructionforklifts.tpub.com/TM-10-3930-671-24/css/TM-10-3930-671-24_556.htm
"""

import pytest

from plangen.formulas.starting_circuit import starting_circuit_drop_limit


@pytest.mark.parametrize(("amperes", "volts"), [(100, 0.20), (250, 0.50), (400, 0.80)])
def test_whole_circuit(amperes: float, volts: float) -> None:
    assert starting_circuit_drop_limit(amperes) == pytest.approx(volts)
