"""Numbers and answers as people type them."""

from __future__ import annotations

import datetime

import pytest

from plangen.findings.days import day_of
from plangen.findings.parse_reading import (
    says_not_applicable,
    typed_answer,
    typed_judgement,
    typed_number,
)
from plangen.findings.scalar import number_or_text, scalar, value_text
from plangen.spec.yaml_source import read_yaml


@pytest.mark.parametrize(
    ("typed", "unit", "number"),
    [
        ("14.1", "V", 14.1),
        ("14,1", "V", 14.1),
        ("14.1v", "V", 14.1),
        (" 14.1 V ", "V", 14.1),
        ("-0,05 A", "A", -0.05),
        (".5", "A", 0.5),
        (14, "V", 14.0),
        ("240 mV", "V", 0.24),
        # NIST SP 811 (2008), B.8: t/°C = (t/°F - 32)/1.8; 1 psi = 6.894 757 kPa; 1 gal (US) = 3.785 412 L
        ("212 °F", "°C", 100.0),
        ("30 psi", "bar", 2.0684),
        ("10 gal", "L", 37.854),
    ],
)
def test_a_number_is_read_where_it_can_be_read_in_one_way(typed: object, unit: str, number: float) -> None:
    read = typed_number(typed, unit)
    assert read.number == pytest.approx(number, rel=1e-4)
    assert not read.about
    assert not read.fault


@pytest.mark.parametrize("typed", ["~14", "≈ 14", "ca. 14", "about 14", "circa 14", "approx. 14 V"])
def test_an_approximate_number_is_known_as_one(typed: str) -> None:
    read = typed_number(typed, "V")
    assert (read.number, read.about) == (14.0, True)


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("1,200", "thousands or decimals"),
        ("12 14", ""),
        ("n/a", ""),
        ("", ""),
        ("14 bar", "bar is no unit for a reading in V"),
        ("14 Volts DC", "isn't known"),
        (True, "yes or no"),
        ([1], "no number"),
        (datetime.date(2027, 5, 14), "no number"),
    ],
)
def test_what_may_be_read_in_two_ways_or_none_is_no_number(typed: object, words: str) -> None:
    read = typed_number(typed, "V")
    assert read.number is None
    assert words in read.fault
    assert read.fault


@pytest.mark.parametrize(
    ("typed", "answer"),
    [("Yes", True), (" y ", True), ("x", True), (True, True), ("NO", False), (False, False), ("perhaps", None), ("", None)],
)  # fmt: skip
def test_answers(typed: object, answer: bool | None) -> None:
    assert typed_answer(typed) is answer


@pytest.mark.parametrize(
    "text", ["2027-03-14", "2027/3/14", "14.03.2027", "14. 3. 2027", "14/3/2027", "3/14/2027", "14 March 2027", "Mar. 14th, 2027"]
)  # fmt: skip
def test_a_day_written_in_one_way_only(text: str) -> None:
    assert day_of(text) == datetime.date(2027, 3, 14)


@pytest.mark.parametrize(
    "text", ["", "3/4/2027", "14 3 27", "14/13/2027", "2027-02-30", "Friday", "14 Foo 2027"]
)
def test_a_day_that_may_be_another_is_none(text: str) -> None:
    assert day_of(text) is None


@pytest.mark.parametrize(
    "text",
    [
        "gauge sticks", "yes", "null", "14.1", "2027-05-14", "a: b", "a #b", "- a", "'a'", '"a"', "[a", "{a", "a\\b", "a\nb",
        "\t", "~", "&a", "*a", "!a", "%", "@x", "`", "a,b", "é ½ 船 🚤", "a\x00b", "\x7f", "\x85", "\u2028", "\ufeff", "x:", "1,200", "=", "<<",
    ],
)  # fmt: skip
def test_text_is_read_back_as_the_same_text(text: str) -> None:
    for line in (f"key: {scalar(text)}", f"key: {value_text(text)}", f"{scalar(text)}: 1"):
        root = read_yaml(line, "x").mapping or {}
        assert text in root or root["key"].value == text
    assert read_yaml(f"key: {value_text([text, None])}", "x").plain() == {"key": [text, None]}


@pytest.mark.parametrize(
    "text", ["007", "14.10", "1e5", "+14", "1_000", ".5", "5.", "nan", "inf", "٣", "١.٥"]
)
def test_a_number_that_would_be_written_otherwise_stays_text(text: str) -> None:
    assert number_or_text(text) == text


@pytest.mark.parametrize(
    ("typed", "unit", "number", "low", "high"),
    [
        ("1 200", "L", 1200, None, None), ("1.200,5", "L", 1200.5, None, None), ("1,200.5", "L", 1200.5, None, None),
        (">20", "A", None, 20, None), ("<1", "A", None, None, 1), (">= 20 A", "A", None, 20, None), ("at most 3", "A", None, None, 3),
        ("10 min.", "min", 10, None, None), ("8.2 knots", "kn", 8.2, None, None),
        ("12-13", "V", 12.5, 12, 13), ("12 to 13 V", "V", 12.5, 12, 13), ("-3", "V", -3, None, None),
    ],
)  # fmt: skip
def test_numbers_bounds_and_ranges_as_people_type_them(
    typed: str, unit: str, number: float | None, low: float | None, high: float | None
) -> None:
    read = typed_number(typed, unit)
    assert (read.number, read.low, read.high, read.fault) == (number, low, high, "")


@pytest.mark.parametrize(
    ("typed", "judged"),
    [("ok", True), ("OK.", True), ("good", True), ("not ok", False), ("nok", False), ("bad", False), ("no", None), ("n/a", None), (1, None)],
)  # fmt: skip
def test_ok_and_not_ok_judge_whatever_was_asked(typed: object, judged: bool | None) -> None:
    assert typed_judgement(typed) is judged


def test_what_does_not_apply_is_neither_number_nor_answer() -> None:
    assert says_not_applicable("n/a")
    assert typed_answer("n/a") is None
    assert day_of("14.3.2030") == datetime.date(2030, 3, 14)
