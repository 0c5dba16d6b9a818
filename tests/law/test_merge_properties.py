"""What holds for any boat: more law, a longer boat, more people and open water never ask for less.

What a text does ask of the smaller boat only is named with its clause under `eases` in the jurisdiction's case file.
"""

from __future__ import annotations

import functools
import os
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, assume, given, settings
from hypothesis import strategies as st

from plangen.packs.facts import Facts
from plangen.packs.library import Library, load_library
from plangen.plan.defaults import facts_of
from plangen.plan.gear.demands import demands
from plangen.plan.gear.inventory import gear_known
from plangen.plan.gear.laws import applicable
from plangen.plan.gear.lines import Demand, GearLine
from plangen.plan.gear.merge import Merged, merge, required_of
from plangen.plan.yaml_text import yaml_text
from plangen.spec.load import load_spec_node
from plangen.spec.quantity import registry
from plangen.spec.yaml_source import read_yaml, read_yaml_file

Pairs = list[tuple[str, Demand]]
QUICK = (Phase.explicit, Phase.reuse, Phase.generate, Phase.shrink)
#: The same 15 boats in every run; with PLANGEN_FUZZ so many others, drawn anew.
DRAWN = int(os.environ.get("PLANGEN_FUZZ", "0"))
FEW = settings(
    max_examples=DRAWN or 15,
    deadline=None,
    derandomize=not DRAWN,
    phases=QUICK,
    suppress_health_check=[HealthCheck.filter_too_much],
)
JURISDICTIONS = sorted(path.stem for path in Path(__file__).parent.glob("*.yaml"))

lengths = st.one_of(
    st.floats(2.5, 30.0).map(lambda metres: f"{metres:.2f} m"),
    st.sampled_from(["16 ft", "26 ft", "40 ft", "65 ft", "6 m", "7 m", "8 m", "9 m", "12 m", "20 m", "24 m"]),
)
distances = st.one_of(
    st.floats(0.1, 300.0).map(lambda miles: f"{miles:.1f} nmi"),
    st.sampled_from(["2 nmi", "3 nmi", "5 nmi", "6 nmi", "12 nmi", "20 nmi", "60 nmi", "150 nmi"]),
)
engines = st.lists(
    st.fixed_dictionaries(
        {
            "fuel": st.sampled_from(["diesel", "petrol"]),
            "drive": st.sampled_from(["shaft", "outboard", "stern-drive", "sail-drive"]),
            "power": st.sampled_from(["3 kW", "7.5 kW", "30 kW", "120 kW", "300 kW"]),
        }
    ),
    max_size=2,
)


@st.composite
def boats(draw: st.DrawFn) -> dict[str, Any]:
    """Draw a boat as a spec says it."""
    persons = draw(st.integers(1, 16))
    hulls = [
        "sailing-monohull",
        "sailing-catamaran",
        "motor-planing",
        "motor-displacement",
        "motor-catamaran",
    ]
    fitted = draw(engines)
    cabins = draw(st.booleans())
    kinds = ["cabin", "saloon", "machinery"] if cabins else ["cockpit"]
    energies = ["gas", "mains"] if cabins else []
    return {
        "vessel": {
            "name": "A",
            "hull": draw(st.sampled_from(hulls)),
            "length_hull": draw(lengths),
            "built": draw(st.integers(1975, 2026)),
            "persons": persons,
            "children": draw(st.integers(0, persons)),
            "gross_tonnage": draw(st.sampled_from([5, 24, 49, 60, 99, 150])),
            "displacement": {"light": draw(st.sampled_from(["200 kg", "2 t", "14 t"]))},
            "hull_material": draw(st.sampled_from(["grp", "aluminium"])),
            "ce_marked": draw(st.booleans()),
            "self_draining": draw(st.booleans()),
        },
        "use": {
            "distance_from_shelter": draw(distances),
            "night": draw(st.booleans()),
            "charter": draw(st.booleans()),
            "mediterranean": draw(st.booleans()),
            "foreign_ports": draw(st.booleans()),
        },
        "trial": {"date": "2027-05-10"},
        "engines": [{"name": f"engine {i}", **engine} for i, engine in enumerate(fitted)],
        "tanks": [{"name": "fuel", "holds": "fuel"}] if fitted and draw(st.booleans()) else [],
        "zones": [{"name": kind, "kind": kind} for kind in kinds],
        "heads": [{"name": "head"}] if cabins else [],
        "galley": {
            "appliances": [{"name": e, "kind": "hob", "energy": e} for e in energies if draw(st.booleans())]
        },
        "radio": {
            "sets": [{"name": k, "kind": k} for k in ("vhf", "epirb", "plb") if draw(st.booleans())]
        },
    }  # fmt: skip


@functools.cache
def library() -> Library:
    """Load the shipped packs once; a boat has what her case says, nothing is inferred."""
    packs = load_library()
    packs.inferred.clear()
    return packs


def with_keys(boat: Mapping[str, Any], section: str, **keys: Any) -> dict[str, Any]:
    """Return the boat with some keys of a section set anew."""
    return {**boat, section: {**boat[section], **keys}}


def facts(boat: Mapping[str, Any]) -> Facts:
    """Return the facts of a boat, loaded as any spec is."""
    return facts_of(load_spec_node(read_yaml(yaml_text(dict(boat)), "boat"), {}), library())


def under(boat: Mapping[str, Any], jurisdictions: Sequence[str]) -> dict[str, Any]:
    """Return the boat bound by the jurisdictions, the first of them her flag; a code with its first category."""
    laws = {name: library().law_of(name) for name in jurisdictions}
    codes = [
        {"code": name, **({"category": law.categories[0]} if law.categories else {})}
        for name, law in laws.items()
        if law is not None and law.kind == "code"
    ]
    statutes = [
        name for name, law in laws.items() if law is not None and law.kind not in ("code", "international")
    ]
    flag = {"registry": statutes[0]} if statutes else {}
    return with_keys(boat, "use", waters=statutes, codes=codes, **flag)


def pairs(boat: Mapping[str, Any]) -> Pairs:
    """Return the demands on the boat of all the laws that bind her."""
    known = facts(boat)
    found = demands(applicable(known, library()), known)[0]
    return [(requirement.item, demand) for requirement, demand in found]


def all_merged(found: Pairs) -> Merged:
    """Return inventory and shopping list with nothing aboard."""
    return merge(found, gear_known(library()))


def merged(found: Pairs) -> dict[str, GearLine]:
    """Return the inventory by item."""
    return {line.item: line for line in all_merged(found).lines}


def bought(found: Pairs, strength: str = "required") -> int:
    """Return how many units the shopping list and the papers come to."""
    return sum(one.quantity for one in all_merged(found).shopping if one.strength == strength)


def needs(boat: Mapping[str, Any], jurisdiction: str) -> dict[str, float]:
    """Return what is required of each item, an item that the law takes in its place counted with it.

    Only boats within the law's own limits count.
    """
    known = facts(boat)
    laws = [one for one in applicable(known, library()) if one.law.jurisdiction == jurisdiction]
    assume(all(one.state != "outside" for one in laws))
    by_item: dict[str, list[Demand]] = {}
    for requirement, demand in demands(laws, known)[0]:
        by_item.setdefault(requirement.item, []).append(demand)
    required = {
        item: max(required_of(found), required_of(found, "builder")) for item, found in by_item.items()
    }
    return {
        item: max(required.get(item, 0.0), sum(required.get(other, 0.0) for other in entry.satisfied_by))
        for item, entry in library().gear.items()
    }


def eased(jurisdiction: str, by: str) -> set[str]:
    """Return the items that the text asks of the smaller boat only, and those that other laws let them stand in for."""
    content = read_yaml_file(Path(__file__).parent / f"{jurisdiction}.yaml").plain()
    entries = content.get("eases", [])
    assert all(entry["clause"] for entry in entries)
    items = {entry["item"] for entry in entries if entry["with"] == by}
    return items | {item for item, entry in library().gear.items() if items & set(entry.satisfied_by)}


def assert_never_less(
    smaller: Mapping[str, Any], greater: Mapping[str, Any], jurisdiction: str, by: str
) -> None:
    """Check that the greater boat needs at least as much of everything, save for what the text eases."""
    more, less = needs(greater, jurisdiction), needs(smaller, jurisdiction)
    fewer = {item: (less[item], more[item]) for item in less if more[item] < less[item]}
    assert {item: pair for item, pair in fewer.items() if item not in eased(jurisdiction, by)} == {}


@FEW
@given(boat=boats(), data=st.data())
def test_adding_a_jurisdiction_never_lowers_a_quantity(boat: dict[str, Any], data: st.DataObject) -> None:
    chosen = data.draw(st.lists(st.sampled_from(JURISDICTIONS), min_size=1, max_size=4, unique=True))
    before, after = pairs(under(boat, chosen[:-1] or chosen)), pairs(under(boat, chosen))
    mine = {(item, d.key) for item, d in before if d.jurisdiction != "international"}
    assert mine <= {(item, d.key) for item, d in after}
    assert bought([pair for pair in after if (pair[0], pair[1].key) in mine]) <= bought(after)


@FEW
@given(boat=boats(), data=st.data())
def test_recommendations_never_raise_what_is_required(boat: dict[str, Any], data: st.DataObject) -> None:
    chosen = data.draw(st.lists(st.sampled_from(JURISDICTIONS), min_size=1, max_size=4, unique=True))
    found = pairs(under(boat, chosen))
    without = [(item, demand) for item, demand in found if demand.strength != "recommended"]
    listed = [one for one in all_merged(found).shopping if one.strength == "required"]
    alone = all_merged(without).shopping
    assert [(one.id, one.quantity) for one in listed] == [(one.id, one.quantity) for one in alone]


@FEW
@given(boat=boats(), data=st.data())
def test_the_order_of_jurisdictions_does_not_matter(boat: dict[str, Any], data: st.DataObject) -> None:
    chosen = data.draw(st.lists(st.sampled_from(JURISDICTIONS), min_size=2, max_size=4, unique=True))
    bound = under(boat, chosen)
    waters = data.draw(st.permutations(bound["use"]["waters"]))
    codes = data.draw(st.permutations(bound["use"]["codes"]))
    assert merged(pairs(bound)) == merged(pairs(with_keys(bound, "use", waters=waters, codes=codes)))


@FEW
@given(boat=boats(), data=st.data())
def test_merging_the_same_demands_again_changes_nothing(boat: dict[str, Any], data: st.DataObject) -> None:
    chosen = data.draw(st.lists(st.sampled_from(JURISDICTIONS), min_size=1, max_size=3, unique=True))
    found = pairs(under(boat, chosen))
    again = data.draw(st.permutations([*found, *found]))
    assert merged(again) == merged(found)


@pytest.mark.parametrize("jurisdiction", JURISDICTIONS)
@FEW
@given(boat=boats(), other=lengths)
def test_a_longer_boat_never_needs_less(jurisdiction: str, boat: dict[str, Any], other: str) -> None:
    bound = [
        with_keys(under(boat, [jurisdiction]), "vessel", length_hull=length)
        for length in (boat["vessel"]["length_hull"], other)
    ]
    smaller, greater = sorted(bound, key=lambda one: registry(one["vessel"]["length_hull"]))
    assert_never_less(smaller, greater, jurisdiction, "length")


@pytest.mark.parametrize("jurisdiction", JURISDICTIONS)
@FEW
@given(boat=boats(), more=st.integers(1, 10))
def test_more_people_never_need_less(jurisdiction: str, boat: dict[str, Any], more: int) -> None:
    smaller = under(boat, [jurisdiction])
    greater = with_keys(smaller, "vessel", persons=boat["vessel"]["persons"] + more)
    assert_never_less(smaller, greater, jurisdiction, "persons")


@pytest.mark.parametrize("jurisdiction", JURISDICTIONS)
@FEW
@given(boat=boats(), other=distances)
def test_open_water_never_needs_less(jurisdiction: str, boat: dict[str, Any], other: str) -> None:
    bound = [
        with_keys(under(boat, [jurisdiction]), "use", distance_from_shelter=d)
        for d in (boat["use"]["distance_from_shelter"], other)
    ]
    nearer, further = sorted(bound, key=lambda one: float(one["use"]["distance_from_shelter"].split()[0]))
    assert_never_less(nearer, further, jurisdiction, "distance")


def test_nothing_stands_in_for_itself() -> None:
    catalogue = library().gear

    def below(item: str, above: tuple[str, ...]) -> None:
        assert item not in above, f"{' < '.join((*above, item))} goes round"
        for other in catalogue[item].satisfied_by:
            below(other, (*above, item))

    for item in catalogue:
        below(item, ())


def test_what_stands_in_for_one_item_stands_in_for_all_that_it_satisfies() -> None:
    catalogue = library().gear
    gaps = {
        (item, further)
        for item, entry in catalogue.items()
        for other in entry.satisfied_by
        for further in catalogue[other].satisfied_by
        if further not in entry.satisfied_by
    }
    assert gaps == set()
