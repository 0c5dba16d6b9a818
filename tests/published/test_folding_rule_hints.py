"""A spar maker's rigging hints, p. 45, and a cruising forum: the stretch of two metres of wire."""

import pytest

from plangen.formulas.rig import wire_stretch, wire_tension


@pytest.mark.parametrize(
    ("stretch", "construction", "percent"),
    [
        (1.0, "1x19", 5.0),  # spar maker
        (3.0, "1x19", 15.0),  # forum's example
        (0.95, "compact strand", 5.0),  # forum
    ],
)
def test_two_metres_of_wire(stretch: float, construction: str, percent: float) -> None:
    assert wire_tension(stretch, construction) == pytest.approx(percent)
    assert wire_stretch(percent, construction) == pytest.approx(stretch)
