"""Findings stay word for word when the plan is drafted anew."""

from __future__ import annotations

from plangen.findings.blank import findings_text
from plangen.findings.carry import carry
from plangen.findings.read import read_findings
from tests.assess.building import check, expectation
from tests.collect.forms import CHECKS, small_plan
from tests.conftest import drafted, faults

TYPED = f"""# mine
boat: Tern   # hers
plan: {"a" * 64}
# before the checks
checks:
  #: expect something
  rest@house:
    # the clamp meter was used
    - found:
        resting-voltage: 12.70   # after the night
        terminals-tight: yes
      note: |
        # no comment, but text
        second line
  gauge@tank:
    # ask for the dip stick
    - found:
        gauge-at-quarters: []
  coolant@engine:
  - found: {{coolant: "1,200"}}
snags:
  # agreed on the phone
  rest@house: {{who: yard, settlement: disputed}}
remarks:
  - rain
"""


def test_the_same_plan_keeps_every_line_that_was_typed() -> None:
    plan = small_plan()
    carried = carry(TYPED, "findings.yaml", plan, plan)
    for line in TYPED.splitlines():
        if line.strip() and not line.lstrip().startswith("#:") and not line.startswith(("boat:", "plan:")):
            assert line in carried.text.splitlines()
    assert carried.kept == ("rest@house", "coolant@engine")
    assert (carried.apart, carried.second_look) == ((), ())
    before, after = (read_findings(text, "x", plan) for text in (TYPED, carried.text))
    assert before.attempts("rest@house") == after.attempts("rest@house")
    assert (before.snags, before.remarks) == (after.snags, after.remarks)
    assert carry(carried.text, "x", plan, plan).text == carried.text


def test_blank_findings_carry_to_blank_findings() -> None:
    plan = small_plan()
    assert carry(findings_text(plan), "x", plan, plan).text == findings_text(plan)


def test_a_check_that_is_gone_is_kept_apart_and_comes_back() -> None:
    full, less = small_plan(), small_plan(*CHECKS[1:], digest="b" * 64)
    gone = carry(TYPED, "x", full, less)
    assert gone.apart == ("rest@house",)
    assert "resting-voltage: 12.70   # after the night" in gone.text
    assert read_findings(gone.text, "x", less).snags["rest@house"].settlement == "disputed"
    back = carry(gone.text, "x", less, full)
    assert (back.apart, back.kept) == ((), ("rest@house", "coolant@engine"))
    assert read_findings(back.text, "x", full).attempts("rest@house") == read_findings(
        TYPED, "x", full
    ).attempts("rest@house")


def test_what_is_apart_stays_beside_what_was_filled_since() -> None:
    plan = small_plan()
    text = TYPED + "apart:\n  rest@house:\n    - found: {volts: 12.1}\n"
    carried = carry(text, "x", plan, small_plan(*CHECKS[1:], digest="b" * 64))
    assert set(carried.apart) == {"rest@house", "rest@house~2"}
    assert "volts: 12.1" in carried.text
    assert "12.70" in carried.text


def test_another_expectation_asks_for_a_second_look_and_keeps_what_was_read() -> None:
    other = check("rest@house", expectation("rest voltage", unit="V", low=12.6), setting="alongside")
    after = small_plan(other, *CHECKS[1:], digest="b" * 64)
    for before in (small_plan(), None):
        carried = carry(TYPED, "x", before, after)
        assert carried.second_look == ("rest@house",)
        (attempt,) = read_findings(carried.text, "x", after).attempts("rest@house")
        assert attempt.values == {"resting-voltage": 12.7, "terminals-tight": "yes"}


def test_findings_that_cannot_be_read_or_carried_are_a_fault() -> None:
    plan = small_plan()
    assert "not valid YAML" in faults(lambda: carry("boat: [", "x", plan, plan))[0].found
    one_line = "boat: Tern\nplan: x\nchecks: {rest@house: [{note: a}], gauge@tank: [{note: b}]}\n"
    assert "carried" in faults(lambda: carry(one_line, "x", plan, plan))[0].found


def test_what_nobody_typed_into_comes_out_as_the_long_way_gives_it() -> None:
    """A comma more in a line of ours is no change of the user's, and makes sure that the file is read."""
    plans = [
        drafted("monohull.yaml").plan,
        drafted("survey/sloop-1988.yaml").plan,
        drafted("yard/hull-101.yaml").plan,
    ]
    plans.append(plans[0].model_copy(update={"units": "us"}))
    for before in plans:
        blank = findings_text(before)
        touched = blank.replace("#:", "#:,", 1)
        assert touched != blank
        for after in plans:
            assert carry(blank, "findings.yaml", before, after) == carry(
                touched, "findings.yaml", before, after
            )
            assert carry(blank, "findings.yaml", before, after).text == findings_text(after)
