"""The accuracy of an instrument, in the unit of the reading that it is used for."""

from __future__ import annotations

import pytest

from plangen.assess.accuracy import accuracy_of
from plangen.plan.model import Cited, Expectation, KitItem


def expectation(unit: str) -> Expectation:
    return Expectation(
        id="r",
        reading="r",
        unit=unit,
        high=10.0,
        shown="≤ 10",
        basis="computed",
        instrument="meter",
        source=Cited(id="x"),
    )


def instrument(unit: str, error: float) -> dict[str, KitItem]:
    return {
        "meter": KitItem(
            id="meter", title="Meter", kind="instrument", unit=unit, accuracy_fixed=error, checks=1
        )
    }


@pytest.mark.parametrize(
    ("unit", "error", "label", "expected"),
    [("°C", 2.0, "K", 2.0), ("°F", 1.8, "°C", 1.0), ("K", 0.5, "°C", 0.5), ("psi", 1.0, "mbar", 68.948)],
)
def test_an_error_is_a_difference_in_whatever_unit(
    unit: str, error: float, label: str, expected: float
) -> None:
    """NIST SP 811, B.8: 1 °F of difference is 5/9 K, 1 psi is 6.894 757 kPa; JCGM 100, 4.3.7: a/sqrt(3), k = 2."""
    found = accuracy_of(expectation(label), 5.0, None, instrument(unit, error))
    assert found is not None
    assert found.uncertainty == pytest.approx(expected * 2 / 3**0.5, rel=1e-4)


@pytest.mark.parametrize(("unit", "label"), [("mg/L", "µS/cm"), ("s", "drops"), ("rpm", "V")])
def test_an_instrument_of_another_kind_has_no_known_accuracy(unit: str, label: str) -> None:
    found = accuracy_of(expectation(label), 5.0, None, instrument(unit, 2.0))
    assert found is not None
    assert found.uncertainty is None
