"""Layers: what a hull or an option says of an item is meant for one that is there, or adds one that is whole."""

from __future__ import annotations

from pathlib import Path

import pytest

from plangen.spec.load import load_spec_file
from tests.conftest import SPECS, faults

MODEL = """vessel: {name: Model, hull: motor-planing, length_hull: 11 m}
zones: [{name: engine space, kind: machinery}]
engines:
  - {name: port engine, zone: engine space, power: 200 kW}
  - {name: starboard engine, zone: engine space, power: 200 kW}
dc: {banks: [{name: house bank 1, capacity: 100 Ah}]}
"""


def hull(write, layer: str) -> Path:
    write("model.yaml", MODEL)
    return write("hull.yaml", f"extends: model.yaml\nvessel: {{name: Hull 1}}\n{layer}\n")


@pytest.mark.parametrize(
    ("layer", "nearest"),
    [
        ("engines: [{name: prot engine, power: 235 kW}]", "port engine"),
        ("engines: [{name: strabord engine, power: 235 kW}]", "starboard engine"),
        ("engines: [{name: Port Engine, serial: A1}]", "port engine"),
        ("engines: [{name: portengine, zone: engine space, power: 1 kW}]", "port engine"),
        ("engines: [{name: prot engine, remove: yes}]", "port engine"),
        ("dc: {banks: [{name: hosue bank 1, capacity: 50 Ah}]}", "house bank 1"),
        ("dc: {banks: [{name: start bank, serial: 77}]}", ""),
        ("radio: {sets: [{name: fixed VHF, maker: Someone, model: X, serial: 1}]}", ""),
        ("engines: [{name: motor to port, year: 2027, formerly: engine}]", ""),
    ],
)
def test_an_item_that_isnt_below_and_cant_be_new_is_a_fault_with_the_nearest_name(
    write, layer: str, nearest: str
) -> None:
    (fault,) = faults(lambda: load_spec_file(hull(write, layer), {}))
    assert fault.mark.line == 3
    assert fault.key.endswith("[0].name")
    assert fault.nearest == nearest


@pytest.mark.parametrize(
    ("layer", "names"),
    [
        ("dc: {banks: [{name: house bank 2, capacity: 100 Ah}]}", ["house bank 1", "house bank 2"]),
        ("dc: {banks: [{name: horse bank 1, add: yes, capacity: 9 Ah}]}", ["house bank 1", "horse bank 1"]),
        ("dc: {banks: [{name: start, capacity: 90 Ah, serial: 4}]}", ["house bank 1", "start"]),
        ("dc: {banks: [{name: house bank 1, serial: 4}]}", ["house bank 1"]),
        ("dc: {banks: [{name: house bank 1, remove: yes}]}", []),
    ],
)
def test_an_item_of_its_own_is_added_and_one_that_is_there_is_laid_over(
    write, layer: str, names: list[str]
) -> None:
    spec = load_spec_file(hull(write, layer), {}).spec
    assert [bank.name for bank in spec.dc.banks] == names


def test_an_unknown_key_left_blank_in_a_layer_is_still_a_fault(write) -> None:
    (fault,) = faults(lambda: load_spec_file(hull(write, "enginess:"), {}))
    assert fault.nearest == "engines"


def test_the_yards_own_hulls_and_options_add_nothing_by_mistake() -> None:
    for name in ("hull-101.yaml", "hull-102.yaml"):
        assert load_spec_file(SPECS / "yard" / name, {}).spec.vessel.name.startswith("Hull")
