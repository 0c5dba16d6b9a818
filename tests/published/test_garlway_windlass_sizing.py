"""Garlway, What pulling power should a windlass have, and How to calculate windlass capacity (undated):
https://garlway.com/faqs/what-pulling-power-should-a-windlass-have. University of Liverpool, a member's page on a capstan:
https://www.liverpool.ac.uk/~cmi/boat/capstan.html."""

import pytest

from plangen.formulas.ground_tackle import windlass_efficiency, windlass_pull


@pytest.mark.parametrize(
    ("anchor", "rode", "factor", "pull"),
    [
        (45.0, 200.0 * 1.1, 3.0, 795.0),  # first example of the sizing guide, pounds
        (50.0, 200.0, 3.0, 750.0),  # second example
        (50.0, 200.0, 4.0, 1000.0),  # the same for hard use
        (100.0, 200.0, 3.0, 900.0),  # third example, 300 in all
    ],
)
def test_pull(anchor: float, rode: float, factor: float, pull: float) -> None:
    assert windlass_pull(anchor, rode, factor) == pytest.approx(pull)


def test_capstan_sold_by_equivalent_watts() -> None:
    # Capstan owner's page: 72 kgf at 18 m/min, 25 A at 12 V. 212 W out of 300 W.
    assert windlass_efficiency(72.0 * 9.80665, 18.0 / 60.0, 12.0, 25.0) == pytest.approx(
        100.0 * 212.0 / 300.0, abs=0.3
    )
