"""IMO resolution MSC.137(76), Standards for ship manoeuvrability (2002), para 5.3.

https://imorules.com/GUID-DB7CD50D-0335-4910-AAB7-95ABD47A4A25.html
"""

import pytest

from plangen.formulas.steering import first_overshoot_limit, manoeuvring_limit, second_overshoot_limit


@pytest.mark.parametrize(
    ("seconds", "first", "second"),
    # 5.3.3: 10 and 25 degrees below 10 s; 20 and 40 from 30 s; 5 + 0.5 L/V and 17.5 + 0.75 L/V between.
    [(5.0, 10.0, 25.0), (10.0, 10.0, 25.0), (20.0, 15.0, 32.5), (30.0, 20.0, 40.0), (40.0, 20.0, 40.0)],
)
def test_zigzag_overshoots(seconds: float, first: float, second: float) -> None:
    assert first_overshoot_limit(10.0 * seconds, 10.0) == pytest.approx(first)
    assert second_overshoot_limit(10.0 * seconds, 10.0) == pytest.approx(second)


@pytest.mark.parametrize(
    ("manoeuvre", "lengths"),
    # 5.3.1, 5.3.2 and 5.3.4.
    [("advance", 4.5), ("tactical diameter", 5.0), ("initial turning", 2.5), ("stopping", 15.0)],
)
def test_manoeuvres_in_lengths(manoeuvre: str, lengths: float) -> None:
    assert manoeuvring_limit(20.0, manoeuvre) == pytest.approx(20.0 * lengths)
