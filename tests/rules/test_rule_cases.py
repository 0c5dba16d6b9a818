"""Every pack of checks against cases worked by hand or taken from a published table.

One file for each pack in `rulepacks/systems`, of the same name:

    pack: waste
    cases:
      - name: an electric head on a 60 L tank                # the boat in a sentence
        source: 60 L / 3 L = 20 flushes; ISO 8099-1:2018 …    # where the numbers below come from
        boat: &small                                         # a few lines of spec; default zones are there
          vessel: {name: A, hull: sailing-monohull, length_hull: 12 m}
          tanks: [{name: black tank, holds: black, capacity: 60 L}]
          heads: [{name: head, flush: electric, tank: black tank}]
        expect:                                              # check, reading id: what is expected
          holding-tank-lockout@head:
            flushes: {low: 17, high: 23, basis: computed}    # also value, text, unit, shown, points: {at: {low, high}}
        within: 0.5 %                                        # how near low, value and high have to be; as printed without it
        present: [head-fit@head, head-fit@head/loop-height]  # checks, and readings after a stroke, that are there
        absent: [head-bidet, head-fit@head/diverter]         # and that aren't; a rule's id alone stands for all its checks
        priority: {head-fit@head: 1}

Readings whose limits are computed need a case with a number, and each `when:` of a rule or a reading a case on both sides.
A tradesman who holds a number wrong corrects it here first.
"""

from __future__ import annotations

import functools
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from plangen.packs.model import ReadingRule, RulePack
from plangen.packs.values import literal
from plangen.plan.draft import draft_plan
from plangen.plan.model import Expectation, Plan
from plangen.plan.yaml_text import yaml_text
from plangen.spec.yaml_source import read_yaml_file
from tests.conftest import shipped, spec_from

HERE = Path(__file__).parent
FILES = sorted(HERE.glob("*.yaml"))
PACKS: dict[str, RulePack] = {loaded.model.pack: loaded.model for loaded in shipped().rules}
CASE_KEYS = {"name", "source", "boat", "expect", "within", "present", "absent", "priority"}
#: Packs whose limits are held by cases; a pack without its file is named by `test_every_pack_has_its_cases`.
NUMBERS = ("low", "high", "value")


@functools.cache
def cases_of(file: Path) -> tuple[Mapping[str, Any], ...]:
    """Return the cases of one file."""
    content = read_yaml_file(file).plain()
    assert content["pack"] == file.stem.replace("_", "-"), f"{file.name} is named after another pack"
    for case in content["cases"]:
        assert set(case) <= CASE_KEYS, f"{file.name}, {case.get('name')}: {set(case) - CASE_KEYS}"
        assert case["source"], f"{file.name}, {case['name']}: the source is what the case rests on"
    return tuple(content["cases"])


def all_cases() -> Iterator[Any]:
    """Yield each case with a readable id."""
    for file in FILES:
        for case in cases_of(file):
            yield pytest.param(file.stem.replace("_", "-"), case, id=f"{file.stem}: {case['name']}"[:90])


@functools.cache
def plan_of(pack: str, boat: str) -> Plan:
    """Draft a case's boat with the checks of one pack; boats that several cases share are drafted once."""
    library = shipped()
    alone = [loaded for loaded in library.rules if loaded.model.pack == pack]
    return draft_plan(spec_from(boat), replace(library, rules=alone, law=[], stores=[])).plan


def told(expected: Expectation, wanted: Mapping[str, Any], within: float | None, place: str) -> list[str]:
    """Return where the plan's expectation differs from the case."""
    wrong = []
    for key, value in wanted.items():
        if key == "points":
            rows = {row.point: row for row in expected.series}
            for at, limits in value.items():
                row = rows.get(float(at))
                if row is None:
                    wrong.append(f"{place}: no point {at} among {list(rows)}")
                    continue
                wrong += _numbers(row, limits, within, f"{place} at {at}")
        elif key in NUMBERS:
            wrong += _numbers(expected, {key: value}, within, place)
        else:
            found = getattr(expected, key)
            if found != value and not (key == "text" and str(found) == str(value)):
                wrong.append(f"{place}: {key} is {found!r}, the case says {value!r}")
    return wrong


def _numbers(row: Any, limits: Mapping[str, Any], within: float | None, place: str) -> list[str]:
    wrong = []
    for key, value in limits.items():
        found = getattr(row, key)
        near = (
            found is None
            if value is None
            else found is not None and found == pytest.approx(value, rel=within if within else 1e-9)
        )
        if not near:
            wrong.append(f"{place}: {key} is {found}, the case says {value}")
    return wrong


@pytest.mark.parametrize(("pack", "case"), list(all_cases()))
def test_the_plan_expects_what_the_case_says(pack: str, case: Mapping[str, Any]) -> None:
    plan = plan_of(pack, yaml_text(dict(case["boat"])))
    checks = {check.id: check for check in plan.checks}
    rules = {check.rule.split("/")[1] for check in plan.checks}
    within = float(str(case["within"]).rstrip(" %")) / 100 if "within" in case else None
    wrong: list[str] = []
    for id, readings in case.get("expect", {}).items():
        if id not in checks:
            wrong.append(
                f"no check {id}; of this rule: {[x for x in checks if x.startswith(id.split('@')[0])]}"
            )
            continue
        by_id = {expected.id: expected for expected in checks[id].expect}
        for reading, wanted in readings.items():
            if reading not in by_id:
                wrong.append(f"{id}: no reading {reading} among {list(by_id)}")
                continue
            wrong += told(by_id[reading], wanted, within, f"{id} {reading}")
    for place in case.get("present", ()):
        id, _, reading = place.partition("/")
        there = id in checks if "@" in id else id in rules
        if reading and there:
            there = any(expected.id == reading for expected in checks[id].expect)
        if not there:
            wrong.append(f"{place} isn't in the plan")
    for place in case.get("absent", ()):
        id, _, reading = place.partition("/")
        there = id in checks if "@" in id else id in rules
        if reading:
            there = there and any(expected.id == reading for expected in checks[id].expect)
        if there:
            wrong.append(f"{place} is in the plan")
    for id, priority in case.get("priority", {}).items():
        if checks[id].priority != priority:
            wrong.append(f"{id}: priority {checks[id].priority}, the case says {priority}")
    assert wrong == []


def computed(reading: ReadingRule) -> bool:
    """Tell whether a limit depends on the boat."""
    texts = [reading.at_least, reading.at_most, reading.about, *(reading.between or ())]
    return any(text is not None and literal(text) is None and not _plain(text) for text in texts)


def _plain(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return True


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_cases_cover_the_pack(file: Path) -> None:
    """Each computed limit has a number in a case, and each condition a case on both sides."""
    pack = PACKS[file.stem.replace("_", "-")]
    cases = cases_of(file)
    numbers = {
        (id.split("@")[0], reading)
        for case in cases
        for id, readings in case.get("expect", {}).items()
        for reading, wanted in readings.items()
        if {"points", *NUMBERS} & set(wanted)
    }
    there = {
        (place.partition("/")[0].split("@")[0], place.partition("/")[2])
        for case in cases
        for place in case.get("present", ())
    }
    there |= {
        (id.split("@")[0], reading)
        for case in cases
        for id, readings in case.get("expect", {}).items()
        for reading in readings
    }
    there |= {(rule, "") for rule, _ in there}
    gone = {
        (place.partition("/")[0].split("@")[0], place.partition("/")[2])
        for case in cases
        for place in case.get("absent", ())
    }
    wanting: list[str] = []
    for rule in pack.checks:
        if rule.when is not None:
            wanting += [f"{rule.id}: no case where it is {'' if side is there else 'not '}there"
                        for side in (there, gone) if (rule.id, "") not in side]  # fmt: skip
        for reading in rule.expect:
            place = (rule.id, reading.id)
            if computed(reading) and place not in numbers:
                wanting.append(f"{rule.id}/{reading.id}: no case with its number")
            alternatives = sum(one.id == reading.id for one in rule.expect) > 1
            if reading.when is not None and place not in there:
                wanting.append(f"{rule.id}/{reading.id}: no case where it is there")
            if reading.when is not None and not alternatives and place not in gone:
                wanting.append(f"{rule.id}/{reading.id}: no case where it is not there")
    assert wanting == []
