"""The figures that a rule has worked out of its readings: each fault is said, and the plan carries what is right."""

from __future__ import annotations

import pytest

from plangen.packs.library import load_library
from plangen.packs.lint import check_library
from plangen.plan.draft import draft_plan
from plangen.plan.model import ReadingPlace
from tests.conftest import spec_from

PACK = """pack: own
title: Own checks
edition: 2026-11
checks:
  - id: own-supply
    title: Supply
    for_each: tanks
    setting: alongside
    procedure: [Look.]
    expect:
      - {id: cold, reading: cold, unit: °C, record: count}
  - id: own-gauge
    title: Gauge
    for_each: tanks
    setting: alongside
    procedure: [Look.]
    expect:
      - {id: gauge, reading: gauge, unit: L, series: "[0.5, 1.0] * tank.capacity", series_unit: L, about: point, tolerance: 5 L}
      - {id: warm, reading: warm, unit: °C, record: count}
      - {id: rise, reading: "rise of {{ tank.name }}", unit: K, at_most: 5 K}
    derive:
      - figure: tank-gauge-error
        readings: {gauge: gauge}
        inputs: {capacity: tank.capacity}
        at_most: 5 %
      - figure: temperature-rise
        readings: {inlet: {rule: own-supply, reading: cold}, outlet: warm}
        gives: rise
"""
BOAT = """vessel: {name: X, hull: motor-planing, length_hull: 9 m}
tanks:
  - {name: bow tank, holds: fresh, capacity: 100 L}
  - {name: stern tank, holds: fresh}
"""


def test_a_right_entry_has_no_fault_and_is_in_the_plan(write) -> None:
    library = load_library([write("mine/own.yaml", PACK).parent])
    assert check_library(library) == []
    checks = {check.id: check for check in draft_plan(spec_from(BOAT), library).plan.checks}
    error, rise = checks["own-gauge@bow-tank"].derive
    assert (error.inputs, error.inputs_shown) == ({"capacity": 100.0}, {"capacity": "100 L"})
    assert (error.high, error.shown) == (5.0, "≤ 5 %")
    assert rise.gives == "rise"
    assert rise.readings["inlet"] == (ReadingPlace(check="own-supply@bow-tank", reading="cold"),)
    assert rise.readings["outlet"] == (ReadingPlace(check="own-gauge@bow-tank", reading="warm"),)


FAULTS = {
    ("figure: tank-gauge-error", "figure: tank-gauge-eror"): "unknown figure 'tank-gauge-eror'",
    ("{gauge: gauge}", "{guage: gauge}"): "unknown reading of this figure 'guage'",
    ("{gauge: gauge}", "{gauge: gage}"): "own-gauge has no reading 'gage'",
    ("{gauge: gauge}", "{gauge: warm}"): "a reading in °C",
    ("{gauge: gauge}", "{gauge: gauge, other: gauge}"): "unknown reading of this figure 'other'",
    ("outlet: warm", "outlet: gauge"): "a reading in L",
    (", outlet: warm", ""): "temperature-rise without the reading outlet",
    ("inputs: {capacity: tank.capacity}", "inputs: {}"): "tank-gauge-error without the input capacity",
    ("{capacity: tank.capacity}", "{capacity: tank.name}"): "a text",
    ("{capacity: tank.capacity}", "{capacity: tank.capacty}"): "there is no key 'capacty' here",
    ("{capacity: tank.capacity}", "{size: tank.capacity}"): "unknown input of this figure 'size'",
    ("at_most: 5 %", "at_most: 5 L"): "a quantity of volume for a reading in %",
    ("at_most: 5 %", "at_most: 5 %\n        gives: gauge"): "limits beside a reading that has its own",
    ("rule: own-supply", "rule: own-suply"): "unknown rule 'own-suply'",
    ("gives: rise", "gives: rises"): "this rule has no reading 'rises'",
    ("gives: rise", "gives: warm"): "a figure that is worked out of itself",
}


@pytest.mark.parametrize(("change", "said"), FAULTS.items())
def test_each_fault_is_said_with_its_line(write, change: tuple[str, str], said: str) -> None:
    assert change[0] in PACK
    path = write("mine/own.yaml", PACK.replace(*change))
    found = [
        problem
        for problem in check_library(load_library([path.parent]))
        if problem.mark.file == "mine/own.yaml"
    ]
    assert any(said in problem.found for problem in found), [str(problem) for problem in found]
    assert all(problem.mark.line > 1 for problem in found)


def test_a_figure_without_its_input_is_left_out(write) -> None:
    pack = PACK.replace("tank.capacity}", "tank.usable}")
    library = load_library([write("mine/own.yaml", pack).parent])
    checks = {check.id: check for check in draft_plan(spec_from(BOAT), library).plan.checks}
    assert [figure.figure for figure in checks["own-gauge@bow-tank"].derive] == ["temperature-rise"]
