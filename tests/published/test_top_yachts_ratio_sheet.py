"""Top Yachts, ratio sheet (undated), 15.84 long tons are 35,481.6 lb and displace 554.4 cubic feet:
http://www.altendorff.co.uk/wp-content/uploads/TopYachts_files/sheet010.htm. The ratios and their bands: Sailboat ratios,
http://www.ipass.net/sailboat/calratio.htm."""

import pytest

from plangen.formulas.sailing import displacement_length_ratio, sail_area_displacement_ratio

POUNDS = 35_481.6


def test_displacement_in_long_tons() -> None:
    # On 100 ft the ratio is the displacement in long tons of the sheet.
    assert displacement_length_ratio(POUNDS, 100.0) == pytest.approx(15.84)


def test_displacement_in_cubic_feet() -> None:
    # An area of 554.4^(2/3) square feet has the ratio one.
    assert sail_area_displacement_ratio(554.4 ** (2.0 / 3.0), POUNDS) == pytest.approx(1.0)
