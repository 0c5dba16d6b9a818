"""The plan: stable ids, limits with their basis, order, questions, determinism."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import plangen
from plangen.packs.library import Library, load_library
from plangen.plan.draft import draft_plan
from plangen.plan.model import Plan
from plangen.plan.yaml_text import yaml_text
from plangen.spec.model import Spec
from plangen.spec.names import slug
from plangen.spec.references import items_at
from plangen.spec.shape import item_lists
from plangen.spec.yaml_source import LARGEST_DERIVED_FILE, read_yaml
from tests.conftest import drafted, shipped, spec_from

READY = ["catamaran.yaml", "monohull.yaml", "yard/model.yaml", "yard/hull-101.yaml", "yard/hull-102.yaml"]


@pytest.mark.parametrize("name", READY)
def test_ids_are_unique_and_name_their_rule(name: str) -> None:
    checks = drafted(name).plan.checks
    assert [id for id, count in Counter(check.id for check in checks).items() if count > 1] == []
    assert all(check.rule.endswith("/" + check.id.partition("@")[0]) for check in checks)


@pytest.mark.parametrize("name", READY)
def test_the_order_respects_what_must_come_first(name: str) -> None:
    done: set[str] = set()
    for check in drafted(name).plan.checks:
        assert set(check.after) <= done, check.id
        done.add(check.id)


def test_the_catamaran_is_fully_planned() -> None:
    checks = drafted("catamaran.yaml").plan.checks
    numeric = [check for check in checks if any(e.numeric for e in check.expect)]
    assert len(checks) >= 450
    assert len(numeric) >= 200
    assert all(e.source.id and e.basis for check in checks for e in check.expect)


@pytest.mark.parametrize("name", READY)
def test_every_item_of_equipment_is_in_a_check(name: str) -> None:
    draft = drafted(name)
    assert uncovered(draft.plan, draft.facts.spec) == []


def uncovered(plan: Plan, spec: Spec) -> list[str]:
    """Return the items of the spec that no check is about."""
    about = {check.id.partition("@")[2] for check in plan.checks} | {
        slug(check.item) for check in plan.checks
    }
    texts = " ".join(
        text
        for check in plan.checks
        for text in (check.title, check.item, *check.procedure, *(e.reading for e in check.expect))
    )
    return [
        f"{path}: {item.name}"
        for path in item_lists(Spec)
        if path != "zones"
        for item in items_at(spec, path)
        if slug(item.name) not in about and item.name not in texts
    ]


def test_ids_stay_when_unrelated_equipment_is_added() -> None:
    base = "vessel: {name: X, hull: sailing-monohull, length_hull: 11 m}\nengines: 1\nheads: 1\ntanks: [{name: water, holds: fresh, capacity: 200 L}]\n"
    library = shipped()
    before = {check.id for check in draft_plan(spec_from(base), library).plan.checks}
    more = (
        base.replace("heads: 1", "heads: [head, {name: aft head}]")
        + "watermaker: true\ntender: true\ngas: true\n"
    )
    after = {check.id for check in draft_plan(spec_from(more), library).plan.checks}
    gone = before - after
    assert len(before & after) > 0.95 * len(before)
    assert not any("@water" in id or "@engine" in id for id in gone)


def test_a_promise_beats_the_computed_value_and_both_are_shown() -> None:
    speed = [
        e
        for check in drafted("catamaran.yaml").plan.checks
        for e in check.expect
        if e.basis == "contract" and e.computed is not None and e.unit == "kn"
    ]
    assert speed
    promised, tolerance = 8.8, 0.05  # contract.speed_at_rated and contract.speed_tolerance of the spec
    assert any(e.low == pytest.approx(promised * (1 - tolerance), abs=0.05) for e in speed)


def test_what_the_spec_leaves_out_gives_no_number_but_a_question() -> None:
    text = (
        "vessel: {name: X, hull: sailing-monohull, length_hull: 11 m}\ntanks: [{name: water, holds: fresh}]\n"
    )
    plan = draft_plan(spec_from(text), shipped()).plan
    assert any(question.key == "tanks[1].capacity" for question in plan.questions)
    notes = [
        e
        for check in plan.checks
        for e in check.expect
        if e.note and "doesn't give tanks[1].capacity" in e.note
    ]
    assert notes
    assert all(e.value is None and e.low is None and e.high is None for e in notes)


def test_questions_come_by_weight() -> None:
    questions = drafted("monohull.yaml").plan.questions
    first = [len(question.checks) + len(question.adds) for question in questions if question.has]
    then = [question.expected_values + len(question.adds) for question in questions if not question.has]
    assert [question.has for question in questions] == [True] * len(first) + [False] * len(then)
    assert first == sorted(first, reverse=True)
    assert then == sorted(then, reverse=True)


def test_assumed_values_are_marked_and_explained() -> None:
    plan = draft_plan(
        spec_from(
            "vessel: {name: X, hull: sailing-monohull, length_hull: 11 m}\nengines: {count: 1, fuel: diesel, power: 30 kW}"
        ),
        shipped(),
    ).plan
    keys = {line.key for line in plan.assumed}
    assert "vessel.length_waterline" in keys
    assert all(line.why and line.source for line in plan.assumed)
    assert keys <= {question.key for question in plan.questions}


@pytest.mark.parametrize("units", ["metric", "us", "both"])
def test_units_change_what_is_shown_and_not_the_values(units: str) -> None:
    text = "vessel: {name: X, hull: sailing-monohull, length_hull: 11 m}\ntanks: [{name: water, holds: fresh, capacity: 200 L}]\n"
    plan = draft_plan(spec_from(text), shipped(), units).plan  # type: ignore[arg-type]
    readings = [
        e
        for check in plan.checks
        for e in check.expect
        if check.item == "water" and e.unit == "L" and e.numeric
    ]
    assert readings
    assert all(("gal" in e.shown) == (units != "metric") for e in readings)


def test_the_plan_reads_back_from_its_yaml() -> None:
    plan = drafted("yard/hull-102.yaml").plan
    again = Plan.model_validate(
        read_yaml(yaml_text(plan.plain(), "x"), "plan.yaml", LARGEST_DERIVED_FILE).plain()
        | {"digest": plan.digest}
    )
    assert [check.id for check in again.checks] == [check.id for check in plan.checks]
    assert again.summary == plan.summary


def test_another_spec_has_another_digest() -> None:
    digests = {drafted(name).plan.short_digest for name in READY}
    assert len(digests) == len(READY)


def test_hostile_names_are_only_text() -> None:
    name = "<script>alert(1)</script> {{ vessel.__class__ }} {% raw %}"
    plan = draft_plan(
        spec_from(
            f'vessel: {{name: "{name}", hull: motor-planing, length_hull: 9 m}}\nheads: [{{name: "{{{{ 1 / 0 }}}}"}}]'
        ),
        shipped(),
    ).plan
    assert plan.boat.name == name
    assert any(check.item == "{{ 1 / 0 }}" for check in plan.checks)


LISTS = {
    "engines": [
        "{fuel: diesel, power: 40 kW}",
        "{count: 2, fuel: petrol, drive: outboard}",
        "{fuel: electric}",
    ],
    "heads": ["1", "{count: 3, flush: electric, shower: true}"],
    "tanks": [
        "{name: a, holds: fuel}",
        "{name: b, holds: black, capacity: 90 L}",
        "{name: c, holds: fresh, capacity: 300 L}",
        "{name: d, holds: grey}",
    ],
    "watermakers": ["1", "{rated_flow: 60 L/h}"],
    "bilges": ["2", "{pump_flow: 30 L/min, float_switch: true}"],
    "refrigeration": ["1", "{kind: freezer}"],
    "thrusters": ["{place: bow}", "{place: stern, drive: hydraulic}"],
    "stabilisers": ["{kind: fins}", "{kind: tabs}"],
    "laundry": ["1", "{kind: drier}"],
    "alarms": ["{kind: smoke}", "{kind: carbon-monoxide}", "{kind: anchor}"],
    "through_hulls": ["{purpose: drain}", "{purpose: transducer, seacock: false}"],
    "dc": [
        "{banks: 1}",
        "{banks: {chemistry: gel, capacity: 200 Ah, use: house}, solar: {power: 300 W}, wind: 1, inverters: 1, chargers: {output: 40 A}, converters: 1}",
    ],
    "ac": [
        "true",
        "{generators: 1, shore_inlets: 2}",
        "{system: 120/240 V 60 Hz, generators: {power: 8 kW}}",
    ],
    "climate": ["{air_conditioners: 2, heaters: {kind: diesel-air}}"],
    "galley": ["{appliances: [{kind: cooker, energy: gas}, {kind: microwave}, {kind: dishwasher}]}"],
    "fresh_water": ["{pumps: 1, heaters: 1}", "{pumps: {count: 2, flow: 12 L/min}}"],
    "deck": ["{anchors: 1, windlasses: 1, lifts: {kind: davits}, covers: 2}", "{lifts: {kind: crane}}"],
    "radio": ["{sets: [{kind: vhf}, {kind: epirb}, {kind: navtex}]}"],
    "navigation": ["{instruments: [{kind: radar}, {kind: compass}, {kind: autopilot}, {kind: barometer}]}"],
    "entertainment": ["{units: {kind: television}}"],
    "fire_protection": ["{extinguishers: 2, fixed_systems: 1}"],
    "gas": ["true", "{kind: propane, cylinders: 2}"],
    "tender": ["true"],
    "use": [
        "{registry: us-federal, waters: [us-federal, france]}",
        "{registry: france, distance_from_shelter: 3 nmi}",
    ],
    "trial": ["{date: 2027-06-01, place: {latitude: 50 °}, water_temperature: 12 °C}"],
}


@st.composite
def specs(draw: st.DrawFn) -> str:
    """Write specs of all hull types with any equipment."""
    hull = draw(
        st.sampled_from(
            [
                "sailing-monohull",
                "sailing-catamaran",
                "sailing-trimaran",
                "motor-displacement",
                "motor-semi-displacement",
                "motor-planing",
                "motor-catamaran",
            ]
        )
    )
    length = draw(st.floats(min_value=4, max_value=23))
    condition = draw(st.sampled_from(["new", "used"]))
    lines = [f"vessel: {{name: X, hull: {hull}, length_hull: {length:.2f} m, condition: {condition}}}"]
    for key in draw(st.lists(st.sampled_from(sorted(LISTS)), unique=True, max_size=12)):
        lines.append(f"{key}: {draw(st.sampled_from(LISTS[key]))}")
    if hull.startswith("sailing") and draw(st.booleans()):
        lines.append("rig: {sails: [{kind: mainsail}, {kind: genoa}], winches: 2}")
    return "\n".join(lines)


@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(specs())
def test_any_spec_gives_a_sound_plan(text: str) -> None:
    loaded = spec_from(text)
    plan = draft_plan(loaded, shipped()).plan
    ids = [check.id for check in plan.checks]
    assert len(ids) == len(set(ids))
    done: set[str] = set()
    for check in plan.checks:
        assert set(check.after) <= done
        done.add(check.id)
    assert uncovered(plan, loaded.spec) == []
    for check in plan.checks:
        for e in check.expect:
            assert e.low is None or e.high is None or e.low <= e.high, (check.id, e)
            assert e.value is None or e.low is None or e.low <= e.value, (check.id, e)
            assert e.value is None or e.high is None or e.value <= e.high, (check.id, e)


def test_no_check_names_equipment_that_is_not_there() -> None:
    """A bare boat has no checks of what only fitted equipment has."""
    plan = draft_plan(spec_from("vessel: {name: X, hull: motor-planing, length_hull: 6 m}"), shipped()).plan
    absent = {
        "watermaker",
        "gas",
        "generator",
        "inverter",
        "thrusters",
        "stabilisers",
        "laundry",
        "rig-and-sails",
        "tender",
        "radio",
        "refrigeration",
        "lifting",
    }
    assert absent & {check.system for check in plan.checks} == set()


def test_law_packs_alone_are_left_out_when_not_named() -> None:
    library: Library = load_library(jurisdictions=[])
    assert {pack.model.kind for pack in library.law} <= {"international", "builder"}


def test_a_hull_names_the_specs_below_hers(tmp_path: Path) -> None:
    (tmp_path / "model.yaml").write_text(
        "vessel: {hull: motor-planing, length_hull: 9 m}\n", encoding="utf-8"
    )
    (tmp_path / "radar.yaml").write_text("extends: model.yaml\nheads: 1\n", encoding="utf-8")
    hull = tmp_path / "hull.yaml"
    hull.write_text("extends: [model.yaml, radar.yaml]\nvessel: {name: One}\n", encoding="utf-8")
    assert plangen.draft(plangen.load_spec(hull)).boat.layers == ("model", "radar")
