"""The printed report: every part is there, text is escaped, charts and photos hold what they should."""

from __future__ import annotations

import io
import xml.etree.ElementTree as ElementTree
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest
from PIL import Image
from pypdf import PdfReader

from plangen.assess.assess import assess_findings
from plangen.assess.model import Assessment, ReadingVerdict
from plangen.findings.model import Findings
from plangen.plan.gear.lines import Demand, GearLine
from plangen.plan.model import Cited, Plan, SettingSummary, SourceLine
from plangen.print.charts import Chart, ChartPoint, chart_svg, ticks
from plangen.print.html import Document
from plangen.print.pdf import write_pdf
from plangen.print.photos import Photo, data_uri, load_photos
from plangen.print.report.document import report_html
from plangen.print.report.plates import photo_names
from plangen.print.report.wording import found_text
from tests.assess.building import check, expectation, findings, instrument, plan, series

SVG = "{http://www.w3.org/2000/svg}"
SETTINGS = (SettingSummary(setting="alongside", title="Alongside", checks=1, minutes=5),)
HOSTILE = '<script>alert(1)</script> & "'


def trial() -> tuple[Plan, Findings]:
    """A trial in which each kind of outcome comes up."""
    gear = GearLine(
        item="anchor", title="Anchor", group="deck", quantity=2, strength="required", aboard=1, shortfall=1,
        demands=(Demand(jurisdiction="somewhere", requirement="anchor", quantity=2, strength="required", clause="rule 7", known_by="read"),),
    )  # fmt: skip
    planned = plan(
        check("stop@gas", expectation("tight", text="yes", source=Cited(id="norm", clause="4.2", known_by="read")), grade="stop"),
        check("hand@pump", expectation("flow", unit="L/min", low=10.0, shown="≥ 10 L/min"), grade="before-handover"),
        check("date@tap", expectation("drip", text="no")),
        check("close@tank", expectation("level", unit="L", low=100.0, instrument="meter", shown="≥ 100 L")),
        check("two@helm", expectation("angle", unit="°", low=30.0, shown="≥ 30 °")),
        check("curve@engine", series("fuel rate", {1000.0: (1.0, 2.0), 2000.0: (3.0, 4.0)}, unit="L/h", series_unit="rpm")),
        check("serial@pump", expectation("serial number", record="serial-number", shown="record")),
        check("absent@boat", expectation("there", text="yes")),
        check("begun@boat", expectation("first", text="yes"), expectation("second", text="yes")),
        check("later@boat", expectation("there", text="yes"), title="Still waiting"),
        kit=[instrument("meter", title="Dip stick", unit="L", accuracy_fixed=2.0)],
    ).model_copy(update={"settings": SETTINGS, "gear": (gear,), "sources": (SourceLine(id="norm", title="A norm", known_by="read"),)})  # fmt: skip
    found = findings(
        {
            "stop@gas": [{"found": {"tight": "no"}, "by": "AL", "when": "2027-05-14", "note": HOSTILE, "photos": ["hose.jpg", "gone.jpg"]}],
            "hand@pump": [{"found": {"flow": 8}}, {"found": {"flow": "12 L/min"}, "when": "2027-05-20", "by": "BO"}],
            "date@tap": {"drip": True},
            "close@tank": {"level": 101},
            "two@helm": [{"found": {"angle": 31}, "by": "AL"}, {"found": {"angle": 35}, "by": "BO", "beside": 1}],
            "curve@engine": {"fuel-rate": [1.5, 4.5]},
            "serial@pump": {"serial-number": "SN-4711"},
            "absent@boat": [{"does_not_apply": "she has no such thing"}],
            "begun@boat": [{"found": {"first": "yes"}, "note": "rain came on"}],
        },
        {
            "stop@gas": {"settlement": "disputed", "who": "yard"},
            "date@tap": {"settlement": "mended-by-date", "due": "2027-06-01", "sum": "1 250.00 EUR"},
        },
        second_look=("date@tap",),
    )  # fmt: skip
    return planned, found


@cache
def assessed() -> tuple[Plan, Assessment]:
    planned, found = trial()
    return planned, assess_findings(planned, found)


@cache
def printed() -> tuple[bytes, str]:
    planned, assessment = assessed()
    pdf = write_pdf(Document(report_html(planned, assessment), "style.css"), planned.digest)
    return pdf, " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages).split())


@pytest.mark.parametrize(
    "words",
    [
        "Handover is not advisable: 1 snag",
        "1 250.00 EUR",
        "to be mended by the day, a sum held back",
        "disputed",
        "attempt 1: fail; attempt 2: pass, 2027-05-20, BO",
        "[1] 4.2",
        "A norm",
        "Two people found different things",
        "31 (AL) or 35 (BO)",
        "Too close to call",
        "Dip stick",
        "To look at again",
        "Expected against found",
        "serial number: SN-4711",
        "rule 7",
        "she has no such thing",
        "rain came on",
        "second",
        "Still waiting",
        "For the seller or yard",
    ],
)
def test_every_part_of_the_report_is_printed(words: str) -> None:
    assert words in printed()[1]


def test_the_same_assessment_gives_the_same_bytes() -> None:
    planned, assessment = assessed()
    assert write_pdf(Document(report_html(planned, assessment), "style.css"), planned.digest) == printed()[0]


def test_what_people_typed_is_escaped() -> None:
    html = report_html(*assessed())
    assert HOSTILE not in html
    assert "&lt;script&gt;" in html


def test_nothing_filled_in_is_still_a_report() -> None:
    planned, _ = trial()
    html = report_html(planned, assess_findings(planned, findings({})))
    assert "Nothing was found yet" in html
    assert "Nothing that was done has failed" in html


def test_a_value_typed_in_another_unit_is_shown_in_the_plans_too() -> None:
    """NIST SP 811, B.8: t/°C = (t/°F - 32)/1.8, so 50 °F is 10 °C."""
    reading = ReadingVerdict(
        id="r", reading="r", expected="≤ 50 °F", found="10 °C", value=10.0, unit="°C", verdict="pass", source=Cited(id="x")
    )  # fmt: skip
    assert found_text(reading, "us") == "10 °C [50 °F]"
    assert found_text(reading, "metric") == "10 °C"


def chart(*points: ChartPoint) -> ElementTree.Element:
    return ElementTree.fromstring(str(chart_svg(Chart("T & t", "<s>", "rpm", "L/h", points))))


def test_a_chart_marks_each_value_by_its_verdict() -> None:
    drawn = chart(
        ChartPoint(1000, 1.5, 1, 1.5, 2, "pass"),
        ChartPoint(2000, 4.1, 3, 3.5, 4, "leaning-fail"),
        ChartPoint(3000, 9.0, 5, 6.0, 7, "fail"),
    )
    fills = [circle.get("fill") for circle in drawn.findall(f"{SVG}circle")]
    assert fills == ["#000", "#fff"]
    crosses = [path for path in drawn.findall(f"{SVG}path") if path.get("stroke-width") == "2.2"]
    assert len(crosses) == 1
    assert drawn.findtext(f"{SVG}title") == "T & t, <s>"


def test_a_chart_draws_limits_that_are_missing_in_places() -> None:
    drawn = chart(ChartPoint(0, 1.0), ChartPoint(10, None, 2.0), ChartPoint(20, 3.0, None, None, 4.0))
    shaded = [path for path in drawn.findall(f"{SVG}path") if path.get("fill") == "#e2e2e2"]
    assert len(shaded) == 1
    assert len(drawn.findall(f"{SVG}circle")) == 2


def test_one_point_alone_can_be_drawn() -> None:
    assert len(chart(ChartPoint(5, 0.0, 0.0, 0.0, 0.0, "pass")).findall(f"{SVG}circle")) == 1


@pytest.mark.parametrize(("low", "high"), [(0, 1), (-5, 5), (0.001, 0.0013), (12, 12), (0, 0), (-3e6, 4e6)])
def test_ticks_rise_evenly_and_enclose_the_range(low: float, high: float) -> None:
    found = ticks(low, high)
    steps = [b - a for a, b in pairwise(found)]
    assert min(steps) > 0
    assert max(steps) - min(steps) < 1e-6 * max(steps)
    assert found[0] - steps[0] * 0.04 <= low <= high <= found[-1] + steps[0] * 0.04
    assert 2 <= len(found) <= 12


def camera_picture(orientation: int, kind: str = "JPEG") -> bytes:
    """A picture 200 by 100 as a camera held upright stores it: what is up lies at the left."""
    picture = Image.new("RGB", (200, 100), "blue")
    picture.paste("red", (0, 0, 100, 100))
    exif = picture.getexif()
    exif[274] = orientation
    exif[271] = "a maker"
    out = io.BytesIO()
    picture.save(out, kind, exif=exif)
    return out.getvalue()


def decoded(uri: str) -> Image.Image:
    import base64

    return Image.open(io.BytesIO(base64.b64decode(uri.removeprefix("data:image/jpeg;base64,"))))


@pytest.mark.parametrize(
    ("orientation", "size", "top"),
    [(1, (200, 100), "either"), (6, (100, 200), "red"), (8, (100, 200), "blue"), (3, (200, 100), "either")],
)
def test_photos_are_turned_as_the_camera_was_held(orientation: int, size: tuple[int, int], top: str) -> None:
    """Exif 2.3, 4.6.4: orientation 6 has row 0 at the right and column 0 at the top, 8 has it at the left, bottom."""
    upright = decoded(data_uri(camera_picture(orientation)))
    assert upright.size == size
    red, _, blue = upright.getpixel((size[0] // 2, 10))  # type: ignore[misc]
    assert top == "either" or (top == "red") == (red > blue)
    if orientation == 3:
        assert upright.getpixel((10, 50))[2] > 200  # type: ignore[index]


def test_photos_lose_what_the_camera_wrote_into_them() -> None:
    assert b"a maker" in camera_picture(1)
    assert not decoded(data_uri(camera_picture(1))).getexif()


def test_photos_are_scaled_down_and_transparency_is_white() -> None:
    picture = Image.new("RGBA", (3000, 1500), (0, 0, 0, 0))
    out = io.BytesIO()
    picture.save(out, "PNG")
    shown = decoded(data_uri(out.getvalue()))
    assert shown.size == (900, 450)
    assert shown.getpixel((5, 5)) == (255, 255, 255)


@pytest.mark.parametrize(
    "content", [b"", b"no picture", b"<svg xmlns='http://www.w3.org/2000/svg'/>", camera_picture(1)[:300]]
)
def test_what_is_no_picture_is_refused(content: bytes) -> None:
    with pytest.raises(ValueError, match="no picture"):
        data_uri(content)


def test_photos_come_from_the_boats_folder_only(tmp_path: Path) -> None:
    boat = tmp_path / "boat"
    (boat / "photos").mkdir(parents=True)
    (tmp_path / "outside.jpg").write_bytes(camera_picture(1))
    (boat / "photos" / "a.jpg").write_bytes(camera_picture(1))
    (boat / "b.jpg").write_bytes(camera_picture(1))
    (boat / "link.jpg").symlink_to(tmp_path / "outside.jpg")
    (boat / "broken.jpg").write_bytes(b"nothing")
    names = ["a.jpg", "photos/a.jpg", "b.jpg", "../outside.jpg", str(tmp_path / "outside.jpg"), "link.jpg", "broken.jpg", "x\0y", "photos"]  # fmt: skip
    found = load_photos(boat, names)
    assert [name for name in names if found[name].picture] == ["a.jpg", "photos/a.jpg", "b.jpg"]
    assert found["broken.jpg"].why_not.startswith("no picture")
    assert found["../outside.jpg"].why_not == "not in the folder"


def test_photos_are_printed_where_they_are_and_named_where_they_are_not() -> None:
    planned, assessment = assessed()
    assert photo_names(assessment) == ("hose.jpg", "gone.jpg")
    photos = {
        "hose.jpg": Photo("hose.jpg", data_uri(camera_picture(6))),
        "gone.jpg": Photo("gone.jpg", why_not="not in the folder"),
    }
    pages = PdfReader(
        io.BytesIO(
            write_pdf(Document(report_html(planned, assessment, "letter", photos), "style.css"), "0" * 64)
        )
    ).pages
    assert {image.image.size for page in pages for image in page.images if image.image} == {(100, 200)}
    assert any("gone.jpg (not in the folder)" in page.extract_text() for page in pages)


@pytest.mark.parametrize(
    "url", ["data:image/svg+xml;base64,PHN2Zy8+", "data:text/css,p{}", "DATA:image/jpeg;base64,AA==", "file:///etc/hostname"]
)  # fmt: skip
def test_the_printer_takes_no_other_data_than_pictures(url: str, caplog: pytest.LogCaptureFixture) -> None:
    html = f'<!doctype html><title>x</title><p>text</p><img src="{url}">'
    write_pdf(Document(html, "style.css"), "0" * 64)
    assert any("not one of the program's own files" in record.getMessage() for record in caplog.records)
