"""Handbook of Magnetic Compass Adjustment (formerly Pub. 226), ch. V: the curve of figure 501.

National Geospatial-Intelligence Agency, edition of 2004,
https://www.yumpu.com/en/document/view/35403536/handbook-of-magnetic-compass-adjustment-maritime-safety-/22
"""

import numpy as np
import pytest

from plangen.formulas.compass import (
    deviation_coefficients,
    deviation_on_heading,
    fitted_deviation_coefficients,
)
from tests.assess.building import worked_out

#: 501, data of the curve, east positive.
CURVE = {0.0: 10.5, 45.0: 20.0, 90.0: 11.5, 135.0: -1.2, 180.0: -5.5, 225.0: -8.0, 270.0: -12.5, 315.0: -6.8}


def test_constant_part() -> None:
    # 501: 8 A is the sum of all deviations, A = +1.0.
    assert deviation_coefficients(CURVE).a == pytest.approx(1.0)


@pytest.mark.parametrize("heading", CURVE)
def test_curve_from_its_coefficients(heading: float) -> None:
    # The deviations of 501 come back from the coefficients within the reading of the figure.
    assert deviation_on_heading(heading, *deviation_coefficients(CURVE)) == pytest.approx(
        CURVE[heading], abs=0.2
    )


def test_fit_against_numpy() -> None:
    # numpy.linalg.lstsq on the same five terms.
    angles = np.radians(list(CURVE))
    terms = np.column_stack(
        [np.ones_like(angles), np.sin(angles), np.cos(angles), np.sin(2 * angles), np.cos(2 * angles)]
    )
    solution = np.linalg.lstsq(terms, np.array(list(CURVE.values())), rcond=None)[0]
    assert fitted_deviation_coefficients(CURVE) == pytest.approx(tuple(solution), abs=1e-9)


def test_both_methods_agree() -> None:
    # The approximate coefficients of the handbook are within a tenth of a degree of the fit.
    assert deviation_coefficients(CURVE) == pytest.approx(fitted_deviation_coefficients(CURVE), abs=0.1)


def test_coefficients_and_residual_curve_as_figures_of_the_report() -> None:
    # 501: A = +1.0; B 12, C 8, D 5 and E 1.5 are the handbook's from memory, here they only bring the curve back.
    found = {
        letter: worked_out(f"deviation-coefficient-{letter}", {"deviation": CURVE}) for letter in "abcde"
    }
    # in words in the report, of eight headings: B (11.5 + 12.5) / 2, C (10.5 + 5.5) / 2, D (20 + 1.2 - 8 + 6.8) / 4, E (10.5 - 11.5 - 5.5 + 12.5) / 4
    assert [one.value for one in found.values()] == pytest.approx([1.0, 12.0, 8.0, 5.0, 1.5])
    coefficients = [one.value for one in found.values() if one.value is not None]
    for heading, deviation in CURVE.items():
        assert deviation_on_heading(heading, *coefficients) == pytest.approx(deviation, abs=0.2)
    residual = worked_out("deviation-residual", {"deviation": CURVE})
    assert [heading for heading, _ in residual.values] == list(CURVE)
    assert all(abs(rest) <= 0.2 for _, rest in residual.values)


def test_a_swing_of_six_headings_is_fitted() -> None:
    # numpy.linalg.lstsq on the five terms, the handbook's curve at six evenly spaced headings.
    even = {
        h: deviation_on_heading(h, 1.0, 12.0, 8.0, 5.0, 1.5) for h in (0.0, 60.0, 120.0, 180.0, 240.0, 300.0)
    }
    angles = np.radians(list(even))
    terms = np.column_stack(
        [np.ones_like(angles), np.sin(angles), np.cos(angles), np.sin(2 * angles), np.cos(2 * angles)]
    )
    solution = np.linalg.lstsq(terms, np.array(list(even.values())), rcond=None)[0]
    found = [worked_out(f"deviation-coefficient-{letter}", {"deviation": even}).value for letter in "abcde"]
    assert found == pytest.approx(list(solution), abs=1e-9)
