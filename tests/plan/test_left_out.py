"""Nothing that matters vanishes unsaid: what a spec of a few lines leaves out is assumed, asked and named."""

from __future__ import annotations

from functools import cache

import pytest

from plangen.plan.draft import Draft, draft_plan
from plangen.spec.hull_types import HULL_TYPES
from tests.conftest import shipped, spec_from

FEW_LINES = """
vessel:
  name: A few lines
  hull: {hull}
  condition: {condition}
  built: {built}
  length_hull: {length}
use:
  registry: netherlands
  night: true
trial:
  date: 2027-05-04
{more}
"""

#: What surveyors' published check lists look at on any boat with an inboard engine, whatever her hull: seacocks, engine and
#: its cooling, shaft or leg, steering, bilge pumps, batteries and their fuses, shore power, lights, anchor, extinguishers.
#: (Outline of survey headings, as in ABYC and SAMS buyers' guides and any printed pre-purchase survey.)
ANY_BOAT = (
    "through-hull-inventory", "seacock-shuts-off", "engine-cold-look", "engine-cold-start", "engine-raw-water", "exhaust-layout",
    "engine-oil-alarm", "engine-stop", "gear-shift", "steering-gear", "rudder-bearings", "bilge-dry-baseline",
    "bilge-pump-delivery", "bilge-float-switch", "battery-identity", "dc-main-fuse", "dc-fuse-place", "alternator-voltage",
    "shore-polarity", "residual-current-button", "light-switch-logic", "anchor-identity", "extinguisher-condition", "vhf-test-call",
    "fuel-hoses", "fuel-tank-sample", "head-flush-volume", "speed-runs", "full-throttle-run", "hull-bottom-sounding",
)  # fmt: skip
SAILING_BOAT = ("rig-wire", "rig-chainplates", "sail-hoist", "gas-locker-drain", "gas-low-pressure-tightness")


@cache
def few_lines(
    hull: str, condition: str = "used", length: str = "11.5 m", built: int = 2004, more: str = ""
) -> Draft:
    text = FEW_LINES.format(hull=hull, condition=condition, length=length, built=built, more=more)
    return draft_plan(spec_from(text), shipped())


def rules_of(draft: Draft) -> set[str]:
    """Return the ids of the rules in the plan, those that they had before included."""
    return {id for one in draft.checks for id in (one.rule.id, *one.rule.formerly)}


@pytest.mark.parametrize("condition", ["new", "used"])
@pytest.mark.parametrize("hull", HULL_TYPES)
def test_a_few_lines_give_what_any_such_boat_needs(hull: str, condition: str) -> None:
    wanted = [*ANY_BOAT, *(SAILING_BOAT if hull.startswith("sailing-") else ())]
    assert [rule for rule in wanted if rule not in rules_of(few_lines(hull, condition))] == []


@pytest.mark.parametrize("hull", HULL_TYPES)
def test_each_engine_has_intake_and_exhaust_and_each_head_its_own(hull: str) -> None:
    draft = few_lines(hull)
    spec = draft.facts.spec
    purposes = [opening.purpose for opening in spec.through_hulls]
    assert len(spec.engines) == (2 if "catamaran" in hull else 1)
    assert purposes.count("engine-intake") == purposes.count("exhaust") == len(spec.engines)
    assert purposes.count("head-intake") == purposes.count("head-discharge") == len(spec.heads) >= 1
    seacocks = {check.item for check in draft.plan.checks if check.rule.endswith("/seacock-shuts-off")}
    assert {opening.name for opening in spec.through_hulls if opening.seacock} <= seacocks


def test_the_keel_of_a_monohull_whose_spec_does_not_name_it_is_looked_at_and_asked() -> None:
    draft = few_lines("sailing-monohull", built=2009)
    assert "keel-joint" in rules_of(draft)
    asked = {question.key: question for question in draft.plan.questions}
    assert asked["vessel.keel"].assumed == "bolted"


@pytest.mark.parametrize("hull", HULL_TYPES)
def test_what_is_inferred_is_marked_assumed_and_asked_first(hull: str) -> None:
    draft = few_lines(hull)
    questions = draft.plan.questions
    has = [question.key for question in questions if question.has]
    assert [question.key for question in questions][: len(has)] == has
    assert {"through_hulls", "bilges", "dc.banks", "deck.anchors", "navigation.lights"} <= set(has)
    openings = next(question for question in questions if question.key == "through_hulls")
    assert openings.assumed
    assert "engine intake" in openings.assumed
    by_key = {read.key: read.origin for one in draft.checks for read in one.condition_reads}
    assert {origin for key, origin in by_key.items() if key.startswith("through_hulls[")} <= {
        "assumed",
        "default",
        "missing",
    }


def test_what_no_such_boat_must_have_is_named_as_not_in_the_plan() -> None:
    plan = few_lines("motor-displacement").plan
    left_out = {line.section: line for line in plan.not_in_plan}
    assert {"ac.generators", "watermakers", "tender", "alarms", "fire_protection.fixed_systems"} <= set(
        left_out
    )
    assert left_out["ac.generators"].rules
    assert left_out["ac.generators"].title == "generator"
    assert "rig" not in left_out
    assert {line.section for line in plan.not_in_plan} <= {q.key for q in plan.questions if q.has}


def test_no_is_an_answer() -> None:
    more = "gas: false\nwatermakers: false\nheads: false\nsteering: false\ntender: false\nac: false\nthrusters: false"
    draft = few_lines("sailing-monohull", more=more)
    said = ("gas", "watermakers", "heads", "steering", "tender", "ac", "thrusters")
    assert [q.key for q in draft.plan.questions if q.key.partition(".")[0].partition("[")[0] in said] == []
    assert [line.section for line in draft.plan.not_in_plan if line.section.partition(".")[0] in said] == []
    gone = {"gas-locker-drain", "steering-gear", "head-flush-volume", "shore-polarity"}
    assert rules_of(draft) & gone == set()
    assert [o.name for o in draft.facts.spec.through_hulls if "head" in o.name] == []


def test_what_the_spec_names_is_left_as_it_is() -> None:
    more = "through_hulls: [{name: the only one, purpose: engine-intake}]\nengines: {name: iron sail, power: 20 kW, drive: shaft}"
    spec = few_lines("sailing-monohull", more=more).facts.spec
    assert [opening.name for opening in spec.through_hulls] == ["the only one"]
    assert [engine.name for engine in spec.engines] == ["iron sail"]


def test_a_key_left_blank_is_not_said() -> None:
    blank = few_lines("sailing-monohull", more="gas:\nbilges:\n")
    assert {"gas", "bilges"} <= set(blank.facts.inferred)
