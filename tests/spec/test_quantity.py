"""Quantities as people write them."""

from __future__ import annotations

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from plangen.formulas import FORMULAS
from plangen.spec.quantity import (
    KINDS,
    QuantityError,
    convert_number,
    parse_quantity,
    quantity_text,
    registry,
    us_label,
)

# NIST Special Publication 811 (2008), appendix B.8 and B.9: factors printed there, exact ones in bold type.
NIST = [
    ("1 ft", "m", 0.3048),
    ("1 in", "mm", 25.4),
    ("1 nmi", "m", 1852),
    ("1 lb", "kg", 0.45359237),
    ("1 gal", "L", 3.785412),
    ("1 psi", "kPa", 6.894757),
    ("1 lbf", "N", 4.448222),
    ("1 hp", "W", 745.6999),
    ("1 kn", "m/s", 0.5144444),
    ("1 kgf", "N", 9.80665),
    ("1 gal/min", "L/s", 0.06309020),
    ("1 ft²", "m²", 0.09290304),
]


@pytest.mark.parametrize(("written", "label", "factor"), NIST)
def test_conversion_factors_are_those_of_nist_sp_811(written: str, label: str, factor: float) -> None:
    number, unit = written.split(" ")
    assert convert_number(float(number), unit, label) == pytest.approx(factor, rel=5e-7)


@pytest.mark.parametrize(("celsius", "fahrenheit"), [("0 °C", 32.0), ("100 °C", 212.0), ("-40 °C", -40.0)])
def test_fixed_points_of_temperature_are_those_of_nist_sp_811(celsius: str, fahrenheit: float) -> None:
    assert parse_quantity(celsius, "temperature").to("degF").magnitude == pytest.approx(fahrenheit)


def test_every_unit_agrees_with_pints_own_full_list() -> None:
    """The short list of units against the default registry of pint, a general-purpose library."""
    full: pint.UnitRegistry[float] = pint.UnitRegistry()
    units = {unit for kind in KINDS.values() for unit in kind.units.values()}
    units |= {unit for formula in FORMULAS.values() for unit in (*formula.units.values(), formula.returns)}
    for unit in sorted(units - {"text", "date", "dimensionless"}):
        ours = registry.Quantity(1.0, unit).to_base_units()
        theirs = full.Quantity(1.0, unit).to(str(ours.units) or "dimensionless")
        assert ours.magnitude == pytest.approx(theirs.magnitude, rel=1e-6), unit


@pytest.mark.parametrize(
    ("written", "kind", "metres"),
    [
        ("46 ft 3 in", "length", 14.0970),
        ("46 ft", "length", 14.0208),
        ("14,1 m", "length", 14.1),
        ("1 200 mm", "length", 1.2),
    ],
)
def test_lengths_may_be_written_as_people_write_them(written: str, kind: str, metres: float) -> None:
    assert parse_quantity(written, kind).to("metre").magnitude == pytest.approx(metres)


@pytest.mark.parametrize(
    ("written", "kind", "part"),
    [
        ("12 V", "length", "which is a voltage"),
        (14, "length", "write for instance 14 m"),
        ("14", "length", "without a unit"),
        ("fourteen metres", "length", "accepted: a length"),
        ("1,200 L", "volume", "the comma may part thousands or decimals"),
        ("3 parsec", "length", "the unit 'parsec'"),
        ("", "mass", "accepted: a mass"),
        (True, "mass", "accepted: a mass"),
        ("9" * 70 + " kg", "mass", "a long text"),
    ],
)
def test_what_cannot_be_read_says_what_is_accepted(written: object, kind: str, part: str) -> None:
    with pytest.raises(QuantityError, match=part.replace("(", r"\(")):
        parse_quantity(written, kind)


@given(
    st.floats(min_value=0.001, max_value=1e6), st.sampled_from(["m", "L", "kg", "bar", "L/h", "L/min", "m²"])
)
def test_metric_to_us_and_back_gives_the_same_number(number: float, label: str) -> None:
    there = convert_number(number, label, us_label(label))
    assert convert_number(there, us_label(label), label) == pytest.approx(number, rel=1e-9)


def test_both_units_are_shown_metric_first() -> None:
    assert quantity_text(parse_quantity("600 L"), "both") == "600 L (159 gal)"
    assert quantity_text(parse_quantity("160 gal"), "both") == "606 L (160 gal)"
    assert quantity_text(parse_quantity("25 °C"), "us") == "77 °F"
