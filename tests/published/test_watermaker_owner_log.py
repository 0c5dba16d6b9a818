"""Watermakers against an owner's published log and an article on sea water.

Log: Jolly Dogs, "Random brain waves", April 2021,
https://jollydogsrcc.blogspot.com/2021/11/random-brain-waves-friday-30-april-21.html (255 ppm at 25 °C).
Article: BoatTest, "10 things to know about making water", https://boattest.com/article/10-things-know-about-making-water
(sea of 32,000 to 38,000 ppm).
"""

import pytest

from plangen.formulas import OutOfRange
from plangen.formulas.sea_water import sea_water_dissolved_solids
from plangen.formulas.watermaker import salt_rejection
from tests.assess.building import worked_out


def test_owner_log() -> None:
    # 255 ppm from a sea of 35,000 ppm: rejection 99.27 %
    assert salt_rejection(35000.0, 255.0) == pytest.approx(99.27, abs=0.005)


def test_sea_is_not_a_few_thousand_ppm() -> None:
    # the article: 32,000 to 38,000 ppm
    assert 32000.0 < sea_water_dissolved_solids(35.0, 20.0) < 38000.0


def test_out_of_range_is_refused() -> None:
    with pytest.raises(OutOfRange, match="not below the feed"):
        salt_rejection(500.0, 600.0)


def test_rejection_as_a_figure_of_the_report() -> None:
    # the log again: 255 ppm from sea of 35,000 ppm
    found = worked_out("salt-rejection", {"feed": 35000.0, "product": 255.0})
    assert found.value == pytest.approx(99.27, abs=0.005)


def test_rejection_from_the_feed_s_conductivity() -> None:
    # PSS-78: standard sea water (S = 35) has 53.07 mS/cm at 25 °C; the owner's 255 ppm of its 35,800 mg/L
    found = worked_out("salt-rejection", {"feed_conductivity": 53.07, "product": 255.0})
    assert found.value == pytest.approx(99.27, abs=0.05)
