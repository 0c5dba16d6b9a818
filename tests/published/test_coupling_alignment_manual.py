"""Alignment of the shaft coupling.

Westerbeke, WPDS 20 operator's manual, https://westerbeke.manymanuals.fr/engine/wpds-20/operators-manual-28871/8
"""

import pytest

from plangen.formulas.shaft_alignment import coupling_gap_limit


def test_coupling_of_three_inches() -> None:
    # The manual: a 3 in coupling may differ by 0.003 in.
    assert coupling_gap_limit(3.0 * 25.4) == pytest.approx(0.003 * 25.4)
