"""A boat's folder over drafts: items and boats renamed, other boats, other units, two commands at once."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import textwrap
import threading
from functools import cache
from pathlib import Path

import pytest

from plangen import folder as room
from plangen.assess.assess import assess_findings
from plangen.assess.model import Assessment
from plangen.findings import carry as carrying
from plangen.findings.read import read_findings
from plangen.folder import (
    FINDINGS,
    folder_of,
    perhaps_renamed,
    plan_and_findings,
    prepare,
    take_forms,
    write_draft,
)
from plangen.plan.draft import draft_plan
from plangen.plan.model import Plan
from plangen.spec.quantity import UnitSystem
from tests.collect.forms import form, small_plan
from tests.conftest import faults, shipped, spec_from

SPEC = """
vessel: {name: Tern, hull: motor-planing, length_hull: 7 m, persons: 5}
use: {registry: france, distance_from_shelter: 1 nmi}
engines: [{name: main engine, power: 80 kW, fuel: diesel, drive: shaft}]
heads: [{name: head, flush: manual}]
tanks: [{name: fuel tank, holds: fuel, capacity: 120 L}]
"""
VOLTS = "check/rest@house/reading/resting-voltage"


@cache
def planned(text: str = SPEC, units: UnitSystem = "metric") -> Plan:
    """Draft a spec with the shipped packs."""
    return draft_plan(spec_from(text), shipped(), units).plan


def drafted(tmp_path: Path, plan: Plan) -> Path:
    """Draft into a boat's folder."""
    folder = folder_of(plan, tmp_path)
    write_draft(plan, folder, {})
    return folder


def assessed(folder: Path) -> Assessment:
    """Assess what stands in a folder."""
    return assess_findings(*plan_and_findings(folder))


def fail(folder: Path, plan: Plan, item: str) -> str:
    """Let the first check of an item fail that decides on handover by a yes or no; its id."""
    check = next(
        one
        for one in plan.checks
        if one.id.endswith(f"@{item}")
        and one.grade in ("stop", "before-handover")
        and one.expect[0].text == "yes"
    )
    path = folder / FINDINGS
    lines = path.read_text(encoding="utf-8").splitlines()
    at = lines.index(f"  {check.id}:")
    lines[at + 2] += " no"
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return check.id


def test_a_renamed_item_keeps_what_was_found(tmp_path: Path) -> None:
    folder = drafted(tmp_path, planned())
    id = fail(folder, planned(), "main-engine")
    renamed = planned(SPEC.replace("{name: main engine,", "{name: port engine, formerly: main engine,"))
    written = write_draft(renamed, folder, {})
    assert written.carried is not None
    new = id.replace("main-engine", "port-engine")
    assert written.carried.renamed == {id: new}
    assert not written.carried.apart
    assert [snag.check for snag in assessed(folder).snags] == [new]


def test_an_item_that_vanished_is_said_with_the_line_to_write_and_stays_a_snag(tmp_path: Path) -> None:
    folder = drafted(tmp_path, planned())
    id = fail(folder, planned(), "main-engine")
    other = planned(SPEC.replace("main engine", "port engine"))
    written = write_draft(other, folder, {})
    assert written.carried is not None
    assert [(one.came, one.line) for one in written.carried.suggestions] == [
        ("port engine", "formerly: main engine")
    ]
    found = assessed(folder)
    assert [(snag.check, snag.in_plan, snag.state) for snag in found.snags] == [(id, False, "open")]
    assert (found.handover.answer, found.handover.forbidding) == ("no", (id,))
    assert found.summary[-1].failed == 1
    # the line written after all
    write_draft(
        planned(SPEC.replace("{name: main engine,", "{name: port engine, formerly: main engine,")), folder, {}
    )
    assert [(snag.check, snag.in_plan) for snag in assessed(folder).snags] == [
        (id.replace("main-engine", "port-engine"), True)
    ]


@pytest.mark.parametrize(
    "settled",
    ["\nsnags:\n  {id}:\n    settlement: accepted\n", "    - does_not_apply: sold with the old engine\n"],
)
def test_a_snag_whose_check_is_gone_stays_until_it_is_settled(tmp_path: Path, settled: str) -> None:
    folder = drafted(tmp_path, planned())
    id = fail(folder, planned(), "main-engine")
    write_draft(planned(SPEC.replace("main engine", "port engine")), folder, {})
    path = folder / FINDINGS
    text = path.read_text(encoding="utf-8")
    entry, then = text.partition("\n#: What was expected")[::2]
    path.write_text(
        f"{entry.rstrip()}\n{settled.format(id=id)}\n#: What was expected{then}", encoding="utf-8"
    )
    found = assessed(folder)
    assert [snag.state for snag in found.snags] == ["accepted"]
    assert found.handover.answer == "cannot-be-said"
    write_draft(planned(SPEC.replace("main engine", "port engine")), folder, {})
    assert [snag.state for snag in assessed(folder).snags] == ["accepted"]


def test_another_boat_of_the_same_name_is_refused_and_nothing_is_written(tmp_path: Path) -> None:
    folder = drafted(tmp_path, planned())
    before = (folder / FINDINGS).read_bytes()
    for stranger in (SPEC.replace("7 m", "15 m"), SPEC.replace("motor-planing", "motor-displacement")):
        (problem,) = faults(lambda text=stranger: folder_of(planned(text), tmp_path))  # type: ignore[misc]
        assert "another boat" in problem.found
        assert problem.mark.file.endswith("plan.yaml")
    assert (folder / FINDINGS).read_bytes() == before


NUMBERED = SPEC.replace("persons: 5", "persons: 5, hull_id: FR-ABC12345A627")


def test_the_hull_number_decides_whether_she_is_the_same(tmp_path: Path) -> None:
    drafted(tmp_path, planned(NUMBERED))
    assert folder_of(planned(NUMBERED.replace("7 m", "7.6 m")), tmp_path) == tmp_path / "tern"
    other = NUMBERED.replace("FR-ABC12345A627", "FR-ABC12346A627")
    (problem,) = faults(lambda: folder_of(planned(other), tmp_path))
    assert "hull id" in problem.found


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (SPEC, SPEC.replace("name: Tern,", "name: Skua, formerly: Tern,")),
        (NUMBERED, NUMBERED.replace("name: Tern,", "name: Skua,")),
    ],
)
def test_a_renamed_boat_finds_her_folder(tmp_path: Path, before: str, after: str) -> None:
    folder = drafted(tmp_path, planned(before))
    id = fail(folder, planned(before), "boat")
    assert folder_of(planned(after), tmp_path) == folder
    write_draft(planned(after), folder, {})
    assert [snag.check for snag in assessed(folder).snags] == [id]


def test_a_new_boat_gets_a_folder_of_her_own(tmp_path: Path) -> None:
    drafted(tmp_path, planned())
    assert folder_of(planned(SPEC.replace("Tern", "Skua")), tmp_path) == tmp_path / "skua"


def test_what_an_editor_saves_while_a_plan_is_written_is_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = drafted(tmp_path, planned())
    path, carry = folder / FINDINGS, carrying.carry
    calls = []

    def saving(*given: object) -> object:
        result = carry(*given)  # type: ignore[arg-type]
        if not calls:
            path.write_text("# saved meanwhile\n" + path.read_text(encoding="utf-8"), encoding="utf-8")
        calls.append(1)
        return result

    monkeypatch.setattr(carrying, "carry", saving)
    write_draft(planned(), folder, {})
    assert "# saved meanwhile" in path.read_text(encoding="utf-8")
    assert len(calls) == 2


COLLECTOR = """
import sys
from pathlib import Path
from plangen.folder import take_forms
from tests.collect.forms import form, small_plan
plan = small_plan()
print("ready", flush=True)
sys.stdin.readline()
take_forms(Path(sys.argv[1]), [form(plan, {sys.argv[2]: sys.argv[3], "check/rest@house/by": sys.argv[4]}, name=sys.argv[4])])
"""


def test_two_people_who_collect_at_once_both_find_their_forms(tmp_path: Path) -> None:
    plan = small_plan()
    folder = drafted(tmp_path, plan)
    typed = [(VOLTS, "12.7", "AL"), ("check/coolant@engine/reading/coolant", "81", "BK")]
    processes = [
        subprocess.Popen(
            [sys.executable, "-c", COLLECTOR, str(folder), *one],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            cwd=Path(__file__).resolve().parent.parent,
        )
        for one in typed
    ]
    for process in processes:
        assert process.stdout is not None
        assert process.stdout.readline() == "ready\n"
    for process in processes:
        process.communicate("go\n")
        assert process.returncode == 0
    findings = read_findings((folder / FINDINGS).read_text("utf-8"), "x", plan)
    assert findings.attempts("rest@house")[0].values == {"resting-voltage": 12.7}
    assert findings.attempts("coolant@engine")[0].values == {"coolant": 81}


def test_a_collect_during_a_draft_waits_and_loses_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    plan = small_plan()
    folder = drafted(tmp_path, plan)
    write_all, waiting = room.write_all, threading.Event()

    def slowly(*given: object) -> object:
        waiting.set()
        other.join(0.3)  # it can't end: the folder is held
        assert other.is_alive()
        return write_all(*given)  # type: ignore[arg-type]

    def collecting() -> None:
        waiting.wait()
        monkeypatch.setattr(room, "write_all", write_all)
        take_forms(folder, [form(plan, {VOLTS: "12.7"})])

    other = threading.Thread(target=collecting)
    other.start()
    monkeypatch.setattr(room, "write_all", slowly)
    write_draft(plan, folder, {})
    other.join(10)
    findings = read_findings((folder / FINDINGS).read_text("utf-8"), "x", plan)
    assert findings.attempts("rest@house")[0].values == {"resting-voltage": 12.7}


def test_findings_that_cannot_be_carried_are_said_before_anything_is_printed(tmp_path: Path) -> None:
    folder = drafted(tmp_path, planned())
    (folder / FINDINGS).write_text("boat: [", encoding="utf-8")
    assert faults(lambda: prepare(planned(), folder))
    (folder / FINDINGS).write_bytes("boat: Z\xfcrich\n".encode("latin-1"))
    assert "UTF-8" in faults(lambda: prepare(planned(), folder))[0].found


def test_a_folder_that_was_given_another_name_is_found_by_the_plan_in_it(tmp_path: Path) -> None:
    folder = drafted(tmp_path, planned())
    folder.rename(tmp_path / "surveys-2030")
    assert folder_of(planned(), tmp_path) == tmp_path / "surveys-2030"
    shutil.copytree(tmp_path / "surveys-2030", tmp_path / "copy")
    (problem,) = faults(lambda: folder_of(planned(), tmp_path))
    assert "copy, surveys-2030" in problem.found


def test_a_boat_that_is_alike_in_all_but_the_name_is_named(tmp_path: Path) -> None:
    drafted(tmp_path, planned())
    renamed = planned(SPEC.replace("Tern", "Gull"))
    assert folder_of(renamed, tmp_path) == tmp_path / "gull"
    assert perhaps_renamed(renamed, tmp_path / "gull") == (tmp_path / "tern", "Tern")
    longer = planned(SPEC.replace("Tern", "Gull").replace("7 m", "9 m"))
    assert perhaps_renamed(longer, tmp_path / "gull") is None


@pytest.mark.skipif(os.name != "posix", reason="links and modes of Unix")
def test_modes_and_links_stay(tmp_path: Path) -> None:
    folder = drafted(tmp_path, planned())
    elsewhere = tmp_path / "elsewhere.yaml"
    (folder / FINDINGS).rename(elsewhere)
    elsewhere.chmod(0o600)
    (folder / FINDINGS).symlink_to(elsewhere)
    write_draft(planned(SPEC.replace("head,", "aft head,")), folder, {})
    assert (folder / FINDINGS).is_symlink()
    assert elsewhere.stat().st_mode & 0o777 == 0o600
    assert "aft-head" in elsewhere.read_text(encoding="utf-8")


WORKER = textwrap.dedent("""
    import sys
    from pathlib import Path
    from plangen.files import hold
    path = Path(sys.argv[1]) / "count"
    for _ in range(60):
        with hold(path.parent):
            path.write_text(str(int(path.read_text()) + 1))
    """)


def test_a_folder_is_held_by_one_process_at_a_time(tmp_path: Path) -> None:
    (tmp_path / "count").write_text("0")
    several = [subprocess.Popen([sys.executable, "-c", WORKER, str(tmp_path)]) for _ in range(3)]
    assert [process.wait() for process in several] == [0, 0, 0]
    assert (tmp_path / "count").read_text() == "180"
