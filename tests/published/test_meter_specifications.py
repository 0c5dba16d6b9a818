"""A meter's error limit against worked examples in laboratory sheets and meters' manuals."""

import pytest

from plangen.assess.accuracy import accuracy_of
from plangen.formulas import OutOfRange
from plangen.formulas.uncertainty import meter_error_limit
from tests.assess.building import expectation, instrument


@pytest.mark.parametrize(
    ("reading", "share", "digits", "resolution", "expected"),
    [
        (32.00, 2.5, 3, 0.01, 0.83),  # a university's laboratory sheet
        (0.09, 2.5, 3, 0.01, 0.032),  # the same sheet at the bottom of the range
        (1.755, 0.5, 1, 0.001, 0.010),  # a multimeter seller's explanation: 1.745 to 1.765 V
        (2.000, 0.08, 2, 0.001, 0.004),  # a multimeter maker's explanation: 1.996 to 2.004 V
        (100.0, 1.0, 2, 0.1, 1.2),  # an instrument maker's introduction: 98.8 to 101.2 V
    ],
)
def test_error_limit(reading: float, share: float, digits: float, resolution: float, expected: float) -> None:
    assert meter_error_limit(reading, share, digits, resolution) == pytest.approx(expected, abs=0.0005)


def test_negative_terms_are_refused() -> None:
    with pytest.raises(OutOfRange, match="must not be below zero"):
        meter_error_limit(10.0, -1.0, 2.0, 0.1)
    with pytest.raises(OutOfRange, match="resolution is 0"):
        meter_error_limit(10.0, 1.0, 2.0, 0.0)


@pytest.mark.parametrize(
    ("reading", "share", "digits", "expected"),
    [(32.00, 2.5, 0.03, 0.83), (0.09, 2.5, 0.03, 0.032), (1.755, 0.5, 0.001, 0.010), (2.0, 0.08, 0.002, 0.004), (100.0, 1.0, 0.2, 1.2)],
)  # fmt: skip
def test_error_limit_of_an_instrument_of_the_kit(
    reading: float, share: float, digits: float, expected: float
) -> None:
    # the same five examples, through the accuracy that the assessment takes: U is 2/sqrt(3) of the limit
    meter = instrument(accuracy_percent=share, accuracy_fixed=digits, unit="V")
    found = accuracy_of(expectation(unit="V", instrument="meter"), reading, None, {"meter": meter})
    assert found is not None
    assert found.uncertainty is not None
    assert found.uncertainty * 3**0.5 / 2 == pytest.approx(expected, abs=0.0005)
