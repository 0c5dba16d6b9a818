"""Conditions and sums in words: every shipped condition reads as a sentence, every sum has its figures."""

from __future__ import annotations

import pytest

from plangen.packs.evaluate import Scope
from plangen.packs.words import arithmetic, condition_in_words
from plangen.plan.defaults import facts_of
from tests.conftest import shipped, spec_from

CODE = ("==", "!=", "[", "]", '"', "_", " not in ", "q(")
CONDITIONS = sorted({rule.when for pack in shipped().rules for rule in pack.model.checks if rule.when})


@pytest.mark.parametrize("condition", CONDITIONS)
def test_no_condition_is_shown_as_code(condition: str) -> None:
    words = condition_in_words(condition)
    assert [sign for sign in CODE if sign in words] == [], words


@pytest.mark.parametrize(
    ("condition", "words"),
    [
        ("head.lockout and head.tank", "the head's lockout is yes and the head's tank is told"),
        ("not ac.rcd", "the AC system's rcd is no or not told"),
        ("head.name == first(heads).name", "the head is the first of the heads"),
        ("count(engines) > 1", "the number of the engines is over 1"),
        ("count(engines) > 0", "there are engines"),
    ],
)
def test_yes_or_no_and_names_are_said_as_people_say_them(condition: str, words: str) -> None:
    assert condition_in_words(condition) == words


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("[0.5, 1] * anchor.chain_length", "(0.5, 1) × 60 m"),
        ("0.9 * anchor.mass", "0.9 × 20 kg = 18 kg"),
        ('anchor.chain_length - q("1 m")', "60 m − 1 m = 59 m"),
        ('2 * (anchor.mass + q("5 kg"))', "2 × (20 kg + 5 kg) = 50 kg"),
        (
            'q("2 m") if vessel.length_hull < q("9 m") else q("3 m")',
            "3 m (since the boat's length hull is at least 9 m) = 3 m",
        ),
        ("12 V", ""),
    ],
)
def test_a_sum_shows_the_boats_own_figures(text: str, words: str) -> None:
    spec = spec_from(
        "vessel: {name: A, hull: sailing-monohull, length_hull: 12 m}\n"
        "deck: {anchors: [{name: bower, mass: 20 kg, chain_length: 60 m}]}"
    )
    facts = facts_of(spec, shipped())
    anchor = facts.at("deck.anchors")[0]
    assert arithmetic(text, Scope(facts, {"anchor": anchor})) == words
