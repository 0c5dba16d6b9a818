"""A small marine diesel maker's operator manual on the alignment of the shaft coupling."""

import pytest

from plangen.formulas.shaft_alignment import coupling_gap_limit


def test_coupling_of_three_inches() -> None:
    # The manual: a 3 in coupling may differ by 0.003 in.
    assert coupling_gap_limit(3.0 * 25.4) == pytest.approx(0.003 * 25.4)
