"""The field page in Chromium: typed, kept, handed over and taken in."""

from __future__ import annotations

import io
import json
import re
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from plangen.assess.assess import assess_findings
from plangen.assess.page_verdicts import shown_otherwise
from plangen.assess.retest import found_beside, retest_of
from plangen.collect.collect import collect
from plangen.collect.field_export import FieldExport, read_export
from plangen.collect.returned import read_returned
from plangen.findings.blank import findings_text
from plangen.findings.read import read_findings
from plangen.print.field.page import field_page
from plangen.print.field.plan_data import plan_data
from tests.assess.building import findings
from tests.field.boats import page_in, small
from tests.field.handling import PHONE, fill_in, go, handed_over, line, told, verdict


def test_a_value_is_judged_as_it_is_typed_and_kept(page: Any) -> None:
    fill_in(page)
    go(page, "round=1")
    assert line(page, "1.1").locator("input").first.input_value() == "12,6"
    assert verdict(page, "1.1").startswith("≈ too close to call, leaning good")
    assert "bad: vent hose" in verdict(page, "1.2")
    assert verdict(page, "1.3") == "✓ good"
    assert line(page, "1.2").locator("textarea").input_value() == "drips, “port” side\nsecond line"
    assert page.locator(".cautions li").all_inner_texts() == ["Pipes are hot: <b>no</b> bare hands."]
    assert page.locator("header .state").inner_text().startswith("4 of 4 done")
    go(page, "round=2")
    assert verdict(page, "2.1") == "✓ good"
    assert line(page, "2.2").locator(".mark").all_inner_texts() == ["✓", "✓", "?"]
    assert "limited by conditions" in line(page, "2.3").locator(".verdict").last.inner_text()
    go(page, "rounds")
    assert page.locator(".rounds a .state").all_inner_texts()[0].startswith("4 of 4 done")
    assert "A. Mate 4/4" in page.get_by_role("group", name="Whose rounds").inner_text()


def test_what_was_typed_comes_into_the_findings(page: Any, tmp_path: Path) -> None:
    fill_in(page)
    line(page, "2.1").locator("input[type=file]").set_input_files(
        {"name": "IMG_1.jpg", "mimeType": "image/jpeg", "buffer": camera_photo()}
    )
    page.wait_for_selector("figure img[src]")
    go(page, "found=2")
    page.fill("#what", "cracked stanchion base")
    page.get_by_role("button", name="Stop").click()
    file = handed_over(page, tmp_path / "a.json")
    assert {row["code"]: row["typed"] for row in file["readings"]} == {
        "1.1": "12,6", "1.2": "no: vent hose", "1.3": "no", "1.4": "NX 0123 <b>", "2.1": "14.3.2030",
        "2.2": ["4,2", "~5", "> 7"], "2.3a": "15 knots", "2.3b": "6.5",
    }  # fmt: skip
    export = read_export(json.dumps(file), "a.json")
    assert export.faults == ()
    assert shown_otherwise(small(), export) == ()
    done = collect(findings_text(small()), "findings.yaml", small(), [export])
    kept = read_findings(done.text, "findings.yaml", small())
    assert kept.attempts("serial@engine")[0].found == {"serial-number": "NX 0123 <b>"}
    assert kept.attempts("drain@head")[0].note == "drips, “port” side\nsecond line"
    assert kept.attempts("flare@locker")[0].photos == tuple(done.photos)
    ((name, content),) = done.photos.items()
    with Image.open(io.BytesIO(content)) as photo:
        assert (name[:4], photo.format, photo.size, dict(photo.getexif())) == (
            "2.1-",
            "JPEG",
            (1600, 800),
            {},
        )
    assert (kept.also_found[0].what, kept.also_found[0].place) == ("cracked stanchion base", "place 2")
    assert collect(done.text, "findings.yaml", small(), [export], done.photos.get).text == done.text


def camera_photo() -> bytes:
    """A photo as a camera makes one: large, and with what the camera says of it."""
    exif = Image.Exif()
    exif[0x010E] = "where it was taken"
    out = io.BytesIO()
    Image.effect_noise((2400, 1200), 40).convert("RGB").save(out, "JPEG", exif=exif)
    return out.getvalue()


@pytest.mark.parametrize("taken", ["json", "txt"])
def test_the_file_is_sent_in_the_kind_that_the_device_takes(browser: Any, tmp_path: Path, taken: str) -> None:
    device = browser.new_context(viewport=PHONE)
    device.add_init_script(
        f"""
        Object.defineProperty(navigator, 'canShare', {{value: given => given.files.every(file => file.name.endsWith('.{taken}'))}});
        Object.defineProperty(navigator, 'share', {{value: async given => {{ globalThis.sent = given.files[0]; }}}});"""
    )
    shown = device.new_page()
    shown.address = page_in(tmp_path, small())
    go(shown, "round=1")
    line(shown, "1.1").locator("input").first.fill("12.7")
    go(shown, "hand-over")
    shown.get_by_role("button", name="Send …").click()
    told(shown, "Sent.")
    name, text = shown.evaluate("sent.text().then(text => [sent.name, text])")
    assert name.endswith(f".{taken}")
    file = read_returned(text.encode(), name)
    assert isinstance(file, FieldExport)
    assert [one.typed for one in file.readings] == ["12.7"]
    go(shown, "rounds")
    assert "not handed over" not in shown.locator("#main > .state").inner_text()
    device.close()


def test_another_device_goes_on_and_nothing_is_doubled_or_overwritten(browser: Any, page: Any, tmp_path: Path) -> None:  # fmt: skip
    fill_in(page)
    handed_over(page, tmp_path / "a.json")
    device = browser.new_context(viewport=PHONE, accept_downloads=True)
    other = device.new_page()
    other.address = page.address
    go(other, "set-up")
    other.fill("#person", "B. Deckhand")
    go(other, "round=1")
    line(other, "1.1").locator("input").first.fill("12.7")
    other.wait_for_timeout(100)
    go(other, "hand-over")
    for expected in ("7 new, 0 the same, 1 that differ", "0 new, 7 the same, 1 that differ"):
        other.set_input_files("#take", tmp_path / "a.json")
        told(other, expected)
    go(other, "round=1")
    assert line(other, "1.1").locator("input").first.input_value() == "12.7"
    assert line(other, "1.1").locator(".others").inner_text().startswith("A. Mate read 12,6")
    both = handed_over(other, tmp_path / "b.json")
    (own,) = [row for row in both["readings"] if row["code"] == "1.1"]
    assert (own["typed"], own["by"], [one["typed"] for one in own["others"]]) == (
        "12.7",
        "B. Deckhand",
        ["12,6"],
    )
    device.close()
    files = [
        read_export((tmp_path / name).read_text(encoding="utf-8"), name) for name in ("a.json", "b.json")
    ]
    done = collect(findings_text(small()), "findings.yaml", small(), files)
    kept = read_findings(done.text, "findings.yaml", small())
    assert [one.found["resting-voltage"] for one in kept.attempts("rest@house")] == ["12,6", 12.7]
    assert len(kept.attempts("drain@head")) == 1


def test_what_was_typed_on_another_version_of_the_plan_is_handed_over_too(page: Any, tmp_path: Path) -> None:
    fill_in(page)
    page.address = page_in(tmp_path, small("b" * 64), "new.html")
    go(page, "hand-over")
    page.get_by_role("heading", name="Typed on plan 3f9ac41e").wait_for()
    with page.expect_download() as saved:
        page.get_by_role("button", name="Save them too").click()
    saved.value.save_as(tmp_path / "old.json")
    old = read_export((tmp_path / "old.json").read_text(encoding="utf-8"), "old.json")
    assert (old.digest, len(old.readings)) == (small().digest, 8)
    done = collect(findings_text(small("b" * 64)), "findings.yaml", small("b" * 64), [old])
    kept = read_findings(done.text, "findings.yaml", small("b" * 64))
    assert kept.attempts("rest@house")[0].found == {"resting-voltage": "12,6"}
    page.requests.clear()  # the other page's own file


def test_the_instrument_that_was_used_decides(page: Any, tmp_path: Path) -> None:
    go(page, "round=1")
    line(page, "1.1").locator("input").first.fill("12,6")
    assert verdict(page, "1.1").startswith("≈")
    page.get_by_role("button", name="Instruments and times of round 1").click()
    page.get_by_label("Multimeter, ± (0.5 % + 0.05 V)").fill("own meter ± 0.01 V")
    assert verdict(page, "1.1") == "✓ good"
    page.get_by_role("button", name="Begin").click()
    page.wait_for_timeout(100)
    file = handed_over(page, tmp_path / "a.json")
    assert (file["readings"][0]["with"], file["readings"][0]["shown"]) == ("own meter ± 0.01 V", "pass")
    assert re.fullmatch("[0-9]{2}:[0-9]{2}", file["rounds"][0]["from"])
    assert shown_otherwise(small(), read_export(json.dumps(file), "a.json")) == ()


def test_a_hostile_file_stays_text(page: Any, tmp_path: Path) -> None:
    evil = "<img src=x onerror=document.title='taken'>"
    file = {"format": "plangen-field/1", "plan": small().digest, "attempt": 1,
            "readings": [{"check": "serial@engine", "reading": "serial-number", "typed": evil, "by": evil, "at": evil, "others": [{"typed": evil, "by": evil}]}, {"check": evil, "reading": evil, "typed": evil}, None, 7],
            "also_found": [{"id": "x1", "what": evil, "photos": ["../../x.jpg", evil]}], "lines": [{"check": "serial@engine", "note": evil, "photos": ["../x.jpg"]}],
            "photos": [{"name": "../x.jpg", "type": "image/jpeg", "data": "AAAA"}, {"name": "x.jpg", "type": "image/jpeg", "data": "<svg>"}]}  # fmt: skip
    (tmp_path / "evil.json").write_text(json.dumps(file), encoding="utf-8")
    for text in ("nothing", '{"format": "x"}', json.dumps(file | {"plan": "0" * 64})):
        (tmp_path / "no.json").write_text(text, encoding="utf-8")
        go(page, "hand-over")
        page.set_input_files("#take", tmp_path / "no.json")
        told(page, re.compile("no file|belongs to plan"))
    page.set_input_files("#take", tmp_path / "evil.json")
    told(page, re.compile("[0-9] new"))
    go(page, "round=1")
    assert line(page, "1.4").locator("input").first.input_value() == evil
    assert page.locator("main img").count() == 0
    go(page, "found")
    assert evil in page.locator(".rounds").inner_text()
    out = handed_over(page, tmp_path / "out.json")
    assert [one["key"] for one in out["stray"]] == [f"{evil}#{evil}"]
    assert "taken" not in page.title()


def test_a_retest_shows_what_was_found_last_time(browser: Any, tmp_path: Path) -> None:
    tried = findings(
        {"rest@house": {"resting-voltage": "12.2"}, "water@bilge": {"water-in-it": "no"}},
        also_found=[{"what": "cracked base", "place": "cockpit", "grade": "stop"}],
    )
    assessment = assess_findings(small(), tried)
    retest = retest_of(small(), assessment)
    assert [line["id"] for line in plan_data(small(), retest)["lines"]] == ["rest@house"]
    (tmp_path / "retest.html").write_bytes(field_page(small(), retest, found_beside(assessment)))
    device = browser.new_context(viewport=PHONE, accept_downloads=True)
    shown = device.new_page()
    shown.address = (tmp_path / "retest.html").as_uri()
    go(shown, "round=1")
    assert line(shown, "1.1").locator(".last").inner_text() == "Last time: 12.2, not good"
    line(shown, "1.1").locator("input").first.fill("12.7")
    go(shown, "rounds")
    shown.get_by_role("button", name="Found beside the lines: 1").click()
    shown.get_by_role("button", name="cracked base: seen mended").click()
    file = handed_over(shown, tmp_path / "a.json")
    assert (file["attempt"], file["earlier"]) == (2, {"rest@house": 1})
    export = read_export(json.dumps(file), "a.json")
    assert [(one.id, one.mended) for one in export.seen] == [("also-found@cracked-base-cockpit", True)]
    device.close()
