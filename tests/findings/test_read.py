"""Findings are read strictly: the line, the check, the nearest name and the unit of every fault."""

from __future__ import annotations

import pytest

from plangen.findings.blank import findings_text
from plangen.findings.read import read_findings
from plangen.spec.problems import Problem
from tests.collect.forms import small_plan
from tests.conftest import faults

HEAD = f"boat: Tern\nplan: {'a' * 64}\nchecks:\n"


def fault(text: str) -> Problem:
    (problem,) = faults(lambda: read_findings(text, "findings.yaml", small_plan()))
    return problem


def test_a_blank_file_reads_back_with_nothing_found() -> None:
    plan = small_plan()
    findings = read_findings(findings_text(plan), "findings.yaml", plan)
    assert list(findings.checks) == [check.id for check in plan.checks]
    assert not any(findings.attempts(check.id) for check in plan.checks)
    assert (findings.boat, findings.plan) == ("Tern", "a" * 64)


@pytest.mark.parametrize(
    "name", ["yes", "2027", "A: b # c", '"Quo\\ted"', "Mücke 🚤", "null", "- x", "ten\nline"]
)
def test_a_blank_file_reads_back_whatever_the_boats_name(name: str) -> None:
    plan = small_plan(name=name)
    assert read_findings(findings_text(plan), "findings.yaml", plan).boat == name


def test_an_unknown_check_is_named_with_its_line_and_the_nearest() -> None:
    problem = fault(HEAD + "  rest@hous:\n    - found: {resting-voltage: 12.7}\n")
    assert (problem.mark.line, problem.nearest) == (4, "rest@house")
    assert "rest@hous" in problem.found


def test_an_unknown_reading_is_named_with_its_line_and_the_nearest() -> None:
    problem = fault(
        HEAD + "  rest@house:\n    - found:\n        terminals-tight: yes\n        resting volt: 12.7\n"
    )
    assert (problem.mark.line, problem.key, problem.nearest) == (7, "rest@house", "resting-voltage")


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("12.7 bar", "bar is no unit for a reading in V"),
        ("12.7 volty", "isn't known"),
        ("[12.7, 12.8]", "list"),
    ],
)
def test_a_value_of_another_unit_is_named_with_its_line(typed: str, words: str) -> None:
    problem = fault(HEAD + f"  rest@house:\n    - found:\n        resting-voltage: {typed}\n")
    assert (problem.mark.line, problem.key) == (6, "rest@house: resting-voltage")
    assert words in problem.found


def test_more_values_than_points_are_a_fault() -> None:
    problem = fault(HEAD + "  gauge@tank:\n    - found: {gauge-at-quarters: [1, 2, 3, 4]}\n")
    assert (problem.mark.line, problem.found.partition(": ")[2]) == (5, "4 values for 3 points")


def test_text_where_a_number_is_expected_is_kept() -> None:
    text = HEAD + "  rest@house:\n    - found: {resting-voltage: about twelve}\n"
    (attempt,) = read_findings(text, "findings.yaml", small_plan()).attempts("rest@house")
    assert attempt.values == {"resting-voltage": "about twelve"}


@pytest.mark.parametrize(
    ("text", "line", "nearest"),
    [
        (HEAD + "  rest@house:\n    - fund: {}\n", 5, "found"),
        (HEAD + "  rest@house:\n    - {when: soon}\n", 5, ""),
        (HEAD + "  rest@house: done\n", 4, ""),
        (HEAD + "  rest@house:\nsnag:\n  rest@house: {}\n", 5, "snags"),
        (HEAD + "snags:\n  rest@hose: {who: yard}\n", 5, "rest@house"),
        (HEAD + "snags:\n  rest@house: {sum: a lot}\n", 5, ""),
        ("boat: Skua\nplan: x\n", 1, ""),
    ],
)
def test_other_faults_have_their_line(text: str, line: int, nearest: str) -> None:
    problem = fault(text)
    assert problem.mark.line == line
    assert problem.nearest == nearest


def test_all_faults_are_said_together() -> None:
    text = (
        HEAD
        + "  rest@hous:\n    - note: x\n  gauge@tank:\n    - found: {gauge: 1}\n  coolant@engine:\n    - found: {coolant: 80 L}\n"
    )
    problems = faults(lambda: read_findings(text, "findings.yaml", small_plan()))
    assert [problem.mark.line for problem in problems] == [4, 7, 9]


def test_readings_of_a_former_expectation_are_no_faults_under_second_look() -> None:
    text = HEAD + "  rest@house:\n    - found: {volts: 12.7}\nsecond_look: [rest@house]\nremarks: [rain]\n"
    findings = read_findings(text, "findings.yaml", small_plan())
    assert findings.attempts("rest@house")[0].values == {"volts": 12.7}
    assert findings.remarks == ("rain",)
