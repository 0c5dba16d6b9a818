"""What a retest asks for: what failed, what is undecided, and what counts no more because of it."""

from __future__ import annotations

from typing import Any

import pytest

from plangen.assess.assess import assess_findings
from plangen.assess.retest import Again, retest_of
from plangen.plan.model import Plan, PlannedCheck
from tests.assess.building import check, expectation, findings, instrument, plan

LEVEL = expectation("level", unit="L", low=100.0, instrument="meter", shown="≥ 100 L")
TIGHT = expectation("tight", text="yes", shown="yes")
BOAT: tuple[PlannedCheck, ...] = (
    check("fill@tank", LEVEL, TIGHT, wets="bow"),
    check("gauge@tank", expectation("gauge", text="yes", shown="yes"), after=("fill@tank",)),
    check("pump@galley", expectation("runs", text="yes", shown="yes"), after=("fill@tank",)),
    check("look@bilge", expectation("dry", text="yes", shown="yes"), after=("fill@tank",), looks_after_wet=("bow",)),
    check("look@lazarette", expectation("dry", text="yes", shown="yes"), after=("fill@tank",), looks_after_wet=("stern",)),
    check("later@tank", expectation("there", text="yes", shown="yes"), after=("fill@tank",)),
)  # fmt: skip
GOOD: dict[str, Any] = {
    "fill@tank": {"level": 120, "tight": "yes"},
    "gauge@tank": {"gauge": "yes"},
    "pump@galley": {"runs": "yes"},
    "look@bilge": {"dry": "yes"},
    "look@lazarette": {"dry": "yes"},
}


def boat() -> Plan:
    return plan(*BOAT, kit=[instrument("meter", unit="L", accuracy_fixed=2.0)])


def again(changes: dict[str, Any], snags: dict[str, Any] | None = None) -> dict[str, Again]:
    done = assess_findings(boat(), findings({**GOOD, **changes}, snags))
    return {one.check.id: one for one in retest_of(boat(), done).again}


def test_nothing_failed_and_nothing_is_asked() -> None:
    assert again({}) == {}


def test_what_failed_and_what_depends_on_it() -> None:
    """The gauge of the same tank and the look where it wetted; not the pump of another item, nor what nobody did."""
    asked = again({"fill@tank": {"level": 50, "tight": "yes"}})
    assert {id: one.why for id, one in asked.items()} == {
        "fill@tank": "failed",
        "gauge@tank": "depends",
        "look@bilge": "depends",
    }
    assert asked["gauge@tank"].because == asked["look@bilge"].because == ("fill@tank",)


def test_only_what_was_bad_is_read_again() -> None:
    asked = again({"fill@tank": {"level": 50, "tight": "yes"}})["fill@tank"]
    assert (asked.readings, asked.tried, asked.number) == (("level",), 1, 1)


def test_what_was_left_blank_is_asked_too() -> None:
    assert again({"fill@tank": {"level": 50}})["fill@tank"].readings == ("level", "tight")


def test_what_is_undecided_is_asked_without_its_dependants() -> None:
    asked = again({"fill@tank": {"level": 101, "tight": "yes"}})
    assert {id: one.why for id, one in asked.items()} == {"fill@tank": "undecided", "look@bilge": "depends"}


@pytest.mark.parametrize(
    ("way", "is_asked"),
    [("accepted", False), ("price-reduced", False), ("mended-before-handover", True), ("disputed", True)],
)
def test_what_is_settled_as_it_is_needs_no_retest(way: str, is_asked: bool) -> None:
    asked = again({"fill@tank": {"level": 50, "tight": "yes"}}, {"fill@tank": {"settlement": way}})
    assert ("fill@tank" in asked) == is_asked
    assert bool(asked) == is_asked


def test_a_mended_snag_is_out_and_counted_as_settled() -> None:
    mended = [{"found": {"level": 50, "tight": "yes"}}, {"found": {"level": 120}}]
    done = assess_findings(boat(), findings({**GOOD, "fill@tank": mended}))
    found = retest_of(boat(), done)
    assert (found.again, found.snags, found.settled) == ((), 1, 1)


def test_where_two_disagree_all_is_read_again() -> None:
    two = [
        {"found": {"level": 120, "tight": "yes"}, "by": "A"},
        {"found": {"level": 50}, "by": "B", "beside": 1},
    ]
    assert again({"fill@tank": two})["fill@tank"].readings == ("level", "tight")


def test_the_condition_of_a_reading_is_asked_with_it() -> None:
    wind = expectation("wind", unit="kn", low=10.0, high=14.0, condition=True, shown="10–14 kn")
    speed = expectation("speed", unit="kn", low=5.0, valid_if=("wind",), shown="≥ 5 kn")
    sail = plan(check("sail@rig", wind, speed, expectation("quiet", text="yes", shown="yes")))
    done = assess_findings(sail, findings({"sail@rig": {"wind": 12, "speed": 4, "quiet": "yes"}}))
    (only,) = retest_of(sail, done).again
    assert only.readings == ("wind", "speed")
