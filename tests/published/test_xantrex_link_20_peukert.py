"""Xantrex, Link 20 owner's manual, p. 26 and 27: per cent of 100 Ah delivered, by current and Peukert's exponent.

https://manualsdump.com/en/manuals/xantrex_technology-link_20/171906/26
"""

import pytest

from plangen.formulas.battery_capacity import delivered_capacity

CURRENTS = (5.0, 10.0, 100 / 6, 25.0, 50.0, 75.0, 100.0, 150.0, 200.0, 250.0, 300.0, 400.0, 500.0)
#: The row for 1.5 fits the formula too, but for its last three columns, which the manual rounds down.
TABLE = {
    1.0: "100 100 100 100 100 100 100 100 100 100 100 100 100",
    1.1: "100 93 88 85 79 76 74 71 69 67 66 64 63",
    1.2: "100 87 78 72 63 58 55 51 48 46 44 42 40",
    1.25: "100 84 74 67 56 51 47 42 40 37 36 33 32",
    1.3: "100 81 69 62 50 44 41 36 33 31 30 27 25",
    1.4: "100 76 61 52 40 34 30 26 23 21 20 17 16",
    1.5: "100 71 55 45 32 26 22 18 16 14 13 11 10",
}


@pytest.mark.parametrize("exponent", TABLE)
def test_table(exponent: float) -> None:
    printed = [int(cell) for cell in TABLE[exponent].split()]
    for current, percent in zip(CURRENTS, printed, strict=True):
        assert delivered_capacity(100.0, current, exponent) == pytest.approx(percent, abs=1.0)


def test_example() -> None:
    # "100 Ah with an exponent of 1.3 will deliver only 41 % when supplying 100 A".
    assert delivered_capacity(100.0, 100.0, 1.3) == pytest.approx(41, abs=0.5)


def test_rating_is_met_at_the_rated_current() -> None:
    # Definition of a 20 h rating: 100 Ah at 5 A, whatever the exponent.
    assert delivered_capacity(100.0, 5.0, 1.2) == pytest.approx(100.0)
