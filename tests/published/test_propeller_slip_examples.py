"""Published examples of theoretical speed and slip, all printed in statute miles per hour.

Powerboat conference note 575 (1989), https://www.shonky.systems/Decnotes/showtopic.php?conf=1585&topic=1073748728;
iboats forum, Need educated about prop slip, https://store-prod.iboatsdev.com/threads/need-educated-about-prop-slip.433521
"""

import pytest

from plangen.formulas.propeller import apparent_slip, theoretical_propeller_speed
from tests.assess.building import worked_out

KNOT = 1609.344 / 1852.0


@pytest.mark.parametrize(
    ("pitch", "engine_speed", "ratio", "miles_per_hour"),
    [
        (16.0, 3333.0, 1.0, 50.5),  # powerboat conference note 575
        (20.0, 4800.0, 1.5, 61.0),  # outboard forum, first example (prints 61 for 60.6)
        (18.0, 5400.0, 2.0, 46.0),  # inflatable boat forum
    ],
)
def test_theoretical_speed(pitch: float, engine_speed: float, ratio: float, miles_per_hour: float) -> None:
    assert theoretical_propeller_speed(pitch, engine_speed, ratio) == pytest.approx(
        miles_per_hour * KNOT, abs=0.4
    )


@pytest.mark.parametrize(
    ("pitch", "miles_per_hour", "slip"),
    # Outboard forum on propeller slip, three examples at 4,800 rev/min and 1.5 : 1.
    [(20.0, 55.0, 10.0), (23.0, 59.0, 15.0), (21.0, 57.0, 10.0)],
)
def test_slip(pitch: float, miles_per_hour: float, slip: float) -> None:
    theoretical = theoretical_propeller_speed(pitch, 4800.0, 1.5)
    assert apparent_slip(miles_per_hour * KNOT, theoretical) == pytest.approx(slip, abs=1.0)


@pytest.mark.parametrize(
    ("pitch", "miles_per_hour", "slip"), [(20.0, 55.0, 10.0), (23.0, 59.0, 15.0), (21.0, 57.0, 10.0)]
)
def test_slip_as_a_figure_of_the_report(pitch: float, miles_per_hour: float, slip: float) -> None:
    # The outboard forum's three examples, the speed as a series over the engine's speed.
    speeds = {4800.0: miles_per_hour * KNOT}
    found = worked_out("apparent-slip", {"speed": speeds}, pitch=pitch, gear_ratio=1.5)
    assert found.values == ((4800.0, pytest.approx(slip, abs=1.0)),)
    alone = worked_out(
        "apparent-slip",
        {"speed": miles_per_hour * KNOT},
        pitch=pitch,
        gear_ratio=1.5,
        engine_speed=4800.0,
    )
    assert alone.value == pytest.approx(slip, abs=1.0)
