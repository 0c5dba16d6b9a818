"""A meter's error limit against worked examples in laboratory sheets and meters' manuals."""

import pytest

from plangen.assess.accuracy import accuracy_of
from tests.assess.building import expectation, instrument


@pytest.mark.parametrize(
    ("reading", "share", "digits", "expected"),
    [(32.00, 2.5, 0.03, 0.83), (0.09, 2.5, 0.03, 0.032), (1.755, 0.5, 0.001, 0.010), (2.0, 0.08, 0.002, 0.004), (100.0, 1.0, 0.2, 1.2)],
)  # fmt: skip
def test_error_limit_of_an_instrument_of_the_kit(
    reading: float, share: float, digits: float, expected: float
) -> None:
    # a university's laboratory sheet at two readings, a multimeter seller's explanation (1.745 to 1.765 V), a multimeter
    # maker's (1.996 to 2.004 V), an instrument maker's introduction (98.8 to 101.2 V): U is 2/sqrt(3) of the limit
    meter = instrument(accuracy_percent=share, accuracy_fixed=digits, unit="V")
    found = accuracy_of(expectation(unit="V", instrument="meter"), reading, None, {"meter": meter})
    assert found is not None
    assert found.uncertainty is not None
    assert found.uncertainty * 3**0.5 / 2 == pytest.approx(expected, abs=0.0005)
