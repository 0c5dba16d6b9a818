"""Reckoning with quantities, against pint, a general-purpose library, that reads the same list of units."""

from __future__ import annotations

import operator
import pickle
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pint
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

import plangen.spec.units as units_module
from plangen.formulas import FORMULAS
from plangen.spec.measure import Quantity
from plangen.spec.quantity import KINDS
from plangen.spec.units import UnitError, unit_of

PINT: pint.UnitRegistry[Any] = pint.UnitRegistry(
    str(Path(units_module.__file__).with_name("units.txt")), autoconvert_offset_to_baseunit=True
)
UNITS = sorted(
    {unit for kind in KINDS.values() for unit in kind.units.values()}
    | {unit for one in FORMULAS.values() for unit in (*one.units.values(), one.returns)}
    | {"delta_degF", "kelvin", "metre/second**2", "1/hour", "radian"} - {"dimensionless"}
    - {"text", "date"}
)  # fmt: skip
UNITS = [unit for unit in UNITS if unit not in ("text", "date")]
NUMBERS = st.one_of(st.just(0.0), st.integers(-50, 50), st.floats(-1e6, 1e6).filter(lambda x: abs(x) > 1e-6))
ALIKE = {
    unit: [other for other in UNITS if PINT.Unit(other).dimensionality == PINT.Unit(unit).dimensionality]
    for unit in UNITS
}


def outcome(work: Callable[[], Any]) -> Any:
    """Return a number and its unit, a truth, or that it can't be done."""
    try:
        result = work()
    except (pint.errors.PintError, UnitError, ValueError, ZeroDivisionError) as error:
        return "division" if isinstance(error, ZeroDivisionError) else "refused"
    if isinstance(result, (Quantity, pint.Quantity)):
        return pytest.approx(float(result.magnitude), rel=1e-9, abs=1e-9), str(result.units)
    return result


@pytest.mark.parametrize("unit", UNITS)
def test_a_unit_is_written_and_measured_as_the_library_has_it(unit: str) -> None:
    ours, theirs = unit_of(unit), PINT.Unit(unit)
    assert str(ours) == str(theirs)
    if str(ours) != "dimensionless":
        assert ours.short == f"{theirs:~}"
    assert dict(ours.dimensionality) == dict(theirs.dimensionality)
    assert unit_of(str(ours)) is ours


@settings(max_examples=600)
@given(st.sampled_from(UNITS), NUMBERS, st.data())
def test_turned_into_another_unit_it_is_what_the_library_says(unit: str, number: float, data: Any) -> None:
    other = data.draw(st.one_of(st.sampled_from(ALIKE[unit]), st.sampled_from(UNITS)))
    ours = outcome(lambda: Quantity(number, unit).to(other))
    assert ours == outcome(lambda: PINT.Quantity(number, unit).to(other))


@settings(max_examples=1_000)
@given(st.sampled_from(UNITS), NUMBERS, NUMBERS, st.data())
@pytest.mark.parametrize(
    "by", [operator.add, operator.sub, operator.mul, operator.truediv, operator.lt, operator.ge, operator.eq]
)
def test_reckoned_and_compared_it_is_what_the_library_says(
    by: Callable[[Any, Any], Any], unit: str, one: float, two: float, data: Any
) -> None:
    other = data.draw(st.one_of(st.sampled_from(ALIKE[unit]), st.sampled_from(UNITS)))
    assume(one or two or by is not operator.eq)  # to pint 0 °C and 0 °F are equal, which they are not
    ours = outcome(lambda: by(Quantity(one, unit), Quantity(two, other)))
    assert ours == outcome(lambda: by(PINT.Quantity(one, unit), PINT.Quantity(two, other)))


@settings(max_examples=400)
@given(st.sampled_from(UNITS), NUMBERS, NUMBERS, st.booleans())
@pytest.mark.parametrize("by", [operator.add, operator.sub, operator.mul, operator.truediv])
def test_with_a_plain_number_it_is_what_the_library_says(
    by: Callable[[Any, Any], Any], unit: str, one: float, two: float, turned: bool
) -> None:
    first: Any = Quantity(one, unit)
    second: Any = PINT.Quantity(one, unit)
    ours = outcome(lambda: by(two, first) if turned else by(first, two))
    assert ours == outcome(lambda: by(two, second) if turned else by(second, two))


@given(st.sampled_from(UNITS), NUMBERS)
def test_alike_quantities_are_one_in_a_set_and_come_back_from_another_process(
    unit: str, number: float
) -> None:
    quantity = Quantity(number, unit)
    assert len({quantity, pickle.loads(pickle.dumps(quantity))}) == 1
    assert pickle.loads(pickle.dumps(quantity)).units is quantity.units


@pytest.mark.parametrize(
    "text", ["furlong", "metre metre", "2 * metre", "metre **", "metre /", "(metre", "", "__class__"]
)
def test_what_is_no_unit_is_refused(text: str) -> None:
    with pytest.raises(UnitError):
        unit_of(text)
