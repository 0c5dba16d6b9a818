"""One grammar for what people type: the findings' and the field page's are held against the same table."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from plangen.findings.days import day_of, last_day_of
from plangen.findings.parse_reading import says_not_applicable, typed_answer, typed_judgement, typed_number
from plangen.print.field.unit_table import unit_table
from tests.field.script import run

CASES: dict[str, Any] = json.loads(Path(__file__).with_name("grammar_cases.json").read_text(encoding="utf-8"))


def hold(case: dict[str, Any], read: dict[str, Any]) -> None:
    """Hold that a number was read as the table says."""
    assert bool(read["fault"]) == case.get("fault", False), (case, read)
    assert read["about"] == case.get("about", False), (case, read)
    for part in ("number", "low", "high"):
        wanted = case.get(part)
        within = case.get("within", 1e-11)
        assert (read[part] is None) if wanted is None else read[part] == pytest.approx(wanted, rel=within, abs=1e-12), (case, read)  # fmt: skip


@pytest.mark.parametrize("case", CASES["numbers"], ids=lambda case: f"{case['typed']} {case['unit']}")
def test_findings_read_numbers_as_the_table_says(case: dict[str, Any]) -> None:
    hold(case, vars(typed_number(case["typed"], case["unit"])))


def test_findings_read_days_and_answers_as_the_table_says() -> None:
    for case in CASES["days"]:
        assert str(day_of(case["typed"]) or "") == (case["day"] or ""), case
    for case in CASES["last_days"]:
        assert str(last_day_of(case["typed"]) or "") == (case["day"] or ""), case
    for case in CASES["answers"]:
        assert typed_answer(case["typed"]) is case["answer"], case
        assert typed_judgement(case["typed"]) is case["good"], case
        assert says_not_applicable(case["typed"]) is not case["applies"], case


def test_the_page_reads_numbers_days_and_answers_as_the_table_says() -> None:
    read = run(
        """
        const grammar = grammarOf(given.units);
        return {
          numbers: given.cases.numbers.map(one => grammar.typedNumber(one.typed, one.unit)),
          days: given.cases.days.map(one => dayOf(one.typed)),
          lastDays: given.cases.last_days.map(one => lastDayOf(one.typed)),
          answers: given.cases.answers.map(one => [typedAnswer(one.typed), typedJudgement(one.typed), !saysNotApplicable(one.typed)]),
        };""",
        {"units": unit_table(), "cases": CASES},
    )
    for case, number in zip(CASES["numbers"], read["numbers"], strict=True):
        hold(case, number)
    assert read["days"] == [case["day"] for case in CASES["days"]]
    assert read["lastDays"] == [case["day"] for case in CASES["last_days"]]
    assert read["answers"] == [[case["answer"], case["good"], case["applies"]] for case in CASES["answers"]]
