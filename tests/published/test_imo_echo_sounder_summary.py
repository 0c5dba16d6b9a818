"""International Maritime Organization, performance standards for echo-sounding equipment, in a summary that was read:
https://www.scribd.com/doc/68601348/Imo-Performance-Standards-for-Echo. Tolerance of depth."""

import pytest

from plangen.formulas.shallow_water import echo_sounder_tolerance


@pytest.mark.parametrize(
    ("depth", "scale", "metres"),
    # 0.5 m on the 20 m scale, 5 m on the 200 m scale, or 2.5 % of the depth, whichever is greater.
    [(20.0, 20.0, 0.5), (5.0, 20.0, 0.5), (100.0, 200.0, 5.0), (200.0, 200.0, 5.0)],
)
def test_tolerance(depth: float, scale: float, metres: float) -> None:
    assert echo_sounder_tolerance(depth, scale) == pytest.approx(metres)
