"""Flow of raw water for each 100 brake horsepower.

WMJ Marine, engine cooling pumps, https://www.wmjmarine.com/plumbing-pump-engine-cooling-pump.html
"""

import pytest

from plangen.formulas.engine_cooling_and_exhaust import raw_water_flow


@pytest.mark.parametrize(
    ("cooling", "least", "most"), [("heat exchanger", 65.0, 70.0), ("direct", 36.0, 39.0)]
)
def test_flow_for_one_hundred_horsepower(cooling: str, least: float, most: float) -> None:
    assert least <= raw_water_flow(100.0, cooling, 3000.0, 3000.0) <= most
