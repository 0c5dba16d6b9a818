"""Page 1 and the agreement: facts instead of titles, counts that add up, sums, photos by number."""

from __future__ import annotations

import html as markup
import io
import random
import re
from pathlib import Path

import pytest
from PIL import Image
from pypdf import PdfReader

from plangen.assess.assess import assess_findings
from plangen.assess.model import Assessment
from plangen.plan.model import Plan
from plangen.print.html import Document
from plangen.print.pdf import write_pdf
from plangen.print.photos import Photo, load_photos, missing_photos
from plangen.print.report.counts import Count, checks_counted, snags_counted
from plangen.print.report.document import report_html
from plangen.print.report.plates import photo_names, plates_of
from tests.assess.building import check, expectation, findings, instrument, plan, series


def ordered(**found: object) -> tuple[Plan, Assessment]:
    """A boat of which an option was not delivered, and what else was found."""
    planned = plan(
        check("options@boat", expectation("every ordered option aboard", text="yes", shown="yes"), grade="stop", title="Every ordered option is aboard"),
        check("gas@stove", expectation("pressure", unit="bar", low=2.0, shown="≥ 2 bar"), grade="before-handover"),
        check("speed@engine", series("speed", {1000.0: (4.0, None), 2000.0: (6.0, None)}, unit="kn", series_unit="rpm"), grade="stop"),
        check("later@boat", expectation("there", text="yes", shown="yes"), grade="stop"),
    )  # fmt: skip
    planned = planned.model_copy(
        update={
            "boat": planned.boat.model_copy(
                update={"holdback": "12 000 EUR", "buyer": "B. Yer", "seller": "The Yard"}
            )
        }
    )
    return planned, assess_findings(planned, findings(dict(found)))


def words(text: str) -> str:
    """Return what is read of a page."""
    return " ".join(markup.unescape(re.sub(r"<[^>]+>", " ", text)).split())


def front_page(text: str) -> str:
    return words(text[: text.index('<section class="part" id="snag-list"')])


def test_a_reason_says_what_was_found_and_not_the_title_of_what_is_good() -> None:
    html = report_html(
        *ordered(
            **{"options@boat": [{"found": {"every-ordered-option-aboard": "no"}, "note": "no bow thruster"}]}
        )
    )
    page = front_page(html)
    assert "every ordered option aboard no : no bow thruster" in page
    assert "Every ordered option is aboard" not in page


def test_a_number_stands_beside_its_limit_and_a_curve_only_where_it_is_bad() -> None:
    found = {"gas@stove": {"pressure": "1.2 bar"}, "speed@engine": {"speed": [3.5, 6.5]}}
    page = front_page(report_html(*ordered(**found)))
    assert "pressure ≥ 2 bar 1.2 bar" in page
    assert "at 1000 rpm ≥ 4" in page
    assert "at 2000 rpm" not in page


def test_what_cannot_be_said_is_said_with_what_is_to_be_done() -> None:
    page = front_page(report_html(*ordered(**{"options@boat": {"every-ordered-option-aboard": "perhaps"}})))
    assert "Can’t be said yet." in page
    assert "every ordered option aboard: found perhaps, neither yes, no nor the words expected" in page
    assert "Not done yet, of grade stop or before handover: Test 3" in page


def test_the_contracts_sum_is_on_page_1() -> None:
    """1 250 of 12 000 EUR leave 10 750."""
    planned, _ = ordered()
    found = findings({"gas@stove": {"pressure": 1}}, {"gas@stove": {"settlement": "mended-by-date", "sum": "1 250 EUR", "due": "2027-06-01", "who": "yard"}})  # fmt: skip
    html = report_html(planned, assess_findings(planned, found))
    page = front_page(html)
    assert "Contract: may be held back 12 000" in page
    assert "Held back for snags still open 1 250" in page
    assert "Not used of the contract’s sum 10 750" in page
    agreed = words(html[html.index('id="agreement"') :])
    assert "1 June 2027 yard mends snag 1; 1 250 EUR is paid once seen mended" in agreed
    assert "B. Yer" in agreed
    assert "The Yard" in agreed
    assert "no contract advice" in agreed
    assert "the law of the place govern" in agreed


def added_up(count: Count) -> None:
    if count.parts:
        assert sum(part.number for part in count.parts) == count.number, count
    for part in count.parts:
        added_up(part)


@pytest.mark.parametrize("seed", range(60))
def test_counts_add_up_whatever_was_found(seed: int) -> None:
    chance = random.Random(seed)
    meter = instrument("meter", unit="L", accuracy_fixed=2.0)
    checks = [
        check(f"c{n}@tank", expectation("level", unit="L", low=100.0, instrument="meter", shown="≥ 100 L"), expectation("sound", text="yes", shown="yes"), grade=chance.choice(["stop", "remark"]))
        for n in range(12)
    ]  # fmt: skip
    typed: dict[str, object] = {}
    for one in checks:
        values = [
            {},
            {"level": chance.choice([50, 99, 101, 150]), "sound": chance.choice(["yes", "no", "hm"])},
            {"level": 150},
        ]
        attempts = [{"found": chance.choice(values)} for _ in range(chance.randint(0, 3))]
        if chance.random() < 0.1:
            attempts.append({"does_not_apply": "none aboard"})
        typed[one.id] = attempts
    settled = {
        one.id: {"settlement": chance.choice(["accepted", "disputed", "price-reduced", "mended-by-date"])}
        for one in checks
        if chance.random() < 0.3
    }
    also = [
        {"what": f"crack {n}", **({"mended": "2027-06-01"} if chance.random() < 0.5 else {})}
        for n in range(chance.randint(0, 3))
    ]
    apart = {"old@pump": [{"found": {"flow": 8}}]}
    planned = plan(*checks, kit=[meter])
    done = assess_findings(planned, findings(typed, settled, also_found=also, apart=apart))
    added_up(checks_counted(done))
    added_up(snags_counted(done))
    failed = {part.words: part.number for part in checks_counted(done).parts}.get("failed", 0)
    texts = [part for one in snags_counted(done).parts for part in one.parts]
    assert failed == sum(part.number for part in texts if part.words.startswith("checks that failed"))


def picture(path: Path) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    Image.new("RGB", (40, 30), "blue").save(path)


def test_a_photo_typed_as_its_number_is_found_where_only_one_can_be_meant(tmp_path: Path) -> None:
    for name in (
        "12.jpg",
        "IMG_0013.JPG",
        "14.jpg",
        "IMG_0014.jpg",
        "IMG_20270406_0015.jpg",
        "Hose.png",
        "notes 16.txt",
    ):
        picture(tmp_path / "photos" / name) if not name.endswith("txt") else (
            tmp_path / "photos" / name
        ).write_text("x")
    found = load_photos(tmp_path, ["12", "13", "14", "15", "16", "hose", "hose.jpg"])
    assert {name: photo.file for name, photo in found.items() if photo.picture} == {"12": "12.jpg", "13": "IMG_0013.JPG", "hose": "Hose.png", "hose.jpg": "Hose.png"}  # fmt: skip
    assert missing_photos(tmp_path, ["12", "14", "15"]) == {
        "14": "2 files could be meant: 14.jpg, IMG_0014.jpg",
        "15": "not in the folder",
    }
    assert found["14"].why_not == "2 files could be meant: 14.jpg, IMG_0014.jpg"
    assert found["15"].why_not == found["16"].why_not == "not in the folder"


def test_photos_are_plates_by_number_with_caption_and_page() -> None:
    planned, done = ordered(
        **{
            "gas@stove": [{"found": {"pressure": 1}, "photos": ["7", "8"], "note": "gauge"}],
            "options@boat": [{"found": {"every-ordered-option-aboard": "yes"}, "photos": ["3"]}],
        }
    )
    assert photo_names(done) == ("7", "8", "3"), "the snags' first"
    uri = "data:image/jpeg;base64,/9j/"
    photos = {
        "7": Photo("7", uri, file="IMG_7.jpg"),
        "8": Photo("8", why_not="not in the folder"),
        "3": Photo("3", uri, file="3.jpg"),
    }
    plates = plates_of(done, photos)
    assert [(one.number, one.caption) for one in plates.by_name.values()] == [
        (1, "Snag 1, stove: gauge (IMG_7.jpg)"),
        (2, "boat: Every ordered option is aboard (3.jpg)"),
    ]
    text = report_html(planned, done, "A4", photos)
    assert '<a class="to-photo" href="#photo-1">photo 1</a>' in text
    assert "8 (not in the folder)" in words(text)


def test_a_snags_photo_is_referred_to_by_its_page(tmp_path: Path) -> None:
    picture(tmp_path / "photos" / "7.jpg")
    planned, done = ordered(**{"gas@stove": [{"found": {"pressure": 1}, "photos": ["7"]}]})
    document = Document(report_html(planned, done, "A4", load_photos(tmp_path, ["7"])), "style.css")
    pages = [page.extract_text() for page in PdfReader(io.BytesIO(write_pdf(document, planned.digest))).pages]
    plate = next(number for number, text in enumerate(pages, start=1) if "Photo 1." in text)
    assert f"photo 1, page {plate}" in " ".join(pages[0].split())


def test_a_blocking_snag_of_a_check_that_left_the_plan_stays_on_page_1() -> None:
    planned, _ = ordered()
    gone = planned.checks[1]
    then = {gone.id: [{"attempts": 1, "check": gone.model_dump(mode="python")}]}
    without = planned.model_copy(update={"checks": (planned.checks[0], *planned.checks[2:])})
    done = assess_findings(
        without, findings({}, apart={gone.id: [{"found": {"pressure": 1}}]}, expected_then=then)
    )
    page = front_page(report_html(without, done))
    assert "stove (no longer in the plan)" in page
    assert "pressure ≥ 2 bar" in page


def test_a_commissioning_has_its_own_title_and_nothing_to_agree() -> None:
    planned, _ = ordered()
    yard = planned.model_copy(update={"purpose": "commissioning"})
    text = report_html(yard, assess_findings(yard, findings({"gas@stove": {"pressure": 1}})))
    assert "<title>Commissioning report: Test</title>" in text
    assert 'id="agreement"' not in text
    assert "#agreement" not in text
