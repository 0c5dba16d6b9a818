"""The carried plan and the methods, read back with pypdf."""

from __future__ import annotations

import io
import re
from functools import cache

import pytest
from pypdf import PdfReader

from plangen.collect.field_names import question_field
from plangen.plan.draft import draft_plan
from plangen.plan.model import Plan
from plangen.print.carried.clipboards import method_numbers
from plangen.print.carried.document import carried_document
from plangen.print.html import Document
from plangen.print.methods.document import methods_document
from plangen.print.pdf import write_pdf
from plangen.print.questions import questions_document
from plangen.schedule.schedule import schedule
from tests.conftest import drafted, shipped, spec_from

SMALL = """
vessel: {name: "Small <b>& Bold</b>", hull: motor-planing, length_hull: 7 m, persons: 5}
use: {registry: france, distance_from_shelter: 1 nmi}
heads: [{name: head, flush: manual}]
tanks: [{name: fuel tank, holds: fuel, capacity: 120 L}]
"""


@cache
def small() -> Plan:
    """A few rounds of a small boat's plan."""
    loaded = spec_from(SMALL)
    plan = schedule(draft_plan(loaded, shipped()), loaded, shipped())
    rounds = plan.rounds[:5]
    kept = {id for one in rounds for id in one.checks}
    checks = tuple(check for check in plan.checks if check.id in kept)
    return plan.model_copy(update={"rounds": rounds, "checks": checks, "sessions": ()})


@cache
def pdf() -> bytes:
    return write_pdf(carried_document(small()), small().digest)


@cache
def methods() -> bytes:
    return write_pdf(methods_document(small()), small().digest)


@cache
def text_of(content: bytes) -> str:
    return " ".join(" ".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(content)).pages)


def test_the_same_plan_gives_the_same_bytes() -> None:
    assert write_pdf(carried_document(small()), small().digest) == pdf()


def test_metadata_bookmarks_and_structure() -> None:
    reader = PdfReader(io.BytesIO(pdf()))
    assert reader.metadata is not None
    assert reader.metadata.title == "Trial plan: Small <b>& Bold</b>"
    assert small().short_digest in str(reader.metadata.subject)
    titles = [str(entry.title) for entry in reader.outline if not isinstance(entry, list)]
    assert {"Morning briefing", "Kit to bring", "Snags"} <= set(titles)
    assert reader.trailer["/Root"]["/MarkInfo"]["/Marked"]


def test_every_page_names_the_boat_the_plan_and_its_number() -> None:
    reader = PdfReader(io.BytesIO(pdf()))
    pages = len(reader.pages)
    for number, page in enumerate(reader.pages, start=1):
        text = " ".join(page.extract_text().split())
        assert "Small <b>& Bold</b>" in text
        assert f"plan {small().short_digest}" in text
        assert re.search(rf"\b{number} of {pages}\b", text)


def test_there_is_a_field_for_each_reading_named_by_its_check() -> None:
    fields = PdfReader(io.BytesIO(pdf())).get_fields() or {}
    for check in small().checks:
        assert f"check/{check.id}/note" in fields
        for expected in check.expect:
            name = f"check/{check.id}/reading/{expected.id}"
            names = (
                [name] if not expected.series else [f"{name}/{n + 1}" for n in range(len(expected.series))]
            )
            for name in names:
                assert name in fields or {f"{name}/yes", f"{name}/no"} <= set(fields), name


def test_fields_can_be_filled_and_read_back() -> None:
    from pypdf import PdfWriter

    writer = PdfWriter(clone_from=io.BytesIO(pdf()))
    name = next(n for n in (PdfReader(io.BytesIO(pdf())).get_fields() or {}) if n.endswith("/note"))
    for page in writer.pages:
        if "/Annots" in page:
            writer.update_page_form_field_values(page, {name: "gauge sticks"}, auto_regenerate=False)
    stream = io.BytesIO()
    writer.write(stream)
    assert (PdfReader(stream).get_fields() or {})[name].value == "gauge sticks"


def test_the_gear_that_the_law_demands_is_printed_with_its_clause() -> None:
    text = text_of(methods())
    assert "The law may have changed" in text
    assert "240-2.03" in text


def test_a_boats_name_is_escaped_in_html() -> None:
    html = carried_document(small()).html
    assert "<b>& Bold" not in html
    assert "Small &lt;b&gt;&amp; Bold&lt;/b&gt;" in html


@pytest.mark.parametrize(
    "hostile", ['<img src="http://127.0.0.1:9/x.png">', '<link rel="stylesheet" href="file:///etc/hostname">']
)
def test_the_printer_fetches_nothing_but_its_own_fonts(
    hostile: str, caplog: pytest.LogCaptureFixture, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PLANGEN_CACHE", "")
    page = Document(f"<!doctype html><title>x</title><p>text</p>{hostile}", "style.css")
    content = write_pdf(page, "0" * 64)
    assert "text" in PdfReader(io.BytesIO(content)).pages[0].extract_text()
    assert any("not one of the program's own files" in record.getMessage() for record in caplog.records)


@pytest.mark.parametrize(
    ("paper", "name"), [("A4", "catamaran.yaml"), ("letter", "catamaran.yaml"), ("A4", "monohull.yaml")]
)
def test_the_questions_take_two_pages_at_most_and_say_how_many_more_there_are(paper: str, name: str) -> None:
    plan = drafted(name).plan
    reader = PdfReader(io.BytesIO(write_pdf(questions_document(plan, paper), plan.digest)))  # type: ignore[arg-type]
    assert len(reader.pages) <= 2
    text = " ".join(" ".join(page.extract_text() for page in reader.pages).split())
    asked, more = (
        int(found[1])
        for words in ("answers are asked", "more questions can wait")
        if (found := re.search(rf"([0-9]+) {words}", text))
    )
    fields = [field for field in reader.get_fields() or {} if field.startswith("question/")]
    assert len(fields) == asked
    assert asked + more == len([question for question in plan.questions if question.to == "builder"])


def test_the_builder_is_not_asked_what_the_owner_knows_and_fields_have_human_names() -> None:
    plan = drafted("monohull.yaml").plan
    for to, other in (("builder", "owner"), ("owner", "builder")):
        reader = PdfReader(io.BytesIO(write_pdf(questions_document(plan, "A4", to), plan.digest)))  # type: ignore[arg-type]
        fields = reader.get_fields() or {}
        others = {
            question_field(question.key, question.of) for question in plan.questions if question.to == other
        }
        assert not others & fields.keys()
        assert {"answered/by", "answered/date", "answered/reply"} <= fields.keys()
        named = [field for name, field in fields.items() if name.startswith("question/")]
        assert named
        assert all("?" in str(field["/TU"]) for field in named)


@pytest.mark.parametrize(("paper", "width"), [("A4", 595), ("letter", 612)])
def test_paper_sizes(paper: str, width: int) -> None:
    """ISO 216: A4 is 210 x 297 mm; ANSI/ASME Y14.1: Letter is 8.5 x 11 in; in points of 1/72 in."""
    content = write_pdf(questions_document(small(), paper), small().digest)  # type: ignore[arg-type]
    assert round(float(PdfReader(io.BytesIO(content)).pages[0].mediabox.width)) == width


def test_fonts_are_embedded_from_the_package() -> None:
    fonts = {
        str(font.get_object()["/BaseFont"])
        for page in PdfReader(io.BytesIO(pdf())).pages
        for font in page["/Resources"]["/Font"].values()
    }
    assert fonts
    assert all("Source" in name or "Plan" in name for name in fonts - {"/ZapfDingbats"}), fonts


def test_every_reading_is_on_paper_with_its_code() -> None:
    text = text_of(pdf())
    for check in small().checks:
        assert check.code in text
    codes = [expected.code for check in small().checks for expected in check.expect]
    assert len(set(codes)) == len(codes)


def test_every_rule_has_a_card_under_the_number_on_the_sheet() -> None:
    sheets, cards = text_of(pdf()), text_of(methods())
    for rule, number in method_numbers(small()).items():
        assert re.search(rf"\b{number}\b", sheets)
        assert rule in cards


def test_a_round_prints_its_cautions_at_its_head() -> None:
    text = text_of(pdf())
    for name in {name for one in small().rounds for name in one.cautions}:
        assert " ".join(small().cautions_in_short[name].split()) in text
        assert " ".join(small().cautions[name].split()) in text_of(methods())


def test_tick_boxes_can_be_drawn_by_every_viewer_and_say_what_they_are() -> None:
    """ISO 32000-1, 12.7.3.3: a field with variable text has a default appearance; 12.7.3.1: TU is its name for people."""
    widgets = [
        reference.get_object()
        for page in PdfReader(io.BytesIO(pdf())).pages
        for reference in page.get("/Annots", [])
        if reference.get_object().get("/Subtype") == "/Widget"
    ]
    ticks = [widget for widget in widgets if widget.get("/FT") == "/Btn"]
    assert ticks
    assert all("/DA" in widget for widget in widgets)
    named = [widget for widget in widgets if not str(widget["/T"]).startswith("plan/")]
    assert all(str(widget["/TU"]) != str(widget["/T"]) for widget in named)


def test_boxes_are_large_enough_for_a_pencil() -> None:
    """Boxes of 7.5 mm and ticks of 5 mm with the line around them, of 0.25 mm at each side, in points of 1/72 in."""
    for page in PdfReader(io.BytesIO(pdf())).pages:
        for reference in page.get("/Annots", []):
            widget = reference.get_object()
            if not str(widget.get("/T", "")).startswith("check/"):
                continue
            left, low, right, high = (float(x) for x in widget["/Rect"])
            least = 5.0 if widget.get("/FT") == "/Btn" else 7.5
            line = 2 * 0.25
            assert abs(high - low) * 25.4 / 72 + line >= least - 0.05, widget["/T"]
            assert abs(right - left) * 25.4 / 72 + line >= least - 0.05, widget["/T"]
