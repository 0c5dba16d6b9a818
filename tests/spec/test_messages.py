"""What a fault says: what is meant at this key, at the line where it has to be mended, in words for whoever wrote it."""

from __future__ import annotations

import re

import pytest

from tests.conftest import faults, spec_from

BOAT = "vessel: {name: X, hull: sailing-monohull, length_hull: 12 m}\n"


def said(text: str) -> str:
    """Return all that is said of a fragment below a boat, or of a whole spec that begins with its vessel."""
    found = faults(lambda: spec_from(text if text.startswith("vessel") else BOAT + text))
    return "\n".join(str(problem) for problem in found)


@pytest.mark.parametrize(
    ("text", "wanted", "unwanted"),
    [
        # The unit of the key, not of any quantity of its kind.
        ("trial: {hours: 10}", "write for instance 10 h", "10 min"),
        ("engines: {hours: 10}", "write for instance 10 h", "10 min"),
        ("use: {distance_from_shelter: 200}", "write for instance 200 nmi", "200 m;"),
        ("deck: {anchors: {mass: 20}}", "write for instance 20 kg", "20 t"),
        # Signs that part thousands, decimal commas inside braces.
        ('tanks: [{name: t, holds: fuel, capacity: "1.200,5 L"}]', "write 1200.5 L", "write 1.2 L"),
        ("tanks: [{name: t, holds: fuel, capacity: 1.200 L}]", "write 1200 L, or 1.2 L", "unknown"),
        ("engines: {gear_ratio: 2,63}", "a point for decimals, such as 2.63", "unknown key"),
        ("engines: {power: 42,5 kW}", "a point for decimals, such as 42.5 kW", "unknown key"),
        ("contract: {speed_at_rated: 8,5 knots}", "such as 8.5 knots", "unknown key"),
        ("contract: {holdback: '12,000 EUR'}", "as 12 000 EUR", "[0-9]"),
        # nm may be three things, of which the key leaves one or two.
        ("use: {distance_from_shelter: 200 nm}", "nautical miles, newton metres or nanometres: write 200 nmi", "200 mm"),
        ("engines: {propeller: {diameter: 450 nm}}", "write 450 mm for millimetres", "450 nmi"),
        # The line that has to be mended.
        ("engines:\n  count: 2\n\tpower: 42 kW", "test.yaml:4:1: a tab", "token"),
        ("engines:\n  count 2\n  power: 42 kW", "test.yaml:3:1: a line without a colon: 'count 2'", "token"),
        ("gas: true\nheads 3", "test.yaml:3:1: a line without a colon: 'heads 3'", "block mapping"),
        ("heads:3", "test.yaml:2:1: a line without a colon", "block mapping"),
        ("gas: @x", 'text in quotes: "@x"', "token"),
        ("gas: {kind: propane\nheads: 3", "test.yaml:2:6: { that isn't closed", "flow mapping"),
        ("zones: [{name: a}\nheads: 3", "test.yaml:2:8: [ that isn't closed", "flow sequence"),
        ('gas: "propane\nheads: 3', "test.yaml:2:6: a quote that isn't closed", "scalar"),
        ("gas: a: b", "a second colon in one line", "mapping values"),
        ("vessel:\n  name: X\n   hull: sailing-monohull", "test.yaml:3:1: a line indented deeper", "second colon"),
        ("vessel:\n    name: X\n  hull: sailing-monohull", "test.yaml:3:3: a line that begins in another column", "block"),
        ("- heads", "a list item (-) among keys", "block"),
        # Keys and values named where a short form can't say them.
        ("vessel: {name: X, hull: sailing-monohull, length_hull: 12 m, displacement: 14 t}", "{light: 14 t}, or loaded", "list"),
        ("deck: {lifts: davit}", "nearest: davits", "unknown"),
        ("tanks: 3", "missing in 3 of them\n    accepted: what it holds: fuel, petrol, fresh", "tanks[2]"),
        ("tanks: 3", "tanks: [{holds: fuel}, {holds: fuel}, {holds: fuel}]", "tanks[2]"),
        ("tanks: {fuel: 400 L}", "nearest: holds: fuel", "nearest: fuel"),
        ("heads: three", "nearest: 3", "missing"),
        ("engines: {count: two}", "nearest: 2", "unknown"),
        # Names of meaning, and what people answer in their own language.
        ("water: true", "nearest: fresh_water", "nearest: watermakers"),
        ("davits: true", "nearest: deck.lifts", "nearest: gas"),
        ("generator: 8 kW", "nearest: ac.generators", "nearest: galley"),
        ("batteries: 600 Ah", "nearest: dc.banks", "nearest: galley"),
        ("autopilot: true", "nearest: navigation.instruments", "nearest: tanks"),
        ("draft: 2 m", "nearest: vessel.draught", "nearest: gas"),
        ("engines: {hp: 57}", "nearest: power", "nearest: year"),
        ("engines: {brand: Foo}", "nearest: maker", "nearest: zone"),
        ("vessel: {name: X, hull: sailboat, length_hull: 12 m}", "nearest: sailing-monohull", "nearest: motor"),
        ("vessel: {name: X, hull: catamaran, length_hull: 12 m}", "nearest: sailing-catamaran or motor-catamaran", "[0-9]"),
        ("rig: {standing_rigging: steel}", "nearest: wire", "nearest: rod"),
        ("tanks: [{name: t, holds: sewage}]", "nearest: black", "nearest: grey"),
        ("gas: {solenoid: ja}", "nearest: yes", "bool"),
        ("gas: ja", "nearest: yes", "bool"),
        # Plain values of the wrong kind.
        ("trial: {date: 14.3.2030}", "nearest: 2030-03-14", "invalid"),
        ("trial: {date: 3/4/2030}", "nearest: 2030-04-03 or 2030-03-04", "invalid"),
        ("trial: {days: 1.5}", "a whole number: days of the trial", "valid integer"),
        ("trial: {start: 9}", "as 08:30", "valid string"),
        ("trial: {days: 99}", "at most 30", "input should"),
        ("zones: [{name: z, code: lower}]", "short code on the zone map", "^"),
        ("radio: {sets: [{name: r, kind: vhf, mmsi: '12'}]}", "nine digits", "[0-9]"),
    ],
)  # fmt: skip
def test_a_message_says_what_is_meant(text: str, wanted: str, unwanted: str) -> None:
    assert wanted in said(text)
    assert unwanted not in said(text)


@pytest.mark.parametrize(
    ("text", "keys"),
    [
        ("tanks: [{name: t, holds: blackish, zone: nowhere}]", ["tanks[1].holds", "tanks[1].zone"]),
        ("tanks: [{name: t, zone: nowhere, capacity: 1.2 L}]", ["tanks[1].holds", "tanks[1].zone", "tanks[1].capacity"]),
        ("tanks: [{name: a}, {name: b, holds: fuel, capacity: 90000 L}]", ["tanks[1].holds", "tanks[2].capacity"]),
        ("tanks: [{name: black, holds: blackwater}]\nheads: [{tank: black, flush: foot}]", ["tanks[1].holds", "heads[1].flush"]),
    ],
)  # fmt: skip
def test_one_pass_finds_what_else_is_wrong_with_a_faulty_item(text: str, keys: list[str]) -> None:
    found = faults(lambda: spec_from(BOAT + text))
    assert sorted(problem.key for problem in found) == sorted(keys)


def test_the_unit_that_a_message_proposes_is_taken() -> None:
    for key in (
        "trial: {{hours: {}}}",
        "use: {{distance_from_shelter: {}}}",
        "deck: {{anchors: {{mass: {}}}}}",
    ):
        proposed = re.search(r"write for instance ([^;\n]+)", said(key.format(10)))
        assert proposed is not None
        spec_from(BOAT + key.format(proposed[1]))
