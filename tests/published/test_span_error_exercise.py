"""An instrumentation exercise with its answers: error in per cent of span, reading less true value."""

import pytest

from tests.assess.building import worked_out


@pytest.mark.parametrize(
    ("span", "true", "shown", "error"),
    [
        (100.0, 65.0, 67.0, 2.0),  # pressure gauge, 0 to 100
        (40000.0, 10000.0, 9995.0, -0.0125),  # weigh scale, 0 to 40,000
    ],
)
def test_error_of_a_gauge(span: float, true: float, shown: float, error: float) -> None:
    found = worked_out("tank-gauge-error", {"gauge": {true: shown}}, capacity=span)
    assert found.values == ((true, pytest.approx(error)),)
