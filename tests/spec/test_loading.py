"""Specs: short forms, faults all at once, names, sense and layers."""

from __future__ import annotations

import json
import time
from collections.abc import Callable
from pathlib import Path

import jsonschema
import pytest

from plangen.packs.library import load_library
from plangen.spec.hull_types import HULL_TYPES
from plangen.spec.layers import read_layers
from plangen.spec.load import load_spec_file
from plangen.spec.schema import spec_schema
from plangen.spec.starter import starter_text
from plangen.spec.yaml_source import read_yaml_file
from tests.conftest import SPECS, faults, shipped, spec_from

MINIMAL = "vessel: {name: X, hull: sailing-monohull, length_hull: 12 m}\n"


@pytest.mark.parametrize(
    ("short", "count", "first"),
    [
        ("heads: 3", 3, "head 1"),
        ("heads: true", 1, "head"),
        ("heads: yes", 1, "head"),
        ("head: true", 1, "head"),
        ("heads: no", 0, None),
        ("heads: 0", 0, None),
        ("heads: {flush: manual}", 1, "head"),
        ("heads: {count: 2, flush: manual}", 2, "head 1"),
        ("heads: [forward, aft]", 2, "forward"),
        ("heads: [{flush: manual}, {name: aft}]", 2, "head 1"),
    ],
)
def test_short_forms_of_a_list(short: str, count: int, first: str | None) -> None:
    heads = spec_from(MINIMAL + short).spec.heads
    assert len(heads) == count
    assert (heads[0].name if heads else None) == first


def test_two_engines_in_short_form_are_port_and_starboard() -> None:
    engines = spec_from(MINIMAL + "engines: {count: 2, power: 42 kW}").spec.engines
    assert [engine.name for engine in engines] == ["port engine", "starboard engine"]
    assert all(engine.power is not None and engine.power.to("kilowatt").magnitude == 42 for engine in engines)


def test_all_faults_of_a_file_are_said_at_once_with_their_places() -> None:
    text = """vessel:
  name: X
  hull: sailing-catamaran
  length_hull: 12 V
  lenght_waterline: 13 m
zones: [{name: a}, {name: A}]
engines: {count: 2, power: 42}
heads: [{name: fwd, tank: holdng}]
tanks: [{name: holding, holds: beer, capacity: -5 L}]
hedas: 3
"""
    found = {(p.mark.line, p.key): p for p in faults(lambda: spec_from(text))}
    assert set(found) == {
        (4, "vessel.length_hull"),
        (5, "vessel.lenght_waterline"),
        (6, "zones[2]"),
        (7, "engines[1].power"),
        (7, "engines[2].power"),
        (8, "heads[1].tank"),
        (9, "tanks[1].capacity"),
        (9, "tanks[1].holds"),
        (10, "hedas"),
    }
    assert found[(4, "vessel.length_hull")].found == "'12 V', which is a voltage"
    assert found[(5, "vessel.lenght_waterline")].nearest == "length_waterline"
    assert found[(8, "heads[1].tank")].nearest == "holding"
    assert found[(10, "hedas")].nearest == "heads"
    assert "42 kW" in found[(7, "engines[1].power")].accepted


SENSELESS = {
    "vessel: {name: X, hull: motor-planing, length_hull: 12 m, length_waterline: 13 m}": "vessel.length_waterline",
    "vessel: {name: X, hull: motor-planing, length_hull: 12 m, displacement: {light: 9 t, loaded: 8 t}}": "vessel.displacement.loaded",
    "vessel: {name: X, hull: motor-planing, length_hull: 120 m}": "vessel.length_hull",
    "vessel: {name: X, hull: motor-planing, length_hull: 12 m, hull_id: FR-ABC12345Z627}": "vessel.hull_id",
    "vessel: {name: X, hull: motor-planing, length_hull: 12 m, persons: 2, children: 3}": "vessel.children",
    MINIMAL + "tanks: [{name: t, holds: fresh}]\nheads: [{name: h, tank: t}]": "heads[1].tank",
    MINIMAL + "tanks: [{name: t, holds: fresh, capacity: 100 L, usable: 120 L}]": "tanks[1].usable",
    MINIMAL + "engines: [{name: e, idle_speed: 1500 rpm, rated_speed: 1200 rpm}]": "engines[1].idle_speed",
    MINIMAL
    + "engines: [{name: e, alternator: {charges: hous}}]\ndc: {banks: [house]}": "engines[1].alternator.charges",
    MINIMAL + "engines: [{name: e, power: 9000 kW}]": "engines[1].power",
    MINIMAL + "trial: {date: 2027-05-02, delivery: 2027-05-01}": "trial.delivery",
    MINIMAL + "trial: {water_temperature: 80 °C}": "trial.water_temperature",
    MINIMAL.replace("sailing-monohull", "motor-planing")
    + "rig: {sails: [{name: s, kind: jib}]}": "rig.sails",
    MINIMAL + "heads: {count: 100000}": "heads.count",
    MINIMAL + "heads: -1": "heads",
}


@pytest.mark.parametrize("text", SENSELESS)
def test_values_that_make_no_sense_are_faults_at_their_key(text: str) -> None:
    assert [p.key for p in faults(lambda: spec_from(text))] == [SENSELESS[text]]


def test_a_spec_over_another_merges_sections_and_named_items(write) -> None:
    write(
        "model.yaml",
        MINIMAL
        + "tanks: [{name: fuel, holds: fuel, capacity: 100 L}, {name: water, holds: fresh}]\nheads: 2",
    )
    path = write(
        "hull.yaml",
        "extends: model.yaml\nvessel: {name: Hull 1}\ntanks: [{name: fuel, capacity: 150 L}, {name: water, remove: yes}, {name: day, holds: fuel}]\nheads:\n",
    )
    spec = load_spec_file(path, {}).spec
    assert spec.vessel.name == "Hull 1"
    assert spec.vessel.length_hull.to("metre").magnitude == 12
    assert [(t.name, t.holds) for t in spec.tanks] == [("fuel", "fuel"), ("day", "fuel")]
    assert spec.tanks[0].capacity is not None
    assert spec.tanks[0].capacity.to("litre").magnitude == 150
    assert spec.heads == ()


def test_a_fault_in_the_model_names_the_models_file(write) -> None:
    write("model.yaml", MINIMAL + "heads: {flsh: manual}")
    path = write("hull.yaml", "extends: model.yaml\nvessel: {name: Hull 1}")
    assert [str(p.mark).split(":")[0] for p in faults(lambda: load_spec_file(path, {}))] == ["model.yaml"]


@pytest.mark.parametrize(
    "target", ["../../etc/passwd", "/etc/passwd", "sub/other.yaml", "..", "nothing.yaml", "'..\\\\x.yaml'"]
)
def test_extends_never_leaves_the_folder(write, target: str) -> None:
    write("sub/other.yaml", MINIMAL)
    path = write("hull.yaml", f"extends: {target}\n" + MINIMAL)
    assert [p.key for p in faults(lambda: load_spec_file(path, {}))] == ["extends"]


def test_a_link_out_of_the_folder_is_refused(write, tmp_path: Path) -> None:
    outside = tmp_path / "outside.yaml"
    outside.write_text(MINIMAL)
    path = write("in/hull.yaml", "extends: link.yaml\n" + MINIMAL)
    (path.parent / "link.yaml").symlink_to(outside)
    assert "out of the folder" in faults(lambda: load_spec_file(path, {}))[0].found


def test_a_circle_of_extends_is_said(write) -> None:
    write("a.yaml", "extends: b.yaml\n" + MINIMAL)
    write("b.yaml", "extends: a.yaml\n" + MINIMAL)
    found = faults(lambda: read_layers(write("c.yaml", "extends: a.yaml\n" + MINIMAL)))
    assert any("a circle" in p.found for p in found)


def test_zones_come_from_the_hull_type_when_none_are_named() -> None:
    loaded = spec_from(MINIMAL + "heads: [{name: h, zone: head}]")
    assert loaded.zones_assumed
    assert {"cockpit", "head", "anchor locker"} <= {zone.name for zone in loaded.spec.zones}


@pytest.mark.parametrize("hull", HULL_TYPES)
def test_every_starter_spec_loads_and_satisfies_the_schema(hull: str, write) -> None:
    path = write("spec.yaml", starter_text(hull, shipped().starters[hull]))
    spec = load_spec_file(path, load_library(jurisdictions=()).zone_sets()).spec
    assert spec.vessel.hull == hull
    assert spec.engines
    jsonschema.Draft202012Validator(spec_schema()).validate(_jsonable(read_yaml_file(path).plain()))


def test_the_published_schema_is_the_models_own() -> None:
    assert json.loads((SPECS / "spec.schema.json").read_text(encoding="utf-8")) == spec_schema()


READY = sorted(
    str(path.relative_to(SPECS))
    for path in SPECS.rglob("*.yaml")
    if path.name not in ("findings.yaml", "instruments.yaml", "house.yaml")
)


@pytest.mark.parametrize("name", READY)
def test_every_ready_spec_satisfies_the_schema(name: str) -> None:
    """The schema is held against jsonschema, an independent implementation of JSON Schema 2020-12."""
    jsonschema.Draft202012Validator(spec_schema()).validate(_jsonable(read_yaml_file(SPECS / name).plain()))


@pytest.mark.parametrize(
    ("bad", "key"),
    [
        ({"heads": [{"flsh": "x"}]}, "heads"),
        ({"vessel": {"length_hull": "12 V"}}, "vessel"),
        ({"hedas": 1}, ""),
    ],
)
def test_the_schema_refuses_what_the_models_refuse(bad: dict[str, object], key: str) -> None:
    errors = list(jsonschema.Draft202012Validator(spec_schema()).iter_errors(bad))
    assert [str(error.absolute_path[0]) if error.absolute_path else "" for error in errors] == [key]


def _jsonable(value: object) -> object:
    return json.loads(json.dumps(value, default=str))


def test_specs_that_extend_one_another_threefold_are_refused_quickly(
    write: Callable[[str, str], Path],
) -> None:
    for layer in range(14):
        below = f"extends: [{', '.join(f'{x}{layer + 1}.yaml' for x in 'abc')}]\n" if layer < 13 else ""
        for name in "abc":
            write(f"{name}{layer}.yaml", f"{below}heads: 1\n")
    top = write("top.yaml", "extends: [a0.yaml, b0.yaml]\n" + MINIMAL)
    begun = time.process_time()
    assert "more than 200 specs" in faults(lambda: read_layers(top))[0].found
    assert time.process_time() - begun < 5
