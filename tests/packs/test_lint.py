"""Packs are checked whole: every name, unit and reference, with file and line."""

from __future__ import annotations

from dataclasses import replace

import pytest

from plangen.packs.library import load_library, shipped_packs
from plangen.packs.lint import check_library
from plangen.packs.lint_shipped import check_shipped
from plangen.packs.model import Likelihood
from plangen.plan.draft import draft_plan
from plangen.spec.problems import InputProblems
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
    assert [str(problem) for problem in check_shipped(shipped())] == []


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


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("pack: own", "pack: waste", "'waste', the id of another pack"),
        (
            "when: vessel.built > 2000",
            "",
            "a date or a year, which `year(…)` makes a number compared with a plain number",
        ),
        ("when: trial.date > 2020", "", "a date compared with a plain number"),
    ],
)
def test_a_pack_that_takes_anothers_id_or_compares_a_date_with_a_number_is_a_fault(
    write, old: str, new: str, words: str
) -> None:
    text = RULE.replace(old, new) if new else RULE.replace("setting:", f"{old}\n    setting:")
    path = write("mine/own.yaml", text)

    def checked() -> None:
        if problems := check_library(load_library([path.parent])):
            raise InputProblems(problems)

    assert any(words in problem.found and problem.mark.line for problem in faults(checked))


def test_a_law_pack_that_takes_a_jurisdiction_that_is_not_even_loaded_is_a_fault(write) -> None:
    text = (shipped_packs() / "law" / "croatia.yaml").read_text("utf-8")
    path = write("mine/croatia.yaml", text)
    found = faults(lambda: load_library([path.parent], jurisdictions=()))
    assert any("'croatia', the id of another pack" in problem.found for problem in found)


def test_a_file_named_yml_is_a_fault(write) -> None:
    path = write("mine/own.yml", RULE)
    (problem,) = faults(lambda: load_library([path.parent]))
    assert ".yml" in problem.found
    assert problem.mark.file.endswith("own.yml")


BUILT = """vessel: {name: X, hull: motor-planing, length_hull: 9 m, built: 2001-05-01}
heads: 2
"""


def test_a_date_beside_a_number_is_no_traceback_where_the_pack_was_not_checked(write) -> None:
    text = RULE.replace("setting:", "when: vessel.built > 2000\n    setting:")
    library = load_library([write("mine/own.yaml", text).parent])
    (problem,) = faults(lambda: draft_plan(spec_from(BUILT), library))
    assert "can't be compared" in problem.found


WHOLE = (
    RULE.replace(
        "    title: Own check\n",
        "    title: Own check\n    do: Watch it drain\n    protects: A head that overflows.\n    round: head\n",
    )
    .replace(
        "checks:",
        "sources:\n  guide: {kind: handbook, by: A. Writer, title: Drains, edition: '2020'}\nchecks:",
        1,
    )
    .replace("    setting:", "    source: {id: guide, clause: p. 4}\n    setting:")
)


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("    do: Watch it drain\n", "", "own-check without do"),
        ("    round: head\n", "", "own-check without round"),
        ("Watch it drain", "Watch " + "it drain " * 12, "a line of"),
        ("kind: handbook, ", "", "a source without kind"),
        ("by: A. Writer, ", "", "a source without by"),
        (", edition: '2020'", "", "a source without edition or url"),
        ("kind: handbook", "kind: anecdote", "of grade stop, for which only anecdote speak"),
        ("{id: guide, clause: p. 4}", "common-practice", "source guide that nothing uses"),
        (
            "checks:\n",
            "instruments:\n  own-gauge: {title: Own gauge}\nchecks:\n",
            "instrument own-gauge that nothing uses",
        ),
    ],
)
def test_what_a_shipped_pack_lacks_is_said(write, old: str, new: str, words: str) -> None:
    assert old in OF_GRADE_STOP
    found = found_in_shipped(write, OF_GRADE_STOP.replace(old, new, 1))
    assert len(found) == 1
    assert words in found[0]


def test_a_shipped_pack_that_lacks_nothing_has_no_fault(write) -> None:
    assert found_in_shipped(write, OF_GRADE_STOP) == []


OF_GRADE_STOP = WHOLE.replace("    setting:", "    grade: stop\n    setting:")


def found_in_shipped(write, text: str) -> list[str]:
    """Return what is said of a pack that is held to what the shipped ones are."""
    problems = check_shipped(load_library([write("own/own.yaml", text).parent]))
    return [problem.found for problem in problems if "own.yaml" in problem.mark.file]


def test_formulas_keys_and_states_that_nothing_uses_are_said() -> None:
    library = replace(shipped(), rules=[], law=[], stores=[])
    found = "\n".join(problem.found for problem in check_shipped(library))
    for words in ("a formula that no pack", "a key of Head that", "gear item ", "plant state "):
        assert words in found


ORDER = """plant_states:
  own-valve:
    states: [open, shut]
    at_start: shut
    served_by: {open: [open]}
    changes:
      - {to: open, from: [shut], minutes: 1, do: Open it, caution: mains}
      - {to: shut, minutes: 1, do: Shut it}
settings:
  at-own-quay: {title: At her own quay, order: 9, code: Q, at: alongside, asks_for: [sea-trial]}
moves:
  - {from: alongside, to: at-own-quay, minutes: 5, do: Shift her, makes: engines running, caution: lifting}
rounds:
  own-round: {title: Own round, place: boat, order: 900, once: 5 min}
round_fallbacks:
  - {setting: at-own-quay, zone_kind: head, round: own-round}
exclusions:
  - {cautions: [aloft], beside: [lifting], where: boat, why: Nobody below.}
"""


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("at_start: shut", "at_start: ajar", "unknown state of this entry 'ajar'"),
        ("served_by: {open: [open]}", "served_by: {open: [ajar]}", "unknown state of this entry 'ajar'"),
        ("from: [shut]", "from: [open]", "no change to open from shut"),
        ("      - {to: shut, minutes: 1, do: Shut it}\n", "", "no change to shut from open"),
        ("caution: mains", "caution: main", "unknown caution 'main'"),
        ("at: alongside", "at: alongsid", "unknown setting 'alongsid'"),
        ("asks_for: [sea-trial]", "asks_for: [sea-trail]", "unknown scope 'sea-trail'"),
        ("from: alongside", "from: alongsid", "unknown setting 'alongsid'"),
        ("makes: engines running", "makes: engines runing", "unknown plant state 'engines runing'"),
        ("caution: lifting", "caution: liftin", "unknown caution 'liftin'"),
        ("once: 5 min", "once: 5 V", "a quantity of voltage for a reading in min"),
        ("zone_kind: head", "zone_kind: haed", "unknown kind of zone 'haed'"),
        ("round: own-round}", "round: own-ruond}", "unknown kind of round 'own-ruond'"),
        ("cautions: [aloft]", "cautions: [alofft]", "unknown caution 'alofft'"),
        ("beside: [lifting]", "beside: [liftin]", "unknown caution 'liftin'"),
    ],
)
def test_names_in_the_order_of_work_exist(write, old: str, new: str, words: str) -> None:
    assert old in ORDER
    assert _found_in_order(write, ORDER.replace(old, new, 1)) == [words]


def test_a_sound_order_of_work_has_no_fault(write) -> None:
    assert _found_in_order(write, ORDER) == []


def _found_in_order(write, text: str) -> list[str]:
    problems = check_library(load_library([write("own/order.yaml", text).parent]))
    return [problem.found for problem in problems if "order.yaml" in problem.mark.file]


@pytest.mark.parametrize(
    ("factor", "words"),
    [
        ({"systems": ("heds",)}, "unknown system 'heds'"),
        ({"settings": ("alongsid",)}, "unknown setting 'alongsid'"),
        ({"rounds": ("hed",)}, "unknown kind of round 'hed'"),
        ({"zone_kinds": ("haed",)}, "unknown kind of zone 'haed'"),
        ({"for_each": "enginse"}, "there is no key 'enginse' here"),
        ({"for_each": "engines", "when": "engine.hurs > 5"}, "there is no key 'hurs' here"),
        ({"when": "age(vessel.built) > 10"}, "a quantity of duration compared with a plain number"),
    ],
)
def test_names_and_units_in_factors_of_risk_exist(factor: dict[str, object], words: str) -> None:
    library = shipped()
    one = next(pack for pack in library.catalogue if pack.model.risk is not None)
    assert one.model.risk is not None
    changed = one.model.risk.model_copy(
        update={"likelihood": (Likelihood.model_validate({"times": 2, "why": "So.", **factor}),)}
    )
    pack = replace(one, model=one.model.model_copy(update={"risk": changed}))
    rest = [other for other in library.catalogue if other is not one]
    problems = check_library(replace(library, catalogue=[*rest, pack]))
    assert [problem.found for problem in problems] == [words]
