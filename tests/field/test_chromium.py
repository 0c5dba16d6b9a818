"""The field page in Chromium: typed, kept, handed over, taken in, quick, shut to the network, and open to everybody."""

from __future__ import annotations

import json
import re
import socket
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from plangen.assess.assess import assess_findings
from plangen.assess.page_verdicts import shown_otherwise
from plangen.assess.retest import retest_of
from plangen.collect.collect import collect
from plangen.collect.field_export import read_export
from plangen.findings.blank import findings_text
from plangen.findings.read import read_findings
from plangen.print.field.page import field_page
from plangen.print.field.plan_data import plan_data
from tests.assess.building import findings
from tests.field.boats import large, page_in, small
from tests.field.browsers import READY, chromium, driver, kill, killable_chromium
from tests.field.test_export import jpeg

PHONE = {"width": 390, "height": 844}
TABLET = {"width": 1024, "height": 768}
#: What one keystroke may take until the verdict stands there, in milliseconds, on a machine with other work.
MEDIAN_KEY, WORST_KEY = 20.0, 150.0


@pytest.fixture(scope="module")
def play() -> Iterator[Any]:
    with driver() as running:
        yield running


@pytest.fixture(scope="module")
def browser(play: Any) -> Iterator[Any]:
    running = play.chromium.launch(executable_path=chromium(), args=["--no-sandbox"])
    yield running
    running.close()


@pytest.fixture
def page(browser: Any, tmp_path: Path) -> Iterator[Any]:
    """The small plan's page on a new telephone, of which every request and every fault is noted."""
    device = browser.new_context(viewport=PHONE, accept_downloads=True)
    shown = device.new_page()
    shown.faults = []
    shown.requests = []
    shown.on("pageerror", lambda fault: shown.faults.append(str(fault)))
    device.on("request", lambda request: shown.requests.append(request.url))
    shown.address = page_in(tmp_path, small())
    go(shown, "set-up")
    shown.fill("#person", "A. Mate")
    yield shown
    assert shown.faults == []
    assert [url for url in shown.requests if not url.startswith((shown.address, "blob:"))] == []
    device.close()


def go(page: Any, where: str) -> None:
    """Open a part of the page, as if the telephone had just been taken out again."""
    page.goto("about:blank")
    page.goto(f"{page.address}#{where}")
    page.wait_for_selector(READY)


def told(page: Any, words: Any) -> None:
    """Wait until handing over says something."""
    page.locator("#main p[role=status]", has_text=words).wait_for()


def line(page: Any, code: str) -> Any:
    return page.locator(f'[id="line-{code}"]')


def verdict(page: Any, code: str) -> str:
    return str(line(page, code).locator(".verdict").first.inner_text())


def fill_in(page: Any) -> None:
    """Type something into every kind of reading."""
    go(page, "round=1")
    line(page, "1.1").locator("input").first.fill("12,6")
    line(page, "1.2").get_by_role("button", name="drains dry: not ok").click()
    line(page, "1.2").get_by_role("button", name="vent hose is bad").click()
    line(page, "1.3").get_by_role("button", name="water in it: ok").click()
    line(page, "1.4").locator("input").first.fill("NX 0123 <b>")
    line(page, "1.2").get_by_role("button", name="Remark on 1.2").click()
    line(page, "1.2").locator("textarea").fill("drips, “port” side\nsecond line")
    go(page, "round=2")
    line(page, "2.1").locator("input").first.fill("14.3.2030")
    for number, text in enumerate(("4,2", "~5", "> 7")):
        line(page, "2.2").locator("tbody input").nth(number).fill(text)
    line(page, "2.3").locator("input").nth(0).fill("15 knots")
    line(page, "2.3").locator("input").nth(1).fill("6.5")
    page.wait_for_timeout(200)


def handed_over(page: Any, path: Path) -> dict[str, Any]:
    """Save the file, and return what it says."""
    go(page, "hand-over")
    page.wait_for_selector('#bar button:not([disabled]):has-text("Save")')
    with page.expect_download() as saved:
        page.get_by_role("button", name="Save the file").click()
    saved.value.save_as(path)
    return dict(json.loads(path.read_text(encoding="utf-8")))


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
        {"name": "IMG_1.jpg", "mimeType": "image/jpeg", "buffer": jpeg()}
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
    assert (kept.also_found[0].what, kept.also_found[0].place) == ("cracked stanchion base", "place 2")
    assert collect(done.text, "findings.yaml", small(), [export], done.photos.get).text == done.text


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


def test_nothing_reaches_the_network(page: Any) -> None:
    with socket.socket() as server:
        server.bind(("127.0.0.1", 0))
        server.listen()
        server.settimeout(0.5)
        outside = f"http://127.0.0.1:{server.getsockname()[1]}/x"
        go(page, "round=1")
        for attempt in (f"fetch('{outside}')", "fetch('plan.yaml')", f"import('{outside}.js')"):
            assert page.evaluate(f"{attempt}.then(() => 'out', () => 'blocked')") == "blocked"
        blocked = page.evaluate(
            """outside => new Promise(done => {
                const found = [];
                addEventListener('securitypolicyviolation', event => { found.push(event.violatedDirective); if (found.length === 3) done(found); });
                new Image().src = outside;
                const script = document.createElement('script'); script.textContent = 'document.title = 1'; document.body.append(script);
                navigator.sendBeacon?.(outside, 'x');
                setTimeout(() => done(found), 3000);
            })""",
            outside,
        )
        assert len(blocked) == 3
        with pytest.raises(TimeoutError):
            server.accept()
    page.requests.clear()  # those that were blocked before they left


def test_values_survive_the_killing_of_the_browser(play: Any, tmp_path: Path) -> None:
    address = page_in(tmp_path, small())
    profile = tmp_path / "profile"
    profile.mkdir()
    with killable_chromium(play, profile) as (device, process):
        shown = device.new_page()
        shown.address = address
        go(shown, "round=1")
        line(shown, "1.1").locator("input").first.press_sequentially("12,7 V")
        time.sleep(0.3)
        kill(process)
    with killable_chromium(play, profile) as (device, _):
        shown = device.new_page()
        shown.address = address
        go(shown, "round=1")
        assert line(shown, "1.1").locator("input").first.input_value() == "12,7 V"


def test_where_nothing_can_be_kept_the_page_says_so_and_still_hands_over(browser: Any, tmp_path: Path) -> None:  # fmt: skip
    device = browser.new_context(viewport=PHONE, accept_downloads=True)
    device.add_init_script(
        "IDBFactory.prototype.open = () => { throw new Error('no'); }; Storage.prototype.setItem = () => { throw new Error('no'); };"
    )
    shown = device.new_page()
    shown.address = page_in(tmp_path, small())
    go(shown, "round=1")
    assert "keeps nothing" in shown.locator("#trouble").inner_text()
    line(shown, "1.1").locator("input").first.fill("12.7")
    shown.get_by_role("button", name="Rounds").click()
    shown.get_by_role("button", name="Hand over").click()
    shown.wait_for_selector('#bar button:not([disabled]):has-text("Save")')
    with shown.expect_download() as saved:
        shown.get_by_role("button", name="Save the file").click()
    saved.value.save_as(tmp_path / "a.json")
    assert json.loads((tmp_path / "a.json").read_text(encoding="utf-8"))["readings"][0]["typed"] == "12.7"
    device.close()


def test_the_small_store_is_used_where_there_is_no_database(browser: Any, tmp_path: Path) -> None:
    device = browser.new_context(viewport=PHONE)
    device.add_init_script("IDBFactory.prototype.open = () => { throw new Error('no'); };")
    shown = device.new_page()
    shown.address = page_in(tmp_path, small())
    go(shown, "round=1")
    line(shown, "1.1").locator("input").first.fill("12.7")
    go(shown, "round=1")
    assert line(shown, "1.1").locator("input").first.input_value() == "12.7"
    device.close()


def test_a_full_store_is_said_and_what_is_on_the_page_is_handed_over(page: Any, tmp_path: Path) -> None:
    go(page, "round=1")
    page.evaluate(
        "void (IDBObjectStore.prototype.put = () => { throw new DOMException('full', 'QuotaExceededError'); })"
    )
    line(page, "1.1").locator("input").first.fill("12.7")
    page.wait_for_selector("#trouble:not([hidden])")
    assert "Not kept: the store is full" in page.locator("#trouble").inner_text()
    assert page.locator("#kept").inner_text() == "NOT KEPT"


def test_a_retest_shows_what_was_found_last_time(browser: Any, tmp_path: Path) -> None:
    tried = findings({"rest@house": {"resting-voltage": "12.2"}, "water@bilge": {"water-in-it": "no"}})
    retest = retest_of(small(), assess_findings(small(), tried))
    assert [line["id"] for line in plan_data(small(), retest)["lines"]] == ["rest@house"]
    (tmp_path / "retest.html").write_bytes(field_page(small(), retest))
    device = browser.new_context(viewport=PHONE, accept_downloads=True)
    shown = device.new_page()
    shown.address = (tmp_path / "retest.html").as_uri()
    go(shown, "round=1")
    assert line(shown, "1.1").locator(".last").inner_text() == "last time 12.2: fail"
    line(shown, "1.1").locator("input").first.fill("12.7")
    file = handed_over(shown, tmp_path / "a.json")
    assert (file["attempt"], file["earlier"]) == (2, {"rest@house": 1})
    device.close()


def test_660_checks_open_at_once_and_no_key_waits(browser: Any, tmp_path: Path) -> None:
    device = browser.new_context(viewport=PHONE)
    shown = device.new_page()
    shown.address = page_in(tmp_path, large(660))
    go(shown, "rounds")
    opened = shown.evaluate("performance.getEntriesByName('first-contentful-paint')[0].startTime")
    assert shown.locator(".rounds a").count() == 87
    go(shown, "round=1")
    assert shown.locator(".line").count() == 60
    taken = shown.evaluate(
        """() => [...document.querySelectorAll('.box input')].flatMap(field => [...'12,75'].map(key => {
            const start = performance.now();
            field.value += key;
            field.dispatchEvent(new Event('input', {bubbles: true}));
            return performance.now() - start;
        })).sort((a, b) => a - b)"""
    )
    assert len(taken) == 600
    median, worst = taken[300], taken[-1]
    print(f"open to first paint {opened:.0f} ms; a key {median:.2f} ms, at worst {worst:.1f} ms")
    assert opened < 5000
    assert median < MEDIAN_KEY
    assert worst < WORST_KEY
    device.close()


ALL = ("set-up", "rounds", "round=1", "round=2", "found=1", "hand-over")
SCREENS: dict[str, tuple[dict[str, int], dict[str, tuple[str, ...]]]] = {
    "phone": (PHONE, {"light": ALL, "sun": ("rounds", "round=1"), "dark": ("rounds", "round=1", "found=1")}),
    "tablet": (TABLET, {"light": ("rounds", "round=1", "hand-over"), "dark": ("round=2",)}),
}


@pytest.mark.parametrize("name", SCREENS)
def test_everybody_can_use_it(browser: Any, tmp_path: Path, name: str) -> None:
    size, screens = SCREENS[name]
    axe = pytest.importorskip("axe_playwright_python.sync_playwright", reason="axe-playwright-python isn't installed")  # fmt: skip
    device = browser.new_context(viewport=size | {"height": 6000})
    shown = device.new_page()
    shown.address = page_in(tmp_path, small())
    go(shown, "set-up")
    shown.fill("#person", "A. Mate")
    fill_in(shown)
    for theme, places in screens.items():
        for where in places:
            go(shown, where)
            shown.evaluate(f"document.documentElement.dataset.theme = '{theme}'")
            for name in ("Method of 1.1", "More on 1.1", "Instruments and times of round 1"):
                if where == "round=1":
                    shown.get_by_role("button", name=name).click()
            found = axe.Axe().run(shown)
            assert found.violations_count == 0, (theme, where, found.generate_report())
            small_ones = shown.evaluate(
                "() => [...document.querySelectorAll('button, a, input, textarea')].filter(e => !e.classList.contains('unseen') && e.offsetParent)"
                ".map(e => [e.textContent || e.id || e.tagName, Math.round(e.getBoundingClientRect().height), Math.round(e.getBoundingClientRect().width)])"
                ".filter(([, height, width]) => height < 48 || width < 48)"
            )
            assert small_ones == []
            assert shown.evaluate("document.documentElement.scrollWidth <= innerWidth")
    device.close()
