"""Watermakers against figures from magazines, an owner's log and a standard membrane test."""

import pytest

from plangen.formulas import OutOfRange
from plangen.formulas.sea_water import sea_water_dissolved_solids
from plangen.formulas.watermaker import salt_rejection, watermaker_energy, watermaker_product_solids
from tests.assess.building import worked_out


def test_energy_of_a_set_with_recovery() -> None:
    # a magazine's letter on watermakers (July 2012): 1.2 Ah per US gallon at 12 V, 3.8 to 4.0 Wh/L
    assert 3.75 < watermaker_energy(1.2 * 12.0, 3.785411784) < 4.05


def test_product_of_standard_elements() -> None:
    # a desalination wiki's page on standard tests: 32,000 mg/L sodium chloride, elements of 99.6 to 99.9 %
    assert watermaker_product_solids(32000.0, 99.6) == pytest.approx(128.0)
    assert watermaker_product_solids(32000.0, 99.9) == pytest.approx(32.0)


def test_owner_log() -> None:
    # an owner's published log: 255 ppm at 25 °C from sea of 35,000 ppm: rejection 99.27 %
    assert salt_rejection(35000.0, 255.0) == pytest.approx(99.27, abs=0.005)


def test_sea_is_not_a_few_thousand_ppm() -> None:
    # an article on making water: 32,000 to 38,000 ppm
    assert 32000.0 < sea_water_dissolved_solids(35.0, 20.0) < 38000.0


def test_out_of_range_is_refused() -> None:
    with pytest.raises(OutOfRange, match="not below the feed"):
        salt_rejection(500.0, 600.0)


def test_rejection_as_a_figure_of_the_report() -> None:
    # the owner's published log again: 255 ppm from sea of 35,000 ppm
    found = worked_out("salt-rejection", {"feed": 35000.0, "product": 255.0})
    assert found.value == pytest.approx(99.27, abs=0.005)


def test_rejection_from_the_feed_s_conductivity() -> None:
    # PSS-78: standard sea water (S = 35) has 53.07 mS/cm at 25 °C; the owner's 255 ppm of its 35,800 mg/L
    found = worked_out("salt-rejection", {"feed_conductivity": 53.07, "product": 255.0})
    assert found.value == pytest.approx(99.27, abs=0.05)
