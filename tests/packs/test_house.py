"""A house file is laid over the packs: what it adds, drops, replaces and changes, and what is said of its faults."""

from __future__ import annotations

import base64
import io
from pathlib import Path

import pytest
from PIL import Image

from plangen import api
from plangen.packs.house.logo import LARGEST_LOGO
from plangen.packs.house.read import read_house
from plangen.plan.model import Plan
from tests.conftest import SPECS, faults

SPEC = """vessel: {name: X, hull: sailing-monohull, length_hull: 11 m, condition: used, built: 1990}
heads: 2
use: {registry: united-kingdom}
"""


def picture(kind: str, width: int = 3, height: int = 2) -> bytes:
    """Return a picture as the imaging library writes it."""
    stream = io.BytesIO()
    Image.new("RGB", (width, height), "red").save(stream, kind)
    return stream.getvalue()


PNG = picture("PNG")


def drafted(write, house: str, spec: str = SPEC) -> Plan:
    write("house.yaml", house)
    return api.draft(api.load_spec(write("spec.yaml", spec)))


def said(write, house: str, spec: str = SPEC) -> list[str]:
    write("house.yaml", house)
    path = write("spec.yaml", spec)
    return [str(problem) for problem in faults(lambda: api.load_spec(path))]


def check_of(plan: Plan, rule: str):
    return next((check for check in plan.checks if check.rule.endswith(f"/{rule}")), None)


def test_a_dropped_rule_is_gone_and_said_to_be_with_its_reason_and_that_it_decided(write) -> None:
    before = api.draft(api.load_spec(write("spec.yaml", SPEC)))
    assert check_of(before, "seacock-shuts-off") is not None
    plan = drafted(write, "by: A. Person\ndrop:\n  - {rule: title-and-ownership, reason: done by a notary}\n")
    assert check_of(plan, "title-and-ownership") is None
    assert plan.house is not None
    (change,) = plan.house.changes
    assert (change.rule, change.change, change.reason, change.by) == (
        "title-and-ownership", "dropped", "done by a notary", "A. Person",
    )  # fmt: skip
    assert change.was == "stop"
    assert plan.digest != before.digest


def test_a_dropped_reading_leaves_the_others(write) -> None:
    plan = drafted(
        write, "drop:\n  - {rule: seacock-shuts-off, reading: closed-dry, reason: seen elsewhere}\n"
    )
    check = check_of(plan, "seacock-shuts-off")
    assert [reading.id for reading in check.expect] == ["drips"]


def test_a_law_s_requirement_that_is_dropped_is_not_asked_and_is_said_plainly(write) -> None:
    house = "drop:\n  - {law: united-kingdom, requirement: radar-reflector, reason: one is stowed aboard}\n"
    plan = drafted(write, house)
    before = api.draft(api.load_spec(SPECS.parent / write("other/spec.yaml", SPEC)))

    def demands(one: Plan) -> int:
        return sum(d.jurisdiction == "united-kingdom" for line in one.gear for d in line.demands)

    assert demands(plan) == demands(before) - 1
    assert [change.was for change in plan.house.changes] == ["law"]


def test_a_condition_that_makes_a_stop_check_vanish_is_said_to_drop_it(write) -> None:
    house = "change: [{rule: title-and-ownership, when: vessel.length_hull > q('30 m'), reason: small boats have none}]\n"
    (change,) = drafted(write, house).house.changes
    assert (change.change, change.was) == ("dropped", "stop")
    assert change.words.endswith("1 of its 1 checks gone")


def test_limits_grade_minutes_wording_and_priority_change_and_the_new_limit_is_the_house_s(write) -> None:
    house = """letterhead: {name: Own Survey}
change:
  - {rule: seacock-shuts-off, grade: stop, minutes: 47, priority: 3, do: Shut it and look, reason: our practice}
  - {rule: seacock-shuts-off, reading: drips, at_most: "2", words: drips in a minute, reason: two are none}
"""
    plan = drafted(write, house)
    check = check_of(plan, "seacock-shuts-off")
    assert (check.grade, check.minutes, check.priority, check.do) == ("stop", 47, 3, "Shut it and look")
    drips = check.expect[0]
    assert (drips.id, drips.reading, drips.high, drips.source.id) == (
        "drips",
        "drips in a minute",
        2,
        "house",
    )
    assert [source.title for source in plan.sources if source.id == "house"] == ["House file of Own Survey"]
    words = [change.words for change in plan.house.changes]
    assert words[0].startswith("grade: before handover, now stop; minutes: ")
    assert ", now 47" in words[0]
    assert words[1] == "drips past the shut valve in a minute: 0 drips, now ≤ 2 drips; drips past the shut valve in a minute: now called drips in a minute"  # fmt: skip
    assert {change.by for change in plan.house.changes} == {"Own Survey"}


def test_a_limit_of_another_kind_takes_the_place_of_the_one_that_was_there(write) -> None:
    house = """change:
  - {rule: pressure-switch, reading: precharge, about: 1.2 bar, tolerance: 10 %, reason: our accumulators}
"""
    spec = SPEC + "fresh_water: {pumps: [{name: pump, accumulator: 2 L}]}\n"
    reading = next(
        r for r in check_of(drafted(write, house, spec), "pressure-switch").expect if r.id == "precharge"
    )
    assert (reading.low, reading.value, reading.high) == pytest.approx((1.08, 1.2, 1.32))


def test_a_replaced_rule_keeps_id_former_ids_and_cautions(write) -> None:
    house = """replace:
  - rule: seacock-shuts-off
    reason: our own way
    with:
      title: Valve
      for_each: through_hulls
      when: through_hull.seacock
      setting: alongside
      procedure: [Shut it.]
      expect: [{id: drips, reading: drips, unit: drips, at_most: "1"}]
"""
    check = check_of(drafted(write, house), "seacock-shuts-off")
    assert check.title == "Valve"
    assert check.id.startswith("seacock-shuts-off@")
    assert set(check.cautions) == {"seacock-open", "biological"}


OWN = """  - id: own-thing
    title: Own thing
    setting: alongside
    procedure: [Look.]
    expect: [{id: seen, reading: seen, is: "yes"}]
"""


def test_own_checks_stand_under_their_system_or_under_the_house_s_own(write) -> None:
    plan = drafted(write, "checks:\n" + OWN.replace("title:", "system: bilge\n    title:"))
    assert check_of(plan, "own-thing").rule == "bilge/own-thing"
    plan = drafted(write, "checks:\n" + OWN)
    assert check_of(plan, "own-thing").rule == "house/own-thing"
    assert [(one.rule, one.change) for one in plan.house.changes] == [("own-thing", "added")]


FAULTS = {
    "drop: [{rule: seacok-shuts-off, reason: why}]": (":1:9: drop[1].rule: there is no rule 'seacok-shuts-off'", "nearest: seacock-shuts-off"),
    "drop: [{rule: seacock-shuts-off@engine-intake, reason: why}]": ("there is no rule", "nearest: seacock-shuts-off"),
    "drop: [{rule: seacock-shuts-off}]": ("drop[1].reason: missing", ""),
    "drop: [{rule: seacock-shuts-off, reading: drps, reason: why}]": ("seacock-shuts-off has no reading 'drps'", "nearest: drips"),
    "drop: [{law: frnce, requirement: x, reason: why}]": ("there is no law pack 'frnce'", "nearest: france"),
    "drop: [{law: united-kingdom, requirement: radar-reflectr, reason: why}]": ("united-kingdom has no requirement", "nearest: radar-reflector"),
    "drop: [{reason: why}]": ("a drop that names no one thing", "rule with reading"),
    "change: [{rule: seacock-shuts-off, reason: why}]": ("a change that changes nothing", "minutes"),
    "change: [{rule: seacock-shuts-off, at_most: '2', reason: why}]": ("at_most without the reading that it is of", "drips"),
    "change: [{rule: seacock-shuts-off, reading: drips, minutes: 4, reason: why}]": ("minutes of a reading", "no reading: here"),
    "change: [{rule: seacock-shuts-off, reading: drips, at_most: 3 V, reason: why}]": ("change[1].at_most: a quantity of voltage for a reading in drips", ""),
    "change: [{rule: seacock-shuts-off, when: vessel.lenght_hull, reason: why}]": ("change[1].when: there is no key 'lenght_hull' here", "nearest: length_hull"),
    "change: [{rule: seacock-shuts-off, grade: halt, reason: why}]": ("change[1].grade: 'halt'", "stop, before-handover"),
    "change: [{rule: seacock-shuts-off, grad: stop, reason: why}]": ("unknown key 'grad'", "nearest: grade"),
    "change: [{rule: seacock-shuts-off, grade: stop, reason: why}, {rule: seacock-shuts-off, grade: remark, reason: why}]": ("grade of seacock-shuts-off is changed twice", ""),
    "change: [{rule: seacock-shuts-off, grade: stop, reason: why}]\ndrop: [{rule: seacock-shuts-off, reason: why}]": ("seacock-shuts-off is changed, replaced or dropped elsewhere", ""),
    "replace: [{rule: seacock-shuts-off, reason: why, with: {title: X, settng: alongside}}]": ("unknown key 'settng'", "nearest: setting"),
    "checks:\n" + OWN.replace("own-thing", "seacock-shuts-off"): ("'seacock-shuts-off', the id of a shipped rule", "`replace:`"),
    "checks:\n" + OWN.replace("title:", "system: bilges\n    title:"): ("unknown system 'bilges'", "nearest: bilge"),
    "checks:\n" + OWN.replace("setting: alongside", "setting: alongsid"): ("checks[1].setting: unknown setting 'alongsid'", "nearest: alongside"),
    "trial: {purpos: survey}": ("unknown key 'purpos'", "nearest: purpose"),
    "letterhead: {nam: X}": ("unknown key 'nam'", "nearest: name"),
    "letterhead: {name: X, logo: ../logo.png}": ("letterhead.logo: '../logo.png'", "own folder"),
    "letterhead: {name: X, logo: logo.png}": ("there is no such file", ""),
}  # fmt: skip


@pytest.mark.parametrize("house", FAULTS)
def test_a_fault_is_said_with_its_line_in_the_house_file_and_the_nearest_name(write, house: str) -> None:
    found, more = FAULTS[house]
    problems = said(write, house)
    assert len([p for p in problems if found in p and more in p]) == 1, problems
    assert all("house.yaml:" in problem for problem in problems)


def test_all_faults_of_house_file_and_spec_are_said_at_once(write) -> None:
    house = "drop: [{rule: seacok, reason: why}]\nchange:\n  - {rule: seacock-shuts-off, reading: drips, at_most: 3 V, reason: why}\n"
    problems = said(write, house, SPEC + "gas: {kind: buthane}\n")
    assert [part.split(":")[0].rsplit("/")[-1] for part in problems] == [
        "house.yaml",
        "house.yaml",
        "spec.yaml",
    ]


def test_an_id_of_before_leads_to_the_one_of_now(write) -> None:
    from tests.conftest import shipped

    rule = next(r for pack in shipped().rules for r in pack.model.checks if r.formerly)
    (problem,) = said(write, f"drop: [{{rule: {rule.formerly[0]}, reason: why}}]")
    assert "has another id by now" in problem
    assert f"nearest: {rule.id}" in problem


def test_a_dropped_rule_that_others_follow_or_draw_figures_from_is_no_fault(write) -> None:
    plan = drafted(
        write,
        "drop:\n  - {rule: through-hull-launch, reason: why}\n  - {rule: bilge-dry-baseline, reason: why}\n",
    )
    assert check_of(plan, "seacock-shuts-off") is not None


def logo_faults(write, content: bytes, name: str = "logo.png") -> list[str]:
    path = write("house.yaml", f"letterhead: {{name: X, logo: {name}}}\n")
    (path.parent / name).write_bytes(content)
    return [problem.found for problem in faults(lambda: read_house(path))]


@pytest.mark.parametrize("kind", ["PNG", "JPEG"])
def test_a_logo_is_taken_by_its_content_and_carried_in_the_plan(write, kind: str) -> None:
    path = write("house.yaml", "letterhead: {name: X, logo: logo.jpg}\n")
    (path.parent / "logo.jpg").write_bytes(picture(kind))
    plan = api.draft(api.load_spec(write("spec.yaml", SPEC)))
    logo = plan.house.letterhead.logo
    assert (logo.type, logo.width, logo.height) == (kind.lower(), 3, 2)
    assert base64.b64decode(logo.data) == picture(kind)


def test_a_logo_that_is_no_picture_too_large_or_damaged_is_a_fault(write) -> None:
    svg = b"<svg xmlns='http://www.w3.org/2000/svg'/>"
    assert "neither a PNG nor a JPEG" in logo_faults(write, svg)[0]
    assert "too large" in logo_faults(write, PNG + b"x" * LARGEST_LOGO)[0]
    assert "damaged" in logo_faults(write, PNG[:-20])[0]
    assert "damaged" in logo_faults(write, PNG[:16] + b"\0\1\0\0" + PNG[20:])[0]
    assert "damaged" in logo_faults(write, picture("PNG", 4001, 1))[0]
    assert "damaged" in logo_faults(write, picture("JPEG")[:-40])[0]
    assert "damaged" in logo_faults(write, b"\xff\xd8\xff\xe0\0\x10JFIF")[0]


def test_a_logo_is_not_fetched_through_a_link_out_of_the_folder(write, tmp_path: Path) -> None:
    outside = tmp_path / "outside.png"
    outside.write_bytes(PNG)
    path = write("inside/house.yaml", "letterhead: {name: X, logo: logo.png}\n")
    (path.parent / "logo.png").symlink_to(outside)
    assert "leads out of the folder" in faults(lambda: read_house(path))[0].found


def test_the_house_s_trial_lies_under_the_spec_s(write) -> None:
    house = "trial: {purpose: survey, people: 1, hours: 8 h}\nunits: us\n"
    plan = drafted(write, house, SPEC + "trial: {hours: 6 h}\n")
    assert plan.purpose == "survey"
    assert (plan.trial.hours, len(plan.trial.people)) == (6, 1)
    assert plan.units == "us"


def test_the_worked_house_file_of_the_survey_is_sound() -> None:
    plan = api.draft(api.load_spec(SPECS / "survey" / "sloop-1988.yaml"))
    assert plan.purpose == "survey"
    assert {change.change for change in plan.house.changes} == {"added", "dropped", "replaced", "changed"}
    assert all(change.reason and change.by for change in plan.house.changes if change.change != "added")


HOSTILE = {
    "a: &a [x, x, x, x, x, x, x, x, x]\nb: &b [*a, *a, *a, *a, *a, *a, *a, *a]\nc: &c [*b, *b, *b, *b, *b, *b, *b, *b]\nd: &d [*c, *c, *c, *c, *c, *c, *c, *c]\nterms: [*d, *d, *d, *d, *d, *d, *d, *d, *d, *d, *d, *d, *d, *d, *d, *d, *d, *d, *d, *d, *d, *d, *d, *d]": "values",
    "terms: " + "[" * 60 + "]" * 60: "",
    "change: [{rule: seacock-shuts-off, when: vessel.__class__, reason: why}]": "__class__",
    "change: [{rule: seacock-shuts-off, title: '{{ vessel.__init__.__globals__ }}', reason: why}]": "",
    "change: [{rule: seacock-shuts-off, reading: drips, at_most: 9 ** 9 ** 9, reason: why}]": "",
    "checks: !!python/object/apply:os.system [id]": "",
    "terms: [" + ", ".join(["x"] * 100) + "]": "60",
    "drop: [" + ", ".join(["{rule: seacock-shuts-off, reason: why}"] * 500) + "]": "400",
    "remarks: ['" + "x" * 5000 + "']": "1500",
    "letterhead: {name: X, logo: /etc/passwd}": "/etc/passwd",
}  # fmt: skip


@pytest.mark.parametrize("house", HOSTILE)
def test_a_house_file_that_means_harm_is_refused(write, house: str) -> None:
    problems = said(write, house)
    assert problems
    assert HOSTILE[house] in "\n".join(problems)


def test_a_house_file_in_place_of_a_spec_is_one_fault_in_words(write) -> None:
    path = write("house.yaml", "letterhead: {name: A Firm}\nunits: us\n")
    (fault,) = faults(lambda: api.load_spec(path))
    assert "a house file, which is read with each spec that lies beside it" in str(fault)
