"""The as-built register: what the spec states of a plate against what was read, from every kind of reading that asks."""

from __future__ import annotations

import csv
import io
from functools import cache

import pytest
from ruamel.yaml import YAML

from plangen.assess.as_built import AsBuiltLine, as_built_of
from plangen.assess.assess import assess_findings
from plangen.assess.model import Assessment
from plangen.findings.read import read_findings
from plangen.plan.draft import draft_plan
from plangen.plan.model import Plan
from plangen.print.as_built import as_built_document, as_built_files
from plangen.spec.model.base import Equipment
from plangen.spec.references import walk
from tests.conftest import SPECS, drafted, shipped, spec_from

FOUND = SPECS / "yard-trial" / "hull-101" / "findings.yaml"


@cache
def hull_101() -> tuple[Plan, Assessment]:
    """The commissioning of the yard's first hull, as far as it went."""
    plan = drafted("yard/hull-101.yaml").plan
    return plan, assess_findings(plan, read_findings(FOUND.read_text("utf-8"), FOUND.name, plan))


def line(item: str) -> AsBuiltLine:
    return next(one for one in as_built_of(*hull_101()) if one.item == item)


def test_what_agrees_differs_is_only_read_or_has_no_plate() -> None:
    assert line("port engine").state == "as-specified"
    engine = line("starboard engine")
    assert (engine.state, engine.different) == ("differs", ("serial",))
    assert (engine.expected["serial"], engine.found["serial"]) == ("235-1189", "235-1198")
    assert (engine.by, engine.when) == ("RB", "2027-03-09")
    assert line("bow thruster").state == "read"
    assert line("steering compass").state == "no-plate"
    assert line("hob").state == "not-read"


def test_another_number_than_the_papers_say_is_a_snag() -> None:
    snags = {snag.check: snag for snag in hull_101()[1].snags}
    assert "serial number 235-1198, where the spec has 235-1189" in str(
        [
            reading.reason
            for check in hull_101()[1].checks
            if check.id == "engine-plate@starboard-engine"
            for attempt in check.attempts
            for reading in attempt.readings
        ]
    )
    assert "engine-plate@starboard-engine" in snags
    assert "engine-plate@port-engine" not in snags


def test_every_piece_of_equipment_with_a_plate_is_asked_once_at_a_commissioning() -> None:
    plan = hull_101()[0]
    asked = [
        check.item
        for check in plan.checks
        for expected in check.expect
        if expected.record in ("plate", "serial-number") and expected.id != "serial-numbers"
    ]
    assert len(asked) == len(set(asked))
    spec = drafted("yard/hull-101.yaml").facts.spec
    without = {"Bilge", "ThroughHull", "ShoreInlet", "Anchor"}
    things = {
        section.name
        for _, section in walk(spec)
        if isinstance(section, Equipment) and type(section).__name__ not in without
    }
    assert things == set(asked)


def test_who_buys_a_boat_has_a_register_of_the_serial_numbers_that_are_asked_for() -> None:
    spec = "vessel: {name: Tern, hull: motor-planing, length_hull: 7 m}\nrefrigeration: 1\nradio: {sets: [{name: VHF, kind: vhf, maker: Somebody}]}\n"
    plan = draft_plan(spec_from(spec), shipped()).plan
    assert not [check for check in plan.checks if check.rule.startswith("as-built/")]
    items = {one.item: one for one in plan.as_built}
    (asked,) = items["cold box"].readings
    text = (
        f"boat: Tern\nplan: {plan.digest}\nchecks:\n  {asked.check}:\n    - found: {{serial-number: 00123}}\n"
    )
    lines = as_built_of(plan, assess_findings(plan, read_findings(text, "findings.yaml", plan)))
    by_item = {one.item: one for one in lines}
    assert (by_item["cold box"].state, by_item["cold box"].found) == ("read", {"serial": "00123"})
    assert (by_item["VHF"].state, by_item["VHF"].expected) == ("not-read", {"maker": "Somebody"})


@pytest.mark.parametrize("hostile", ["=1+1", "+cmd", "@sum", "-2+3", "ok; =1+1"])
def test_no_cell_of_the_register_is_a_formula(hostile: str) -> None:
    plan, assessment = hull_101()
    lines = [
        one.model_copy(update={"item": hostile, "found": {"serial": hostile}})
        for one in as_built_of(plan, assessment)
    ]
    text = as_built_files(plan, lines)["as-built.csv"].decode("utf-8-sig")
    for row in csv.reader(io.StringIO(text)):
        for cell in row:
            assert not cell.startswith(("=", "+", "@", "-"))
            assert "; =" not in cell


def test_the_register_is_the_same_as_data_table_and_page() -> None:
    plan, assessment = hull_101()
    lines = as_built_of(plan, assessment)
    files = as_built_files(plan, lines)
    read = YAML(typ="safe").load(files["as-built.yaml"])
    assert (read["boat"], read["hull_id"], len(read["items"])) == ("Hull 101", "FR-PTN00101B727", len(lines))
    rows = list(csv.DictReader(io.StringIO(files["as-built.csv"].decode("utf-8-sig"))))
    assert [row["item"] for row in rows] == [one.item for one in lines]
    html = as_built_document(plan, lines).html
    for one in lines:
        for found in one.found.values():
            assert found in html
    assert '<td class="ordered">235-1189' not in html
