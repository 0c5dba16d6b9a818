"""UL 943 class A ground-fault circuit interrupters, trip times as Mike Holt's forum and others report them.

https://forums.mikeholt.com/threads/just-learned-about-gfci.42382/post-653956
"""

import pytest

from plangen.formulas.declare import OutOfRange
from plangen.formulas.residual_current import ground_fault_interrupter_time


@pytest.mark.parametrize(
    ("milliamperes", "seconds"),
    [
        (6.0, 5.59),  # threshold of tripping
        (264.0, 0.025),  # the well-known 25 ms, at the top of the range
    ],
)
def test_longest_time(milliamperes: float, seconds: float) -> None:
    assert ground_fault_interrupter_time(milliamperes) == pytest.approx(seconds, rel=0.01)


@pytest.mark.parametrize("milliamperes", [4.0, 5.9, 265.0])
def test_outside_6_to_264_milliamperes_is_refused(milliamperes: float) -> None:
    with pytest.raises(OutOfRange):
        ground_fault_interrupter_time(milliamperes)
