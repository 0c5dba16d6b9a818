"""BS 7671:2018+A2:2022 table 41.3, earth-fault loop impedance, as a trade page reprints it."""

import pytest

from plangen.formulas.residual_current import loop_impedance_limit, residual_loop_impedance_limit


@pytest.mark.parametrize(
    ("breaker", "rating", "ohms"),
    [
        ("B", 6, 7.28), ("B", 10, 4.37), ("B", 16, 2.73), ("B", 20, 2.19), ("B", 32, 1.37), ("B", 63, 0.69),
        ("C", 6, 3.64), ("C", 10, 2.19), ("C", 16, 1.37), ("C", 32, 0.68), ("D", 6, 1.82), ("D", 16, 0.68),
    ],
)  # fmt: skip
def test_limit(breaker: str, rating: float, ohms: float) -> None:
    assert loop_impedance_limit(breaker, rating) == pytest.approx(ohms, abs=0.006)


def test_behind_a_residual_current_device() -> None:
    assert residual_loop_impedance_limit(30.0) == pytest.approx(
        1667, abs=1
    )  # BS 7671 table 41.5, from memory
