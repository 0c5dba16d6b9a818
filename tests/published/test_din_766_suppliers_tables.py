"""DIN 766 and ISO 4565 short-link chain, mass of a metre, from suppliers' tables (secondary): McSherry Chains,
https://chains.ie/Category/Products/Chain/BULKC/CCAW.html; Union Lifting, https://www.uulifting.com/product/din-766-chain/."""

import pytest

from plangen.formulas.ground_tackle import chain_mass


@pytest.mark.parametrize(
    ("diameter", "kilograms"),
    [
        (6.0, 0.80),
        (7.0, 1.10),
        (8.0, 1.40),
        (10.0, 2.20),
        (12.0, 3.10),
        (13.0, 3.80),
        (14.0, 4.40),
        (16.0, 5.70),
    ],
)
def test_mass_of_a_metre(diameter: float, kilograms: float) -> None:
    assert chain_mass(diameter, 1.0) == pytest.approx(kilograms, rel=0.05)
