"""A yacht ratio sheet: 15.84 long tons are 35,481.6 lb and displace 554.4 cubic feet."""

import pytest

from plangen.formulas.sailing import displacement_length_ratio, sail_area_displacement_ratio

POUNDS = 35_481.6


def test_displacement_in_long_tons() -> None:
    # On 100 ft the ratio is the displacement in long tons of the sheet.
    assert displacement_length_ratio(POUNDS, 100.0) == pytest.approx(15.84)


def test_displacement_in_cubic_feet() -> None:
    # An area of 554.4^(2/3) square feet has the ratio one.
    assert sail_area_displacement_ratio(554.4 ** (2.0 / 3.0), POUNDS) == pytest.approx(1.0)


def test_metric_form() -> None:
    # An encyclopedia's metric form: square metres over cubic metres of sea water (1,025 kg/m3) to 2/3.
    metric = 80.0 / (9500.0 / 1025.0) ** (2.0 / 3.0)
    assert sail_area_displacement_ratio(80.0 / 0.3048**2, 9500.0 / 0.45359237) == pytest.approx(
        metric, rel=0.002
    )
