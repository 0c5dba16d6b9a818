"""Potentials of protected metal, anodes' capacities, and tests of isolators.

Anode Outlet, Symptoms of over cathodic protecting, https://www.anodeoutlet.co.uk/symptoms-of-over-cathodic-protecting;
Borna Godaz, Zinc anode, https://en.bornagodaz.com/zinc-anode-floating-body; United States Navy report AD0729252 (1971),
https://apps.dtic.mil/sti/citations/AD0729252; pkys.com, How to test a galvanic isolator,
https://shop.pkys.com/How-to-test-a-galvanic-isolator-that-doesnt-have-a-monitoring-system_b_113.html
"""

import pytest

from plangen.formulas.corrosion_protection import (
    anode_mass,
    galvanic_isolator_reading,
    hull_potential_least_negative,
    hull_potential_most_negative,
    protected_potential,
)


@pytest.mark.parametrize(
    ("hull", "least", "most"),
    [
        ("glass-fibre", -750, -1000),
        ("glass-fibre with aluminium drive", -900, -1050),
        ("aluminium", -900, -1100),
        ("steel", -800, -1050),
        ("wood", -550, -600),
    ],
)
def test_hull_potential(hull: str, least: float, most: float) -> None:
    assert hull_potential_least_negative(hull) == least
    assert hull_potential_most_negative(hull) == most


@pytest.mark.parametrize(
    ("metal", "millivolts"), [("aluminium", -900), ("steel", -800), ("stainless", -750), ("bronze", -550)]
)
def test_protected_metal(metal: str, millivolts: float) -> None:
    assert protected_potential(metal) == millivolts


def test_zinc_consumption_in_a_year() -> None:
    # An anode maker: no more than 11.25 kg for an ampere-year, all of it used.
    assert anode_mass(1000.0, 365.0) * 0.85 == pytest.approx(11.25, rel=0.005)


def test_aluminium_anode_of_the_us_navy() -> None:
    # US Navy report AD0729252: at least 757 Ah/lb for aluminium with indium and zinc.
    pounds = anode_mass(1000.0, 757 / 24, "aluminium") * 0.85 / 0.45359237
    assert pounds == pytest.approx(1.0, rel=0.001)


@pytest.mark.parametrize(("diodes", "volts"), [(2, 0.9), (1, 0.45), (0, 0.0)])
def test_galvanic_isolator(diodes: float, volts: float) -> None:
    assert galvanic_isolator_reading(diodes) == pytest.approx(volts)
