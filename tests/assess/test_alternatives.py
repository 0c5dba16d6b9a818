"""Of readings of which one suffices, the others aren't waited for once one way is done."""

from __future__ import annotations

from pathlib import Path

import pytest

from plangen.assess.assess import assess_findings
from plangen.findings.read import read_findings
from plangen.packs.library import load_library
from plangen.packs.lint import check_own
from plangen.plan.draft import draft_plan
from plangen.plan.model import Plan
from plangen.print.carried.lines import line_of
from tests.conftest import shipped, spec_from

SPEC = """vessel: {name: X, hull: sailing-monohull, length_hull: 14 m, condition: used, built: 2000}
trial: {date: 2027-05-01, air_temperature: 20 °C}
tender: {inflatable: true, tube_pressure: 240 mbar}
deck: {lifts: [{name: davits, kind: davits, safe_working_load: 200 kg}]}
engines: {power: 40 kW, fuel: diesel, hours: 6000 h, drive: shaft}
"""
PLAN: Plan = draft_plan(spec_from(SPEC), shipped()).plan


def verdict(check: str, found: str) -> str:
    text = f"boat: X\nplan: {PLAN.digest}\nunits: metric\nchecks:\n  {check}:\n    - found: {found}\n"
    assessment = assess_findings(PLAN, read_findings(text, "findings.yaml", PLAN))
    return next(one.verdict for one in assessment.checks if one.id == check)


#: Check, what was found, and what it comes to.
CASES = [
    ("tender-air@tender", "{lost-in-an-hour: 1, leaking-chambers: 0}", "pass"),
    ("tender-air@tender", "{lost-in-an-hour: 9, leaking-chambers: 0}", "fail"),
    ("tender-air@tender", "{pressure-by-temperature: [null, 236, null], leaking-chambers: 0}", "pass"),
    ("tender-air@tender", "{pressure-by-temperature: [null, 36, null], leaking-chambers: 0}", "fail"),
    ("tender-air@tender", "{leaking-chambers: 0}", "not-done"),
    ("tender-air@tender", "{lost-in-an-hour: 9, pressure-by-temperature: [null, 236, null], leaking-chambers: 0}", "fail"),
    ("lift-proof-load@davits", "{certificate: yes}", "pass"),
    ("lift-proof-load@davits", "{certificate: no}", "fail"),
    ("lift-proof-load@davits", "{proof-mass: 250, bend-left: yes, slip: yes}", "pass"),
    ("lift-proof-load@davits", "{proof-mass: 250, bend-left: yes}", "not-done"),
    ("lift-proof-load@davits", "{proof-mass: 100, bend-left: yes, slip: yes}", "limited"),
    ("lift-proof-load@davits", "{proof-mass: 100, bend-left: yes, slip: yes, certificate: yes}", "pass"),
    ("engine-compression@engine", "{below-highest: 5, against-standard: 94}", "pass"),
    ("engine-compression@engine", "{below-highest: 5}", "not-done"),
    ("engine-compression@engine", "{leak-down: 9}", "pass"),
]  # fmt: skip


@pytest.mark.parametrize(("check", "found", "wanted"), CASES)
def test_one_way_that_is_done_finishes_the_check(check: str, found: str, wanted: str) -> None:
    assert verdict(check, found) == wanted


def test_the_sheet_says_either_and_or() -> None:
    check = PLAN.check("lift-proof-load@davits")
    assert check is not None
    words = [cell.words.casefold() for cell in line_of(check, PLAN, {check.rule: "M1"}, None).cells]
    assert words[1].startswith("either certificate")
    assert words[2].startswith("or no bend")
    assert words[3] == "no slip or jerk"


def test_alternatives_of_which_the_boat_leaves_one_are_none() -> None:
    plan = draft_plan(spec_from(SPEC.replace(", safe_working_load: 200 kg", "")), shipped()).plan
    check = plan.check("lift-proof-load@davits")
    assert check is not None
    assert {one.one_of for one in check.expect} == {"proof"}
    plan = draft_plan(spec_from(SPEC.replace("length_hull: 14 m", "length_hull: 8 m")), shipped()).plan
    horn = next((one for one in plan.checks if one.rule.endswith("/horn-level")), None)
    assert horn is None or all(one.one_of is None for one in horn.expect)


RULE = """pack: own
title: Own
edition: 2026-11
checks:
  - id: own-check
    title: Own
    setting: alongside
    procedure: [Look.]
    expect:
      - {id: short, reading: short test, is: "yes", one_of: tests}
      - {id: long, reading: long test, is: "yes", one_of: tests}
"""
FAULTS = {
    ("one_of: tests}\n      - {id: long", "one_of: test}\n      - {id: long"): "with one way only",
    (', one_of: tests}\n      - {id: long', ', way: x}\n      - {id: long'): "a way of no group",
    ('is: "yes", one_of: tests}\n      - {id: long', 'is: "yes", any_point: true, one_of: tests}\n      - {id: long'): "any_point of one reading",
}  # fmt: skip


def test_alternatives_that_are_none_are_faults_of_the_pack(write) -> None:
    for number, change in enumerate(FAULTS):
        assert change[0] in RULE
        own = RULE.replace(*change).replace("own", f"own-{number}")
        write(f"mine/own-{number}.yaml", own)
    library = load_library([write("mine/own.yaml", RULE).parent], jurisdictions=[])
    said = [(Path(problem.mark.file).stem, problem.found) for problem in check_own(library)]
    assert {pack for pack, _ in said} == {f"own-{number}" for number in range(len(FAULTS))}
    for number, words in enumerate(FAULTS.values()):
        assert any(pack == f"own-{number}" and words in found for pack, found in said)
