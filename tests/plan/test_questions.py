"""Open questions: sentences that a person asks, of whoever is likely to know."""

from __future__ import annotations

import re
from functools import cache
from typing import get_args

import pytest

from plangen.plan.draft import draft_plan
from plangen.plan.model import Question
from plangen.plan.questions import steps_of, without_name
from plangen.spec.explain import key_text, shape_at
from plangen.spec.hull_types import HullType
from plangen.spec.model import Spec
from tests.conftest import drafted, shipped, spec_from

READY = ("catamaran.yaml", "monohull.yaml", "yard/hull-101.yaml")
BOAT = "vessel: {name: X, hull: sailing-monohull, length_hull: 12 m}\n"


@cache
def asked() -> tuple[Question, ...]:
    """Return what is asked of the ready boats, and of a boat of each hull type of which nothing else is known."""
    bare = [
        draft_plan(spec_from(f"vessel: {{name: X, hull: {hull}, length_hull: 12 m, condition: used, built: 2004}}"), shipped())
        for hull in get_args(HullType)
    ]  # fmt: skip
    return tuple(question for draft in (*map(drafted, READY), *bare) for question in draft.plan.questions)


def test_every_question_is_a_sentence_of_its_own_words() -> None:
    """No label with a question mark behind it, and none put together from a description of the spec."""
    begins = "|Is|Are|Was|Does|Do|Can|Will|Has|How|What|Which|Who|Where|When|At|In|To|For|Under|On|After|If|"
    for question in asked():
        words = without_name(question)
        assert words.endswith("?"), question.asks
        assert f"|{words.split()[0]}|" in begins, question.asks
        assert not words.startswith("Is this so"), f"{question.key} has no words of its own"


def test_owner_and_builder_are_asked_what_each_knows() -> None:
    to = {re.sub(r"\[[0-9]+\]", "[]", question.key): question.to for question in asked()}
    assert {to[key] for key in to if key.startswith(("use.", "trial.", "contract."))} == {"owner"}
    for key in ("trial.air_temperature", "use.registry"):
        assert to[key] == "owner"
    for key in ("engines[].power", "engines", "through_hulls", "ac.rcd"):
        assert to[key] == "builder"


def test_a_key_is_read_back_as_it_was_written() -> None:
    for question in asked():
        steps = steps_of(question.key)
        assert key_text(steps) == question.key
        assert shape_at(Spec, steps) is not None


@pytest.mark.parametrize("key", [key for key, section in shipped().sections.items() if section.example])
def test_the_example_of_an_answer_is_one_that_the_spec_takes(key: str) -> None:
    example = shipped().sections[key].example
    assert example is not None
    listed = f"[{example}]" if "," in example else example
    for step in reversed(key.split(".")):
        listed = f"{{{step}: {listed}}}"
    spec_from(BOAT + listed[1:-1])
