"""Short texts keep every number, labels stand for nominal voltages, examples are believable, messages mend."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from pydantic import BaseModel

from plangen.spec.hull_types import HULL_TYPES
from plangen.spec.model import Spec
from plangen.spec.quantity import is_quantity, parse_quantity
from plangen.spec.shape import Shape, shapes
from plangen.spec.starter import starter_text
from tests.conftest import faults, shipped, spec_from

BOAT = "vessel: {name: X, hull: sailing-monohull, length_hull: 12 m}\n"


def value_at(spec: Spec, path: str) -> Any:
    value: Any = spec
    for step in path.split("."):
        value = value[int(step)] if step.isdigit() else getattr(value, step)
    return value


@pytest.mark.parametrize(
    ("text", "path", "meant"),
    [
        ("watermaker: 60 L/h", "watermakers.0.rated_flow", "60 L/h"),
        ("dc: {solar: 800 W}", "dc.solar.0.power", "800 W"),
        ("dc: {inverters: 3000 W}", "dc.inverters.0.power", "3000 W"),
        ("dc: {banks: 600 Ah}", "dc.banks.0.capacity", "600 Ah"),
        ("dc: {banks: [12.8 V 600 Ah lithium-iron-phosphate]}", "dc.banks.0.capacity", "600 Ah"),
        (
            "dc: {banks: [12.8 V 600 Ah lithium-iron-phosphate]}",
            "dc.banks.0.chemistry",
            "lithium-iron-phosphate",
        ),
        ("dc: {chargers: 40 A}", "dc.chargers.0.output", "40 A"),
        ("heads: 2 electric", "heads.1.flush", "electric"),
        ("heads: electric", "heads.0.flush", "electric"),
        ("engines: 2 x 57 hp diesel", "engines.1.power", "57 hp"),
        ("engines: 2 × 57 hp diesel", "engines.1.fuel", "diesel"),
        ("engine: 42 kW 850 h", "engines.0.hours", "850 h"),
        ("tanks: 400 L fuel", "tanks.0.capacity", "400 L"),
        ("tanks: [400 L fuel, 300 L fresh]", "tanks.1.holds", "fresh"),
        ("gas: propane", "gas.kind", "propane"),
        ("ac: 120 V 60 Hz", "ac.system", "120 V 60 Hz"),
        ("ac: {generators: 8 kW}", "ac.generators.0.power", "8 kW"),
        ("deck: {anchors: 20 kg, lifts: davits}", "deck.anchors.0.mass", "20 kg"),
        ("deck: {lifts: davits}", "deck.lifts.0.kind", "davits"),
        ("alarms: [smoke, carbon monoxide]", "alarms.1.kind", "carbon-monoxide"),
        ("radio: {sets: [vhf, epirb]}", "radio.sets.1.kind", "epirb"),
        ("refrigeration: 130 L", "refrigeration.0.capacity", "130 L"),
        ("thrusters: 5 kW", "thrusters.0.power", "5 kW"),
        ("tender: 3.1 m", "tender.length", "3.1 m"),
        ("rig: sloop", "rig.kind", "sloop"),
        ("heads: [owner's head, guest head]", "heads.1.name", "guest head"),
    ],
)
def test_a_short_text_means_what_it_says(text: str, path: str, meant: str) -> None:
    value = value_at(spec_from(BOAT + text).spec, path)
    assert (value == parse_quantity(meant)) if is_quantity(value) else (value == meant)


@pytest.mark.parametrize("text", ["watermaker: 60 furlongs", "heads: 2 electrical", "dc: {banks: 12 V fridge}", "dc: {solar: 800}",
                                  "tanks: 400", "vessel: {name: X, hull: sailing-monohull, length_hull: 12 m, displacement: 14 t}"])  # fmt: skip
def test_a_number_that_cannot_be_placed_is_refused(text: str) -> None:
    found = faults(lambda: spec_from(text if text.startswith("vessel") else BOAT + text))
    assert found
    assert all(problem.accepted for problem in found)


@pytest.mark.parametrize(
    ("label", "nominal"),
    [("12.8 V", 12), ("13.8 V", 12), ("14.4 V", 12), ("25.6 V", 24), ("28 V", 24), ("38.4 V", 36), ("51.2 V", 48), ("57.6 V", 48),
     ("12 V", 12), ("24 V", 24), ("72 V", 72), ("96 V", 96)],
)  # fmt: skip
def test_a_label_stands_for_the_nominal_voltage(label: str, nominal: float) -> None:
    bank = spec_from(f"{BOAT}dc: {{banks: {{name: b, voltage: {label}}}}}").spec.dc.banks[0]
    assert bank.voltage is not None
    assert bank.voltage.to("volt").magnitude == nominal


def keys(model: type[BaseModel], path: str = "") -> Iterator[tuple[str, Shape]]:
    """Yield every key of the spec that holds a value, with its path."""
    for name, shape in shapes(model).items():
        if shape.model is None:
            yield f"{path}{name}", shape
        else:
            yield from keys(shape.model, f"{path}{name}.")


QUANTITIES = {path: shape for path, shape in keys(Spec) if shape.kind}


@pytest.mark.parametrize("path", sorted(QUANTITIES))
def test_every_quantity_has_a_believable_example_within_what_a_boat_can_have(path: str) -> None:
    shape = QUANTITIES[path]
    assert shape.within is not None
    low, value, high = (
        parse_quantity(text, shape.kind) for text in (shape.within[0], shape.example, shape.within[1])
    )
    assert low <= value <= high


@pytest.mark.parametrize(
    "text",
    ["tanks: [{name: t, holds: fuel, capacity: 1.2 L}]", "tanks: [{name: t, holds: fuel, capacity: 1.200 L}]", "engines: {shaft_diameter: 14 m}",
     "engines: {thermostat: 7 °C}", "deck: {anchors: {mass: 14 t}}", "heads: {flush_volume: 60 L}", "engines: {propeller: {diameter: 4.5 m}}",
     "dc: {banks: {capacity: 0.4 Ah}}", "gas: {regulator_pressure: 30 bar}", "rig: {shroud_diameter: 8 cm}", "engines: {rated_speed: 3.000 rpm}"],
)  # fmt: skip
def test_absurd_values_are_faults(text: str) -> None:
    assert len(faults(lambda: spec_from(BOAT + text))) == 1


@pytest.mark.parametrize(
    ("written", "kind", "meant"),
    [("600 liter", "volume", "600 L"), ("20 kilo", "mass", "20 kg"), ("14 tonnes", "mass", "14 t"), ("850 hours", "duration", "850 h"),
     ("8 knots", "speed", "8 kn"), ("40 feet", "length", "40 ft"), ("80 amps", "current", "80 A"), ("3000 t/min", "rotational speed", "3000 rpm")],
)  # fmt: skip
def test_units_may_be_spelt_out(written: str, kind: str, meant: str) -> None:
    assert parse_quantity(written, kind) == parse_quantity(meant, kind)


def test_metric_horsepower_is_that_of_nist_sp_811() -> None:
    """NIST SP 811 (2008), appendix B.8: horsepower (metric) = 735.4988 W."""
    for written in ("1 PS", "1 pk", "1 ch"):
        assert parse_quantity(written, "power").to("watt").magnitude == pytest.approx(735.4988, abs=1e-4)


def test_a_promised_speed_that_the_propeller_cannot_reach_is_a_fault() -> None:
    """330 mm × 3,000 / 2.6 rev/min = 381 m/min = 12.3 kn without slip; 0.30 mm of pitch more or less changes nothing."""
    engine = "engines: {power: 42 kW, rated_speed: 3000 rpm, gear_ratio: 2.6, propeller: {pitch: 330 mm}}\n"
    found = faults(lambda: spec_from(f"{BOAT}{engine}contract: {{speed_at_rated: 13 kn}}"))
    assert [problem.key for problem in found] == ["engines[1].propeller.pitch"]
    assert "12.3 kn" in found[0].found
    spec_from(f"{BOAT}{engine}contract: {{speed_at_rated: 8 kn}}")


def test_no_message_shows_a_regular_expression() -> None:
    text = "contract: {holdback: a lot}\nradio: {sets: [{name: r, kind: vhf, mmsi: '12'}]}\nzones: [{name: z, code: lower}]"
    for problem in faults(lambda: spec_from(BOAT + text)):
        assert "^" not in str(problem)
        assert "[0-9]" not in str(problem)


@pytest.mark.parametrize("hull", HULL_TYPES)
def test_a_starter_shows_the_believable_examples(hull: str) -> None:
    text = starter_text(hull, shipped().starters[hull])
    for path, shape in keys(Spec):
        if shape.example and shape.kind:
            last = path.rpartition(".")[2]
            assert f"{last}: {shape.example}" in text or path.count(".") > 1, path
