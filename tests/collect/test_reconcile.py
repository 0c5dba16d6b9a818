"""What a form's attempt does beside those that stand there already: nothing, fill one, or become one more."""

from __future__ import annotations

from typing import Any

import pytest

from plangen.collect.reconcile import Action, Asked, decide, decide_after, same
from plangen.findings.model import Attempt
from tests.assess.building import check, expectation, series

CHECK = check(
    "rest@house",
    expectation("volts", unit="V", low=12.5, high=12.9),
    expectation("tight", text="yes"),
    expectation("serial", record="serial"),
    series("steps", {1.0: (1.0, 2.0), 2.0: (1.0, 2.0)}, unit="V"),
)
MONDAY, TUESDAY = "2027-05-10", "2027-05-11"


def attempt(volts: object = None, by: str | None = None, when: str | None = None, **more: Any) -> Attempt:
    """An attempt with a voltage; `more` are its other keys."""
    found = {"volts": volts} if volts is not None else {}
    return Attempt.model_validate(
        {"found": {**found, **more.pop("found", {})}, "by": by, "when": when, **more}
    )


def decided(existing: list[Attempt], new: Attempt, **more: Any) -> tuple[str, int]:
    action = decide(existing, new, CHECK, **more)
    return action.what, action.at


BLANK = attempt()
AL = attempt(12.7, "AL", MONDAY)


@pytest.mark.parametrize(
    ("existing", "new", "what", "at"),
    [
        # nothing stands there yet: the blank entry is filled, else a first one added
        ([], AL, "append", 0),
        ([BLANK], AL, "fill", 1),
        # what is said already isn't said again, by whoever, with a day or without one
        ([AL], AL, "nothing", 1),
        ([AL], attempt(12.7), "nothing", 1),
        ([AL], attempt(12.7, "AL"), "nothing", 1),
        ([AL], attempt("12,70 V", "AL", MONDAY), "nothing", 1),
        ([attempt(12.7)], AL, "fill", 1),
        ([attempt(12.7, "AL")], AL, "fill", 1),
        ([attempt(12.7, None, MONDAY)], AL, "fill", 1),
        # another person with the same value confirms it
        ([AL], attempt(12.7, "BM", MONDAY), "nothing", 1),
        # the same person fills the blanks of the same day
        ([AL], attempt(None, "AL", MONDAY, found={"tight": "yes"}), "fill", 1),
        ([AL], attempt(None, "AL", found={"tight": "yes"}), "fill", 1),
        ([AL], attempt(None, "AL", MONDAY, note="cold"), "fill", 1),
        ([AL], attempt(None, "AL", MONDAY, photos=["1.jpg"]), "fill", 1),
        # but not with another remark, photo or instrument than it has, nor where it doesn't apply
        ([attempt(12.7, "AL", MONDAY, note="warm")], attempt(None, "AL", MONDAY, note="cold"), "append", 0),
        ([attempt(12.7, "AL", MONDAY, note="warm and wet")], attempt(None, "AL", MONDAY, found={"tight": "yes"}, note="wet"), "fill", 1),
        ([attempt(12.7, "AL", MONDAY, photos=["1.jpg"])], attempt(None, "AL", MONDAY, photos=["2.jpg"]), "append", 0),
        ([attempt(12.7, "AL", MONDAY, **{"with": {"volts": "own"}})], attempt(None, "AL", MONDAY, **{"with": {"volts": "other"}}, note="x"), "append", 0),
        ([attempt(12.7, "AL", MONDAY, **{"with": {"volts": "own"}})], attempt(None, "AL", MONDAY, **{"with": {"volts": "own"}}, note="x"), "fill", 1),
        ([attempt(None, "AL", MONDAY, does_not_apply="none aboard")], attempt(None, "AL", MONDAY, found={"tight": "yes"}), "append", 0),
        ([AL], attempt(None, "BM", MONDAY, found={"tight": "yes"}), "append", 0),
        # what differs, and what is of another day, is an attempt of its own
        ([AL], attempt(12.4, "AL", MONDAY), "append", 0),
        ([AL], attempt(12.7, "AL", TUESDAY), "append", 0),
        ([AL, BLANK], attempt(12.4, "BM", MONDAY), "fill", 2),
        ([AL, attempt(12.4, "BM", MONDAY)], attempt(12.4, "BM", MONDAY), "nothing", 2),
        ([AL, attempt(12.4, "BM", MONDAY)], attempt(None, "AL", MONDAY, found={"tight": "yes"}), "fill", 1),
        # an instrument that somebody wrote down is no blank entry
        ([attempt(**{"with": {"volts": "own"}})], AL, "append", 0),
        # initials alone say nothing of the check, and are kept once for each person
        ([AL], attempt(None, "AL"), "nothing", 1),
        ([AL], attempt(None, "BM"), "append", 0),
        # a series with fewer of its points says nothing that the whole one doesn't; with more of them it fills it
        ([attempt(None, "AL", MONDAY, found={"steps": [1.5, 1.6]})], attempt(None, "AL", MONDAY, found={"steps": [1.5, None]}), "nothing", 1),
        ([attempt(None, "AL", MONDAY, found={"steps": [1.5, None]})], attempt(None, "AL", MONDAY, found={"steps": [1.5, 1.6]}), "fill", 1),
        ([attempt(None, "AL", MONDAY, found={"steps": [1.5, 1.6]})], attempt(None, "AL", MONDAY, found={"steps": [1.5, 1.7]}), "append", 0),
        # a remark, a photo, an instrument that stands there already isn't said again
        ([attempt(12.7, "AL", MONDAY, note="cold and wet")], attempt(12.7, "AL", MONDAY, note="wet"), "nothing", 1),
        ([attempt(12.7, "AL", MONDAY, photos=["1.jpg", "2.jpg"])], attempt(12.7, "AL", MONDAY, photos=["2.jpg"]), "nothing", 1),
        ([attempt(12.7, "AL", MONDAY, **{"with": {"volts": "own"}})], attempt(12.7, "AL", MONDAY, **{"with": {"volts": "own"}}), "nothing", 1),
    ],
)  # fmt: skip
def test_nothing_is_written_twice_and_nothing_over_another(
    existing: list[Attempt], new: Attempt, what: str, at: int
) -> None:
    assert decided(existing, new) == (what, at)


def test_who_says_the_same_is_named() -> None:
    assert decide([AL], attempt(12.7, "BM", MONDAY), CHECK).confirms == "BM"
    assert decide([AL], attempt(12.7, None, MONDAY), CHECK).confirms is None


def test_what_differs_stands_beside_what_it_differs_from() -> None:
    action = decide([AL], attempt(12.4, "BM", MONDAY), CHECK)
    assert (action.attempt.beside, action.differs) == (1, ("volts",))
    # beside the last one that was filled in, where only an earlier one differs
    action = decide(
        [AL, attempt(12.4, "BM", MONDAY)], attempt(12.4, "CN", TUESDAY, found={"tight": "no"}), CHECK
    )
    assert (action.attempt.beside, action.differs) == (None, ())  # a later day is another round
    action = decide([AL, attempt(12.4, "BM", MONDAY)], attempt(12.4, "CN", MONDAY, note="x"), CHECK)
    assert (action.attempt.beside, action.differs) == (2, ())
    action = decide([attempt(12.4, "BM", MONDAY), AL], attempt(12.4, "CN", MONDAY, note="x"), CHECK)
    assert (action.attempt.beside, action.differs) == (2, ("volts",))


@pytest.mark.parametrize(("when", "beside"), [(TUESDAY, None), (MONDAY, 1), (None, 1), ("2027-05-09", 1)])
def test_a_later_day_is_another_round(when: str | None, beside: int | None) -> None:
    assert decide([AL], attempt(12.4, "BM", when), CHECK).attempt.beside == beside
    assert decide([attempt(12.7, "AL")], attempt(12.4, "BM", when), CHECK).attempt.beside == 1


def test_a_retest_s_sheet_is_the_next_attempt_dated_or_not() -> None:
    undated = attempt(12.4, "BM")
    assert decide([AL], undated, CHECK, is_retest=True) == Action("append", undated)
    assert decided([AL], attempt(12.7, "AL"), is_retest=True) == ("append", 0)
    assert decided([AL], AL, is_retest=True) == ("nothing", 1)
    assert decided([attempt(12.7, "AL")], attempt(12.7, "AL"), is_retest=True) == ("nothing", 1)
    assert decided([attempt(12.7, "AL")], AL, is_retest=True) == ("append", 0)


def test_what_comes_after_so_many_attempts_is_held_against_the_later_ones_only() -> None:
    again = decide_after(1, [AL, attempt(12.4, "BM", MONDAY)], attempt(12.7, "AL", MONDAY), CHECK)
    assert (again.what, again.at, again.attempt.beside, again.differs) == ("append", 0, 2, ("volts",))
    known = decide_after(1, [AL, attempt(12.4, "BM", MONDAY)], attempt(12.4, "BM", MONDAY), CHECK)
    assert (known.what, known.at, known.attempt.beside) == ("nothing", 2, None)
    assert decide_after(1, [AL], AL, CHECK).what == "append"


def test_a_check_that_nobody_knows_is_compared_by_words() -> None:
    assert decide([AL], attempt("12.70", "AL", MONDAY), None).what == "append"
    assert decide([AL], attempt("12.7", "AL", MONDAY), None).what == "nothing"


def test_units_of_the_plan_count_for_bare_numbers() -> None:
    # 10 m are 32.81 ft: in a plan in US units a bare 10 is 10 ft
    long = check("l@x", expectation("length", unit="m", low=1.0))
    mine, theirs = (
        Attempt.model_validate({"found": {"length": typed}, "by": "AL"}) for typed in ("3.048 m", 10)
    )
    assert decide([mine], theirs, long, "us").what == "nothing"
    assert decide([mine], theirs, long, "metric").what == "append"


@pytest.mark.parametrize(
    ("one", "other", "reading", "alike"),
    [
        ("12.70", 12.7, "volts", True), ("12,7 V", "12.7", "volts", True), ("12700 mV", 12.7, "volts", True), (12.7, 12.70001, "volts", False),
        # what differs by less than a thousand-millionth is the rounding of a unit's conversion
        (12.7, 12.700000001, "volts", True), ("~12.7", 12.7, "volts", False), ("12-13", 12.5, "volts", False), ("12-13", "12 to 13", "volts", True),
        (">12", 12, "volts", False), ("<12", ">12", "volts", False), ("fine", "good", "volts", False), ("fine", "FINE", "volts", True),
        ("a  b", "A B", "volts", True), ("yes", True, "tight", True), ("y", "yes", "tight", True), ("no", "yes", "tight", False),
        (False, "no", "tight", True), ("perhaps", "yes", "tight", False), ("perhaps", "maybe", "tight", False),
        ("y", "yes", "serial", False), ("007", "7", "serial", False), ("12.70", 12.7, "serial", False),
        (None, "", "volts", True), ("", None, "volts", True), (None, 1, "volts", False), (1, None, "volts", False), ("", 0, "volts", False),
        ([1, 2], [1, "2.0"], "steps", True), ([1, 2], [1], "steps", False), ([1, None], [1], "steps", True), ([1], 1, "steps", True),
        ([1, 2], [2, 1], "steps", False), (["", 2], [None, 2], "steps", True),
    ],
)  # fmt: skip
def test_two_values_say_the_same(one: Any, other: Any, reading: str, alike: bool) -> None:
    asked = Asked(next(e for e in CHECK.expect if e.id == reading), "metric")
    assert same(one, other, asked) is alike
    assert same(other, one, asked) is alike
