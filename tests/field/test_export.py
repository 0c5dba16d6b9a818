"""What a field page hands over comes into the findings as it was typed; what is hostile in it stays outside."""

from __future__ import annotations

import base64
import io
import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from plangen.assess.assess import assess_findings
from plangen.assess.page_verdicts import shown_otherwise
from plangen.collect.collect import Collected, collect
from plangen.collect.field_export import FieldExport, read_export
from plangen.collect.field_photos import is_photo, safe_name
from plangen.collect.returned import read_returned
from plangen.findings.blank import findings_text
from plangen.findings.model import Findings
from plangen.findings.read import read_findings
from plangen.findings.scalar import number_or_text
from plangen.folder import take_forms
from plangen.plan.yaml_text import yaml_text
from plangen.spec.problems import InputProblems
from tests.assess.building import check, expectation
from tests.collect.forms import small_plan
from tests.conftest import faults
from tests.field.boats import small


def jpeg(colour: str = "red") -> bytes:
    """A small photo."""
    out = io.BytesIO()
    Image.new("RGB", (40, 30), colour).save(out, "JPEG")
    return out.getvalue()


def row(code_of: str, typed: Any, by: str = "AM", at: str = "2027-05-14T09:00:00+02:00", **more: Any) -> dict[str, Any]:  # fmt: skip
    check, reading = code_of.split("#")
    return {"check": check, "reading": reading, "typed": typed, "by": by, "at": at, **more}


def export(*readings: Mapping[str, Any], **more: Any) -> dict[str, Any]:
    """A file of the small plan's page."""
    return {
        "format": "plangen-field/1", "boat": {"name": "Tern", "hull": "sailing-monohull", "length_hull": 12.0}, "plan": small().digest,
        "units": "metric", "attempt": 1, "device": "abcd", "readings": list(readings), **more,
    }  # fmt: skip


def read(file: Mapping[str, Any], name: str = "a.json") -> FieldExport:
    return read_export(json.dumps(file), name)


def taken(*files: Mapping[str, Any], before: str | None = None) -> tuple[Collected, Findings]:
    """Collect files, and hold that collecting them once more changes nothing."""
    plan = small()
    exports = [read(file, f"{n}.json") for n, file in enumerate(files, start=1)]
    done = collect(before or findings_text(plan), "findings.yaml", plan, exports)
    again = collect(done.text, "findings.yaml", plan, exports, done.photos.get)
    assert again.text == done.text
    return done, read_findings(done.text, "findings.yaml", plan)


def test_readings_come_with_who_when_with_what_and_remark() -> None:
    _, findings = taken(
        export(
            row("rest@house#resting-voltage", "12,70", **{"with": "own meter ± 0.1 V"}),
            row("drain@head#drains-dry", "no: drain elbow, vent hose"),
            row("steps@boat#speed-at-steps", ["4,2", None, "6"]),
            row("flare@locker#expires", "14.3.2030"),
            lines=[{"check": "drain@head", "note": "drips", "photos": [], "by": "AM", "at": "2027-05-14T09:01:00+02:00"}],
        )
    )  # fmt: skip
    (rest,) = findings.attempts("rest@house")
    assert (rest.found, rest.with_) == (
        {"resting-voltage": "12,70"},
        {"resting-voltage": "own meter ± 0.1 V"},
    )
    assert (rest.by, str(rest.when)) == ("AM", "2027-05-14")
    (drain,) = findings.attempts("drain@head")
    assert (drain.found["drains-dry"], drain.note) == ("no: drain elbow, vent hose", "drips")
    (steps,) = findings.attempts("steps@boat")
    assert steps.found["speed-at-steps"] == ["4,2", None, 6]
    judged = {check.id: check.verdict for check in assess_findings(small(), findings).checks}
    assert (judged["rest@house"], judged["drain@head"], judged["flare@locker"]) == (
        "pass",
        "fail",
        "pass",
    )


def test_two_people_come_together_and_what_differs_is_kept_twice() -> None:
    done, findings = taken(
        export(row("rest@house#resting-voltage", "12.7"), row("water@bilge#water-in-it", "no")),
        export(row("rest@house#resting-voltage", "12.2", by="BD"), row("water@bilge#water-in-it", "no", by="BD"), row("serial@engine#serial-number", "NX 7", by="BD")),
    )  # fmt: skip
    assert [one.found["resting-voltage"] for one in findings.attempts("rest@house")] == [12.7, 12.2]
    assert len(findings.attempts("water@bilge")) == 1
    assert findings.attempts("serial@engine")[0].by == "BD"
    (said,) = done.forms[1].disagreements
    assert "12.7 (AM) or 12.2 (BD)" in said


def test_readings_of_one_line_by_two_people_stand_together() -> None:
    _, findings = taken(export(row("speed@boat#wind", "8"), row("speed@boat#speed", "6.5", by="BD")))
    (check,) = [one for one in assess_findings(small(), findings).checks if one.id == "speed@boat"]
    assert check.verdict == "pass"


def test_what_another_device_read_differently_is_handed_over_too() -> None:
    _, findings = taken(export(row("rest@house#resting-voltage", "12.7", others=[{"typed": "12.1", "by": "BD", "at": "2027-05-14T10:00:00Z"}])))  # fmt: skip
    assert [(one.found["resting-voltage"], one.by) for one in findings.attempts("rest@house")] == [(12.7, "AM"), (12.1, "BD")]  # fmt: skip


def test_a_retest_is_a_second_attempt_even_on_the_same_day() -> None:
    first, _ = taken(export(row("drain@head#drains-dry", "no: vent hose")))
    again = export(row("drain@head#drains-dry", "no: vent hose"), attempt=2, earlier={"drain@head": 1})
    _, findings = taken(again, before=first.text)
    assert len(findings.attempts("drain@head")) == 2
    mended = export(row("drain@head#drains-dry", "yes"), attempt=2, earlier={"drain@head": 1})
    _, findings = taken(mended, before=first.text)
    assert [one.beside for one in findings.attempts("drain@head")] == [None, None]
    (check,) = [one for one in assess_findings(small(), findings).checks if one.id == "drain@head"]
    assert check.verdict == "pass"


def test_what_the_plan_does_not_know_is_kept_apart_and_values_of_no_unit_in_the_note() -> None:
    done, findings = taken(
        export(row("gone@boat#depth", "3 m"), row("rest@house#resting-voltage", "14 bar"), stray=[{"key": "rest@house#old", "typed": "7", "by": "AM"}])
    )  # fmt: skip
    assert findings.apart["gone@boat"][0].found == {"depth": "3 m"}
    assert findings.apart["rest@house"][0].found == {"old": 7}
    assert findings.attempts("rest@house")[0].note == "typed for resting voltage: 14 bar"
    assert len(done.forms[0].faults) == 1


def test_times_of_a_round_and_what_is_also_found() -> None:
    _, findings = taken(
        export(
            rounds=[{"round": "round-1", "number": 1, "from": "08:05", "to": "08:31", "by": "AM", "at": "2027-05-14T08:31:00Z"}],
            also_found=[{"id": "x1", "what": "cracked base", "place": "port, cockpit", "grade": "stop", "photos": [], "by": "AM", "at": "2027-05-14T09:00:00Z"}],
        )
    )  # fmt: skip
    assert findings.remarks == ("round 1: by AM; date 2027-05-14; from 08:05; to 08:31",)
    (found,) = findings.also_found
    assert (found.what, found.place, found.grade, found.by) == ("cracked base", "port, cockpit", "stop", "AM")


def test_what_was_found_beside_the_checks_is_seen_mended() -> None:
    found = {"id": "x1", "what": "cracked base", "place": "cockpit", "photos": [], "by": "AM", "at": "2027-05-14T09:00:00Z"}  # fmt: skip
    first, _ = taken(export(also_found=[found]))
    seen = {"id": "also-found@cracked-base-cockpit", "mended": True, "note": "new base", "by": "BD", "at": "2027-05-20T09:00:00Z"}  # fmt: skip
    _, findings = taken(export(also_seen=[seen], attempt=2), before=first.text)
    assert str(findings.also_found[0].mended) == "2027-05-20"
    assert any("new base" in remark for remark in findings.remarks)


def with_photos(*photos: tuple[str, bytes], names: list[str]) -> dict[str, Any]:
    listed = [{"name": name, "type": "image/jpeg", "data": base64.b64encode(content).decode()} for name, content in photos]  # fmt: skip
    line = {"check": "rest@house", "note": "", "photos": names, "by": "AM", "at": "2027-05-14T09:00:00Z"}
    return export(lines=[line], photos=listed)


def test_photos_go_under_safe_names_and_never_over_one_another(tmp_path: Path) -> None:
    folder = tmp_path / "tern"
    folder.mkdir()
    (folder / "plan.yaml").write_text(yaml_text(small().plain(), "plan"), encoding="utf-8")
    one = read(with_photos(("1.1-1-abcd.jpg", jpeg()), ("../../../evil.jpg", jpeg("blue")), names=["1.1-1-abcd.jpg", "../../../evil.jpg"]))  # fmt: skip
    other = read(with_photos(("1.1-1-abcd.jpg", jpeg("green")), names=["1.1-1-abcd.jpg"]), "b.json")
    take_forms(folder, [one])
    take_forms(folder, [other])
    take_forms(folder, [one, other])
    kept = {path.name: path.read_bytes() for path in (folder / "photos").iterdir()}
    assert sorted(kept.values()) == sorted((jpeg(), jpeg("blue"), jpeg("green")))
    assert {"1.1-1-abcd.jpg", "evil.jpg"} < set(kept)
    assert {path.name for path in tmp_path.iterdir()} == {"tern"}
    findings = read_findings((folder / "findings.yaml").read_text(encoding="utf-8"), "findings.yaml", small())
    assert {name for one in findings.attempts("rest@house") for name in one.photos} == set(kept)


@pytest.mark.parametrize("content", [b"", b"GIF89a", b"\xff\xd8\xff", jpeg()[:60], b"<svg onload=alert(1)>", b"\xff\xd8\xff\xe0" + b"\0" * 200])  # fmt: skip
def test_what_is_no_photo_is_left_out_and_said(content: bytes) -> None:
    assert not is_photo(content)
    done = collect(findings_text(small()), "findings.yaml", small(), [read(with_photos(("a.jpg", content), names=["a.jpg"]))])  # fmt: skip
    assert not done.photos
    assert len(done.forms[0].faults) == 2


@given(st.text(max_size=120))
def test_every_photo_name_is_made_safe(name: str) -> None:
    safe = safe_name(name)
    assert "/" not in safe
    assert "\\" not in safe
    assert safe.endswith(".jpg")
    assert not safe.startswith(".")
    assert safe.isascii()
    assert len(safe) <= 84


@pytest.mark.parametrize(
    "text",
    ["", "{", "[]", "null", '{"format": "plangen-field/1"}', '{"format": "plangen-field/2", "boat": {}, "plan": "a"}',
     "[" * 100_000, '{"a":' * 100_000, '{"format": "plangen-field/1", "boat": {"name": "Tern"}, "plan": NaN}', "9" * 10_000, "[" + "{}," * 1_000_001 + "{}]"],
    ids=lambda text: text[:12] or "nothing",
)  # fmt: skip
def test_what_is_no_file_of_a_page_is_refused(text: str) -> None:
    (problem,) = faults(lambda: read_export(text, "x.json"))
    assert problem.mark.file == "x.json"


def test_a_file_of_another_boat_is_refused() -> None:
    other = export(row("rest@house#resting-voltage", "12.7")) | {"plan": "b" * 64, "boat": {"name": "Gull"}}
    with pytest.raises(InputProblems, match="another boat"):
        taken(other)


def test_a_file_of_another_version_of_the_plan_is_taken_and_to_be_looked_at_again() -> None:
    done, findings = taken(export(row("rest@house#resting-voltage", "12.7")) | {"plan": "b" * 64})
    assert findings.second_look == ("rest@house",)
    assert done.forms[0].other_plan == "bbbbbbbb"


def test_a_page_in_us_units_keeps_them_behind_its_numbers() -> None:
    flow = check("flow@tap", expectation("flow", unit="L/min", low=8.0))
    file = export(row("flow@tap#flow", "2.9")) | {"units": "us"}
    for units, found in (("metric", "2.9 gal/min"), ("us", 2.9)):
        planned = small_plan(flow, digest=small().digest).model_copy(update={"units": units})
        done = collect(findings_text(planned), "findings.yaml", planned, [read(file)])
        kept = read_findings(done.text, "findings.yaml", planned)
        assert kept.attempts("flow@tap")[0].found == {"flow": found}


@pytest.mark.parametrize("name", ["a.json", "a.txt", "standard input"])
def test_json_and_text_are_both_taken(name: str) -> None:
    content = json.dumps(export(row("rest@house#resting-voltage", "12.7"))).encode()
    assert isinstance(read_returned(content, name), FieldExport)


JUNK = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.text(max_size=20),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.sampled_from(("check", "reading", "typed", "by", "at", "photos", "name", "data", "others", "key", "x")), inner, max_size=5),
    max_leaves=12,
)  # fmt: skip


@settings(max_examples=60, deadline=None)
@given(st.dictionaries(st.sampled_from(("readings", "lines", "rounds", "also_found", "stray", "photos", "earlier", "attempt", "units", "boat")), JUNK))  # fmt: skip
def test_any_junk_in_a_file_is_refused_or_taken_and_never_breaks(junk: dict[str, Any]) -> None:
    text = json.dumps(export() | junk)
    try:
        file = read_export(text, "junk.json")
        done = collect(findings_text(small()), "findings.yaml", small(), [file])
    except InputProblems:
        return
    read_findings(done.text, "findings.yaml", small())


TYPED = st.text(st.characters(exclude_categories=("Cs",)), min_size=1, max_size=30).filter(lambda text: text.strip())  # fmt: skip


@settings(max_examples=50, deadline=None)
@given(TYPED, TYPED, TYPED)
def test_every_typed_character_is_in_the_findings(reading: str, note: str, what: str) -> None:
    line = {"check": "serial@engine", "note": note, "photos": [], "by": "AM", "at": "2027-05-14T09:00:00Z"}
    found = {"id": "x1", "what": what, "place": "", "grade": "", "photos": [], "by": "AM", "at": ""}
    _, findings = taken(export(row("serial@engine#serial-number", reading), lines=[line], also_found=[found]))  # fmt: skip
    (attempt,) = findings.attempts("serial@engine")
    assert attempt.found["serial-number"] == number_or_text(reading.strip())
    assert attempt.note == note.strip()
    assert findings.also_found[0].what == what.strip()


def test_a_verdict_that_the_page_showed_otherwise_is_said() -> None:
    right, wrong = row("rest@house#resting-voltage", "12.7", shown="pass"), row("water@bilge#water-in-it", "yes", shown="pass")  # fmt: skip
    (said,) = shown_otherwise(small(), read(export(right, wrong)))
    assert "water in it: pass there, fail here" in said
