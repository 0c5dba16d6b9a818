"""IEC 61008-1 and 61009-1 break times, as an inspectors' trip-time table and two testers' manuals give them.

https://html.pdfcookie.com/02/2019/12/28/rvr7mmqer72o/rvr7mmqer72o.html
"""

import pytest

from plangen.formulas.declare import OutOfRange
from plangen.formulas.residual_current import (
    residual_current_break_time,
    residual_test_current,
    selective_minimum_time,
)


@pytest.mark.parametrize(
    ("device", "multiple", "milliseconds"),
    [
        ("general", 1.0, 300), ("general", 2.0, 150), ("general", 5.0, 40),  # magazine, row 1
        ("selective", 1.0, 500), ("selective", 2.0, 200), ("selective", 5.0, 150),  # magazine, row 3
        ("BS 4293", 1.0, 200), ("BS 4293", 5.0, 40),  # magazine, row 2
        ("ELCI", 1.0, 100),  # ABYC E-11.11.1, as a boating magazine quotes it
    ],
)  # fmt: skip
def test_longest_time(device: str, multiple: float, milliseconds: int) -> None:
    assert 1000 * residual_current_break_time(device, multiple) == pytest.approx(milliseconds)


def test_shortest_time_of_a_selective_device() -> None:
    assert selective_minimum_time(1.0) == 0.130  # both testers' manuals
    assert selective_minimum_time(5.0) == 0.050  # both testers' manuals


def test_half_wave_current() -> None:
    assert residual_test_current(30.0, 5.0, "AC") == 150  # five times 30 mA
    assert residual_test_current(30.0, 5.0, "A") == pytest.approx(210)  # electricians' forum on BS 7671


@pytest.mark.parametrize(("device", "multiple"), [("general", 3.0), ("BS 4293", 2.0), ("fuse", 1.0)])
def test_times_that_no_table_gives_are_refused(device: str, multiple: float) -> None:
    with pytest.raises(OutOfRange):
        residual_current_break_time(device, multiple)
