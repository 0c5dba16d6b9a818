"""Values written into a spec: where they belong, all else as it was, character for character."""

from __future__ import annotations

import difflib

import pytest

from plangen.spec.write_in import CannotWrite, ItemStep, Tree, Value, write_in
from tests.conftest import spec_from

BOAT = """\
# what the seller sent
vessel: {name: Gannet,  hull: sailing-monohull, length_hull: 12 m}   # by telephone
engine:
  power:   42 kW  # on the plate
  # the gearbox isn't known yet

heads: 2      # both electric?
tanks: [400 L fuel, {name: aft water, holds: fresh}]
gas:
dc:
    banks:
      - name: house
        use: house

      - spare bank   # under the berth
deck: {anchors: 20 kg, lifts: davits}
alarms: true
# the end
"""

PORT, AFT = ItemStep("head 1"), ItemStep("aft water")


@pytest.mark.parametrize(
    ("tree", "line"),
    [
        ({"engines": {ItemStep("engine"): {"fuel": Value("diesel", remark="A. B., 2030-01-02")}}}, "  fuel: diesel  # A. B., 2030-01-02"),
        ({"vessel": {"beam": Value("3.9 m")}}, "vessel: {name: Gannet,  hull: sailing-monohull, length_hull: 12 m, beam: 3.9 m}   # by telephone"),
        ({"heads": {PORT: {"flush": Value("electric")}}}, "heads: [{name: head 1, flush: electric}, {name: head 2}]      # both electric?"),
        ({"tanks": {AFT: {"capacity": Value("300 L")}}}, "tanks: [400 L fuel, {name: aft water, holds: fresh, capacity: 300 L}]"),
        ({"gas": {"kind": Value("propane")}}, "  kind: propane"),
        ({"gas": Value("no")}, "gas: no"),
        ({"dc": {"banks": {ItemStep("house"): {"capacity": Value("400 Ah")}}}}, "        capacity: 400 Ah"),
        ({"dc": {"banks": {ItemStep("spare bank"): {"use": Value("start")}}}}, "      - {name: spare bank, use: start}   # under the berth"),
        ({"dc": {"banks": {ItemStep("third"): {"use": Value("emergency")}}}}, "      - name: third"),
        ({"dc": {"bonded": Value("yes")}}, "    bonded: yes"),
        ({"deck": {"anchors": {ItemStep("anchor"): {"use": Value("bower")}}}}, "deck: {anchors: [{name: anchor, mass: 20 kg, use: bower}], lifts: davits}"),
        ({"thrusters": Value("5 kW")}, "thrusters: 5 kW"),
        ({"vessel": {"builder": Value("Smith: and, Sons")}}, 'vessel: {name: Gannet,  hull: sailing-monohull, length_hull: 12 m, builder: "Smith: and, Sons"}   # by telephone'),
        ({"radio": {"sets": {ItemStep("vhf"): {"kind": Value("vhf"), "mmsi": Value("227123456", text=True)}}}}, '      mmsi: "227123456"'),
    ],
)  # fmt: skip
def test_a_value_is_written_where_it_belongs_and_nothing_else_changes(tree: Tree, line: str) -> None:
    after = write_in(BOAT, "x", tree)
    assert line in after.splitlines()
    changed = [one for one in difflib.ndiff(BOAT.splitlines(), after.splitlines()) if one[0] == "-"]
    assert len(changed) <= 1
    assert all(f"#{comment.splitlines()[0]}" in after for comment in BOAT.split("#")[1:])
    if "tanks" not in tree:
        spec_from(after.replace("alarms: true", "alarms: [smoke]"))


def test_several_values_at_once_and_a_file_without_a_last_line_end() -> None:
    text = "vessel: {name: X, hull: motor-planing, length_hull: 7 m}\nac:\n  system: 230 V 50 Hz"
    tree: Tree = {"ac": {"rcd": Value("yes"), "shore_inlets": Value("2")}, "heads": Value(("2 electric",))}
    after = write_in(text, "x", tree)
    assert after == text + "\n  rcd: yes\n  shore_inlets: 2\nheads: [2 electric]\n"


def test_a_count_stays_where_all_items_get_the_same_value_and_is_written_out_where_they_differ() -> None:
    text = (
        "vessel: {name: X, hull: motor-planing, length_hull: 7 m}\nengines: {count: 2, power: 42 kW}  # new\n"
    )
    port, starboard = ItemStep("port engine"), ItemStep("starboard engine")
    same: Tree = {"engines": {port: {"fuel": Value("diesel")}, starboard: {"fuel": Value("diesel")}}}
    assert "engines: {count: 2, power: 42 kW, fuel: diesel}  # new\n" in write_in(text, "x", same)
    apart = write_in(text, "x", {"engines": {port: {"serial": Value("1234", text=True)}}})
    assert (
        '[{name: port engine, power: 42 kW, serial: "1234"}, {name: starboard engine, power: 42 kW}]  # new'
        in apart
    )
    assert spec_from(apart).spec.engines[0].serial == "1234"


@pytest.mark.parametrize(
    ("text", "tree"),
    [
        ("heads: no", {"heads": {ItemStep("head"): {"flush": Value("manual")}}}),
        ("gas: false", {"gas": {"kind": Value("propane")}}),
        ("gas: {kind: butane}", {"gas": {"kind": Value("propane")}}),
        ("engines:\n  count: 2\n  power: 42 kW  # each\n", {"engines": {ItemStep("port engine"): {"serial": Value("1")}}}),
        ("tanks: &t [{name: a, holds: fuel}]\nheads: 1", {"tanks": {7: {"capacity": Value("1 L")}}}),
    ],
)  # fmt: skip
def test_what_stands_there_is_never_touched(text: str, tree: Tree) -> None:
    boat = "vessel: {name: X, hull: motor-planing, length_hull: 7 m}\n"
    with pytest.raises(CannotWrite):
        write_in(boat + text, "x", tree)
