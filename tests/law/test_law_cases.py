"""Every jurisdiction's pack against cases worked by hand from the text of the law.

One file for each jurisdiction or code, named after it, beside this one:

    jurisdiction: france
    cases:
      - id: fr-3
        boat: sailing catamaran, 12.8 m, 6 aboard, 25 nmi from shelter    # for the reader
        clause: d240 art. 240-2.05                # where the numbers below are read
        given:                                    # a small spec, just as the loader takes it; no default zones
          vessel: {name: A, hull: sailing-catamaran, length_hull: 12.8 m, persons: 6}
          use: {registry: france, distance_from_shelter: 25 nmi}
        expected: {lifejacket-150: 6, hand-flare-red: 3}   # what this jurisdiction requires: item and quantity
        recommended: {satellite-telephone: 1}     # what it only recommends
        absent: [epirb, parachute-flare-red]      # what it neither requires nor, where required is meant, forces
        approval: {navigation-lights: masthead 2} # words that the demand's approval, note or upkeep holds; of what is
                                                  # expected, a demand that requires it
        advice: {anchor-and-rode: chain}          # words that a demand holds that only recommends it
        missing: {hand-flare-red: 0}              # what is still wanting beside what is aboard by the spec
        none: [jackstay]                          # what it doesn't name at all, not even as recommended
        without: {navigation-lights: masthead 3}  # words that it must not hold
        complete: true                            # `expected` is all that is required; `all`: and `recommended` all besides
      - id: fr-zones                              # the same boat with keys changed, for both sides of a limit
        clause: …
        given: {…}
        at:
          - change: {use.distance_from_shelter: 1.99 nmi}
            expected: {buoyancy-aid-50: 6}
            absent: [lifejacket-100]

    eases:      # what the text asks of the smaller boat only; `test_merge_properties` takes the rest for rising
      - {item: capacity-label, with: length, clause: 33 CFR 183.21}    # with: length, persons or distance

`expected`, `recommended`, `absent`, `none`, `approval`, `advice`, `without`, `missing` and `complete` stand in the case, in each entry of `at`, or in both.
`registry` has to be the jurisdiction for what binds her flag; a code is named under `use.codes` with its category. Dated
rules are judged on `trial.date`; without it the latest text counts.
"""

from __future__ import annotations

import copy
import functools
import itertools
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from plangen.packs.facts import Facts
from plangen.packs.library import Library, load_library
from plangen.plan.defaults import facts_of
from plangen.plan.gear.aboard import gear_aboard
from plangen.plan.gear.demands import demands
from plangen.plan.gear.inventory import gear_known
from plangen.plan.gear.laws import applicable
from plangen.plan.gear.lines import Demand
from plangen.plan.gear.merge import Pairs, merge, required_of
from plangen.plan.gear.stock import Days
from plangen.plan.yaml_text import yaml_text
from plangen.spec.load import LoadedSpec, load_spec_node
from plangen.spec.yaml_source import read_yaml, read_yaml_file

CASE_KEYS = {
    "id",
    "boat",
    "clause",
    "given",
    "at",
    "expected",
    "recommended",
    "absent",
    "approval",
    "advice",
    "missing",
    "without",
    "complete",
    "none",
}
OUTCOMES = (
    "expected",
    "recommended",
    "absent",
    "approval",
    "advice",
    "without",
    "missing",
    "complete",
    "none",
)
FILES = sorted(Path(__file__).parent.glob("*.yaml"))


@functools.cache
def library() -> Library:
    """Load the shipped packs once; a boat has what her case says, nothing is inferred."""
    packs = load_library()
    packs.inferred.clear()
    return packs


@functools.lru_cache(maxsize=256)
def boat(text: str) -> tuple[LoadedSpec, Facts]:
    """Return a boat's spec and facts; a change of the law leaves them as they are."""
    loaded = load_spec_node(read_yaml(text, "case"), {})
    return loaded, facts_of(loaded, library())


def demanded(given: Mapping[str, Any], jurisdiction: str) -> tuple[Pairs, LoadedSpec]:
    """Return what one jurisdiction demands of the boat, and her spec."""
    packs = library()
    loaded, facts = boat(yaml_text(dict(given)))
    laws = applicable(facts, packs)
    if jurisdiction != "international":  # what those rules ask depends on what the flag's own law demands
        laws = [one for one in laws if one.law.jurisdiction == jurisdiction]
    found = demands(laws, facts)[0]
    return [(rule.item, demand) for rule, demand in found if demand.jurisdiction == jurisdiction], loaded


def wanting(pairs: Pairs, loaded: LoadedSpec) -> dict[str, float]:
    """Return how many of each item are still wanting beside what is aboard."""
    packs = library()
    days = Days(loaded.spec.trial.date, loaded.spec.trial.delivery)
    merged = merge(pairs, gear_known(packs), gear_aboard(loaded.spec, packs), days)
    return {line.item: line.shortfall for line in merged.lines}


def changed(given: Mapping[str, Any], change: Mapping[str, Any]) -> dict[str, Any]:
    """Return the spec with the keys at dotted paths set anew."""
    spec = copy.deepcopy(dict(given))
    for path, value in change.items():
        *sections, key = path.split(".")
        section = spec
        for step in sections:
            section = section.setdefault(step, {})
        section[key] = value
    return spec


@dataclass(frozen=True)
class Variant:
    """One boat of a case with what the text asks of her."""

    jurisdiction: str
    case: str
    change: Mapping[str, Any]
    given: Mapping[str, Any]
    wanted: Mapping[str, Any]


def case_variants() -> Iterator[Variant]:
    """Yield each boat of each case."""
    for file in FILES:
        content = read_yaml_file(file).plain()
        assert content["jurisdiction"] == file.stem, f"{file.name}: named after another jurisdiction"
        for case in content["cases"]:
            assert set(case) <= CASE_KEYS, f"{file.name} {case['id']}: {set(case) - CASE_KEYS}"
            assert case["clause"], f"{file.name} {case['id']}: the clause is what the case rests on"
            for variant in case.get("at", [{}]):
                assert set(variant) <= {"change", *OUTCOMES}, f"{file.name} {case['id']}: {set(variant)}"
                change = variant.get("change", {})
                given = changed(case["given"], change)
                wanted = {key: [case.get(key), variant.get(key)] for key in OUTCOMES}
                yield Variant(file.stem, case["id"], change, given, wanted)


def pairs_of(parts: list[Mapping[str, Any] | None]) -> dict[str, Any]:
    """Return the mappings of the case and its variant as one."""
    return {key: value for part in parts if part for key, value in part.items()}


def required_quantity(demands_of_item: Sequence[Demand]) -> float:
    """Return what the law requires of the item, the builder's duties with it, apart from what it recommends."""
    return max(required_of(demands_of_item, "required"), required_of(demands_of_item, "builder"))


def words_of(demands_of_item: Sequence[Demand], *strengths: str) -> str:
    """Return what the demands of these strengths, or all of them, say of the item."""
    said = [
        f"{d.approval} {d.contents} {d.upkeep} {d.note} {d.instead}"
        for d in demands_of_item
        if not strengths or d.strength in strengths
    ]
    return " ".join(said)


def check(variant: Variant) -> None:
    """Check that the law asks of the boat what the case says."""
    wanted = variant.wanted
    pairs, loaded = demanded(variant.given, variant.jurisdiction)
    lines: dict[str, list[Demand]] = {}
    for item, demand in pairs:
        lines.setdefault(item, []).append(demand)
    expected = pairs_of(wanted["expected"])
    recommended = pairs_of(wanted["recommended"])
    absent = [item for part in wanted["absent"] if part for item in part if item not in expected]
    unnamed = [item for part in wanted["none"] if part for item in part]
    named = {*expected, *recommended, *absent, *unnamed}
    assert named <= set(library().gear), f"no gear items: {named - set(library().gear)}"
    quantities = {item: required_quantity(lines.get(item, ())) for item in {*lines, *named}}
    assert {item: quantities[item] for item in expected} == expected
    assert {item: quantities[item] for item in absent} == dict.fromkeys(absent, 0.0)
    assert [item for item in unnamed if item in lines] == []
    if any(wanted["complete"]):
        required = {item for item in lines if quantities[item]}
        assert required == {item for item, quantity in expected.items() if quantity}
    if "all" in wanted["complete"]:
        advised = {item for item in lines if not quantities[item]}
        assert advised == {item for item, quantity in recommended.items() if quantity}
    for item, quantity in recommended.items():
        assert not quantity or quantities[item] == 0.0, f"{item} is required"
        assert required_of(lines.get(item, ()), "recommended") == quantity, f"{item} is recommended"
    for item, words in pairs_of(wanted["approval"]).items():
        said = words_of(lines[item], *(("required", "builder") if expected.get(item) else ()))
        assert words in said, f"{item}: {said}"
    for item, words in pairs_of(wanted["advice"]).items():
        said = words_of(lines[item], "recommended")
        assert words in said, f"{item}: {said}"
    for item, words in pairs_of(wanted["without"]).items():
        said = words_of(lines[item])
        assert words not in said, f"{item}: {said}"
    if missing := pairs_of(wanted["missing"]):
        short = wanting(pairs, loaded)
        assert {item: short[item] for item in missing} == missing


def cases_of(variants: Iterable[Variant]) -> Iterator[Any]:
    """Yield the boats of each case together, as a parameter: a test for each boat costs more than looking at her."""
    for (jurisdiction, case), boats in itertools.groupby(variants, lambda v: (v.jurisdiction, v.case)):
        yield pytest.param(list(boats), id=f"{jurisdiction}-{case}")


@pytest.mark.parametrize("variants", list(cases_of(case_variants())))
def test_gear_is_what_the_text_asks(variants: list[Variant]) -> None:
    for variant in variants:
        try:
            check(variant)
        except Exception as error:
            error.add_note(f"{variant.jurisdiction} {variant.case}, change: {dict(variant.change)}")
            raise


def test_every_law_pack_has_cases() -> None:
    without = {pack.model.jurisdiction for pack in library().law} - {file.stem for file in FILES}
    assert without == set()


def test_every_jurisdiction_has_at_least_five_cases() -> None:
    counts = {file.name: len(list(read_yaml_file(file).plain()["cases"])) for file in FILES}
    assert {name for name, count in counts.items() if count < 5} == set()
