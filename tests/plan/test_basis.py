"""The basis of an expected value is what the rule says, and else what its source is."""

from __future__ import annotations

from dataclasses import replace

import pytest

from plangen.packs.base import Source
from plangen.packs.evaluate import Scope
from plangen.packs.model import CheckRule, ReadingRule
from plangen.plan.defaults import facts_of
from plangen.plan.expectations import draft_reading
from tests.conftest import shipped, spec_from

SPEC = "vessel: {name: X, hull: motor-planing, length_hull: 9 m}\ncontract: {speed_at_rated: 20 kn}\n"
STATED = ("contract", "maker", "law", "standard", "computed", "common-practice", "assumed")


def basis(kind: str | None, **reading: object) -> str:
    """The basis of a reading whose source is of a kind."""
    library = shipped()
    source = Source(kind=kind, title="ISO 1: a title that only sounds like a standard")  # type: ignore[arg-type]
    library = replace(library, sources={**library.sources, "text": source})
    loaded = spec_from(SPEC)
    rule = CheckRule.model_validate(
        {
            "id": "r",
            "title": "r",
            "setting": "alongside",
            "source": "text",
            "expect": [{"id": "a", "reading": "a", **reading}],
        }
    )
    facts = facts_of(loaded, library)
    drafted = draft_reading(
        ReadingRule.model_validate(rule.expect[0]), rule, Scope(facts, {}, "metric"), library
    )
    assert drafted is not None
    return drafted.expectation.basis


@pytest.mark.parametrize("stated", STATED)
@pytest.mark.parametrize("kind", [None, "standard", "article"])
def test_what_the_rule_says_stands(stated: str, kind: str | None) -> None:
    assert basis(kind, at_least="3 V", unit="V", basis=stated) == stated


@pytest.mark.parametrize(
    ("kind", "expected"),
    [
        ("law", "law"),
        ("standard", "standard"),
        ("class-rule", "standard"),
        ("handbook", "common-practice"),
        ("maker", "common-practice"),
        ("article", "common-practice"),
        ("anecdote", "common-practice"),
        (None, "common-practice"),
    ],
)
def test_without_a_word_the_source_says_it(kind: str | None, expected: str) -> None:
    assert basis(kind, at_least="3 V", unit="V") == expected


def test_a_formula_computes_and_a_contract_beats_it() -> None:
    formula = {"unit": "kn", "about": 'hull_speed(q("9 m"))', "tolerance": "10 %"}
    assert basis(None, **formula) == "computed"
    assert basis("standard", **formula) == "standard"
    assert basis(None, **formula, contract_value="contract.speed_at_rated") == "contract"
