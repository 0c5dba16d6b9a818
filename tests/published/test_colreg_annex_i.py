"""COLREG Rule 22 and Annex I section 8, as 33 CFR 83.22 and 84.14 repeat them (texts read).

https://law.lawstack.com/cfr/33/83.22/ and https://www.lexfed.com/cfr/33/i/e/84/84-14
"""

import pytest

from plangen.formulas.lights import light_range_required, luminous_intensity


@pytest.mark.parametrize(
    ("miles", "candelas"),
    # Annex I section 8, table of range and intensity for K = 0.8.
    [(1.0, 0.9), (2.0, 4.3), (3.0, 12.0), (4.0, 27.0), (5.0, 52.0), (6.0, 94.0)],
)
def test_intensity_table(miles: float, candelas: float) -> None:
    assert luminous_intensity(miles) == pytest.approx(candelas, abs=0.5 if candelas > 10.0 else 0.05)


@pytest.mark.parametrize(
    ("length", "light", "miles"),
    [
        (60.0, "masthead", 6.0),  # Rule 22 (a)
        (60.0, "sidelight", 3.0),
        (30.0, "masthead", 5.0),  # Rule 22 (b)
        (14.0, "masthead", 3.0),
        (14.0, "sidelight", 2.0),
        (14.0, "sternlight", 2.0),
        (12.0, "all-round", 2.0),
        (10.0, "masthead", 2.0),  # Rule 22 (c)
        (10.0, "sidelight", 1.0),
        (10.0, "sternlight", 2.0),
    ],
)
def test_ranges(length: float, light: str, miles: float) -> None:
    assert light_range_required(length, light) == miles


#: Rule 22 (a) to (c): masthead, sidelight, sternlight, towing and all-round light, by lengths at either end of a row.
RULE_22 = [
    ((50.0, 80.0), (6.0, 3.0, 3.0, 3.0, 3.0)),
    ((20.0, 49.9), (5.0, 2.0, 2.0, 2.0, 2.0)),
    ((12.0, 19.9), (3.0, 2.0, 2.0, 2.0, 2.0)),
    ((4.0, 11.9), (2.0, 1.0, 2.0, 2.0, 2.0)),
]


@pytest.mark.parametrize(("lengths", "miles"), RULE_22)
def test_every_light_at_the_ends_of_every_row(lengths: tuple[float, ...], miles: tuple[float, ...]) -> None:
    lights = ("masthead", "sidelight", "sternlight", "towing", "all-round")
    for length in lengths:
        assert tuple(light_range_required(length, light) for light in lights) == miles
