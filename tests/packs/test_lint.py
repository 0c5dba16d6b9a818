"""Packs are checked whole: every name, unit and reference, with file and line."""

from __future__ import annotations

import pytest

from plangen.packs.library import load_library, shipped_packs
from plangen.packs.lint import check_library
from plangen.plan.draft import draft_plan
from tests.conftest import faults, shipped, spec_from

RULE = """pack: own
title: Own checks
edition: 2026-11
checks:
  - id: own-check
    title: Own check
    for_each: heads
    setting: alongside
    procedure: [Look.]
    instruments: [stopwatch]
    expect:
      - id: drain
        reading: time to drain
        unit: s
        at_most: 60 s
"""


def test_the_shipped_packs_have_no_fault() -> None:
    assert [str(problem) for problem in check_library(shipped())] == []


def test_a_pack_of_ones_own_adds_its_checks(write) -> None:
    path = write("mine/own.yaml", RULE)
    library = load_library([path.parent])
    assert check_library(library) == []
    plan = draft_plan(
        spec_from("vessel: {name: X, hull: motor-planing, length_hull: 9 m}\nheads: 2"), library
    ).plan
    assert {"own-check@head-1", "own-check@head-2"} <= {check.id for check in plan.checks}


FAULTS = {
    ("for_each: heads", "for_each: haeds"): "there is no key 'haeds' here",
    ("setting: alongside", "setting: alongsid"): "unknown setting 'alongsid'",
    ("[stopwatch]", "[stopwach]"): "unknown instrument 'stopwach'",
    ("at_most: 60 s", "at_most: 60 V"): "a quantity of voltage for a reading in s",
    ("at_most: 60 s", "about: 60 s"): "about without a tolerance",
    ("at_most: 60 s", "about: 60 s\n        tolerance: 3 V"): "a tolerance that is a quantity of voltage",
    ("at_most: 60 s", "at_most: 60 s\n        is: yes"): "what counts as good: at_most, is",
    ("        at_most: 60 s\n", ""): "what counts as good: none",
    ("procedure: [Look.]", "procedure: ['{{ head.tank.capacty }}']"): "there is no key 'capacty' here",
    ("procedure: [Look.]", "after: [no-such-rule]"): "unknown rule 'no-such-rule'",
    ("procedure: [Look.]", "after: [own-check]"): "a circle: own-check after own-check",
    ("procedure: [Look.]", "needs: [shore-powr on]"): "unknown plant state 'shore-powr on'",
    ("procedure: [Look.]", "cautions: [danger]"): "unknown caution 'danger'",
    ("procedure: [Look.]", "source: no-such-source"): "unknown source 'no-such-source'",
    ("procedure: [Look.]", "when: head.flush == 'electrik'"): "'electrik' is never its value",
    ("procedure: [Look.]", "minutes: 5 kg"): "a quantity of mass for a reading in min",
    ("id: own-check", "id: Own_Check"): "'Own_Check'",
    ("procedure: [Look.]", "procedur: [Look.]"): "unknown key 'procedur'",
}


@pytest.mark.parametrize(("change", "said"), FAULTS.items())
def test_each_kind_of_fault_is_said_with_its_line(write, change: tuple[str, str], said: str) -> None:
    path = write("mine/own.yaml", RULE.replace(*change))

    def load() -> None:
        from plangen.spec.problems import InputProblems

        raise InputProblems(check_library(load_library([path.parent])))

    found = [problem for problem in faults(load) if problem.mark.file == "mine/own.yaml"]
    assert any(said in problem.found for problem in found), [str(problem) for problem in found]
    assert all(problem.mark.line > 0 for problem in found)


def test_an_id_may_stand_once_only(write) -> None:
    path = write("mine/own.yaml", RULE + RULE.split("checks:\n")[1])
    assert any("stands twice" in problem.found for problem in check_library(load_library([path.parent])))


def test_another_meaning_for_a_known_id_is_refused(write) -> None:
    path = write("mine/own.yaml", "instruments:\n  stopwatch: {title: A sundial}\n")
    assert "another file says something else" in faults(lambda: load_library([path.parent]))[0].found


def test_a_jurisdiction_needs_only_its_file(write) -> None:
    path = write(
        "mine/atlantis.yaml",
        """jurisdiction: atlantis
title: Atlantis
edition: 2026-11
coverage: all craft
ask: the harbour master
instruments:
  code: {title: Harbour code, current_to: "2026-11"}
requires:
  - {id: buckets, item: buckets, quantity: vessel.persons, clause: code 1}
gear:
  buckets: {title: Bucket with lanyard of Atlantis, group: fire}
""",
    )
    library = load_library([path.parent], jurisdictions=[])
    assert check_library(library) == []
    plan = draft_plan(
        spec_from(
            "vessel: {name: X, hull: motor-planing, length_hull: 9 m, persons: 4}\nuse: {registry: atlantis}"
        ),
        library,
    ).plan
    assert [(line.quantity, line.shortfall) for line in plan.gear if line.item == "buckets"] == [(4, 4)]


def test_packs_are_found_beside_the_program() -> None:
    assert (shipped_packs() / "catalogue" / "instruments.yaml").is_file()


def test_every_law_pack_stands_alone_with_the_catalogue() -> None:
    """Only the packs that a spec names are loaded, so none may lean on another's gear items."""
    common = {item for catalogue in shipped().catalogue for item in catalogue.model.gear}
    leaning = {
        (pack.model.jurisdiction, item)
        for pack in shipped().law
        for requirement in pack.model.requires
        for item in (requirement.item, *(key for instead in requirement.or_else for key in instead))
        if item not in common | set(pack.model.gear)
    }
    assert leaning == set()
