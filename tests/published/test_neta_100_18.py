"""NETA table 100.18, thermographic survey, as a thermography firm's page restates it."""

import pytest

from plangen.formulas.thermography import full_load_rise, thermal_priority


@pytest.mark.parametrize(
    ("rise", "compared_with", "priority"),
    [
        (1, "similar", 4), (3, "similar", 4), (4, "similar", 3), (15, "similar", 3), (16, "similar", 1),
        (1, "ambient", 4), (10, "ambient", 4), (11, "ambient", 3), (20, "ambient", 3), (21, "ambient", 2),
        (40, "ambient", 2), (41, "ambient", 1), (0, "similar", 0), (0, "ambient", 0),
    ],
)  # fmt: skip
def test_priority(rise: float, compared_with: str, priority: float) -> None:
    assert thermal_priority(rise, compared_with) == priority


def test_heat_of_a_resistance_goes_with_the_square_of_the_current() -> None:
    assert full_load_rise(8.0, 50.0, 100.0, 2.0) == pytest.approx(32)  # Joule's law
