"""The printed plan, read back with pypdf."""

from __future__ import annotations

import io
from functools import cache

import pytest
from pypdf import PdfReader

from plangen.collect.field_names import reading_names
from plangen.plan.draft import draft_plan
from plangen.plan.model import Plan
from plangen.print.html import plan_html, questions_html
from plangen.print.pdf import write_pdf
from tests.conftest import shipped, spec_from

SMALL = """
vessel: {name: "Small <b>& Bold</b>", hull: motor-planing, length_hull: 7 m, persons: 5}
use: {registry: france, distance_from_shelter: 1 nmi}
heads: [{name: head, flush: manual}]
tanks: [{name: fuel tank, holds: fuel, capacity: 120 L}]
"""


@cache
def small() -> Plan:
    return draft_plan(spec_from(SMALL), shipped()).plan


@cache
def pdf() -> bytes:
    return write_pdf(plan_html(small()), small().digest)


def test_the_same_plan_gives_the_same_bytes() -> None:
    assert write_pdf(plan_html(small()), small().digest) == pdf()


def test_metadata_bookmarks_and_structure() -> None:
    reader = PdfReader(io.BytesIO(pdf()))
    assert reader.metadata is not None
    assert reader.metadata.title == "Trial plan: Small <b>& Bold</b>"
    assert small().short_digest in str(reader.metadata.subject)
    titles = [str(entry.title) for entry in reader.outline if not isinstance(entry, list)]
    assert {"Kit to bring", "Snag sheet", "Sources"} <= set(titles)
    assert reader.trailer["/Root"]["/MarkInfo"]["/Marked"]


def test_every_page_names_the_boat_the_plan_and_its_number() -> None:
    reader = PdfReader(io.BytesIO(pdf()))
    pages = len(reader.pages)
    for number, page in enumerate(reader.pages, start=1):
        text = " ".join(page.extract_text().split())
        assert "Small <b>& Bold</b>" in text
        assert f"plan {small().short_digest}" in text
        assert f"page {number} of {pages}" in text


def test_there_is_a_field_for_each_reading_named_by_its_check() -> None:
    fields = PdfReader(io.BytesIO(pdf())).get_fields() or {}
    for check in small().checks:
        assert f"check/{check.id}/note" in fields
        for expected, slugged in zip(check.expect, reading_names(check), strict=True):
            name = f"check/{check.id}/reading/{slugged}"
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
    text = " ".join(" ".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(pdf())).pages)
    assert "The law may have changed" in text
    assert "240-2.03" in text


def test_a_boats_name_is_escaped_in_html() -> None:
    html = plan_html(small())
    assert "<b>& Bold" not in html
    assert "Small &lt;b&gt;&amp; Bold&lt;/b&gt;" in html


@pytest.mark.parametrize(
    "hostile", ['<img src="http://127.0.0.1:9/x.png">', '<link rel="stylesheet" href="file:///etc/hostname">']
)
def test_the_printer_fetches_nothing_but_its_own_fonts(
    hostile: str, caplog: pytest.LogCaptureFixture
) -> None:
    content = write_pdf(f"<!doctype html><title>x</title><p>text</p>{hostile}", "0" * 64)
    assert "text" in PdfReader(io.BytesIO(content)).pages[0].extract_text()
    assert any("not one of the program's own files" in record.getMessage() for record in caplog.records)


def test_the_page_of_questions_fits_one_page() -> None:
    reader = PdfReader(io.BytesIO(write_pdf(questions_html(small()), small().digest)))
    assert len(reader.pages) == 1
    assert small().questions[0].asks.split("?")[0][:20] in " ".join(reader.pages[0].extract_text().split())


@pytest.mark.parametrize(("paper", "width"), [("A4", 595), ("letter", 612)])
def test_paper_sizes(paper: str, width: int) -> None:
    """ISO 216: A4 is 210 x 297 mm; ANSI/ASME Y14.1: Letter is 8.5 x 11 in; in points of 1/72 in."""
    content = write_pdf(questions_html(small(), paper), small().digest)  # type: ignore[arg-type]
    assert round(float(PdfReader(io.BytesIO(content)).pages[0].mediabox.width)) == width


def test_fonts_are_embedded_from_the_package() -> None:
    fonts = {
        str(font.get_object()["/BaseFont"])
        for page in PdfReader(io.BytesIO(pdf())).pages
        for font in page["/Resources"]["/Font"].values()
    }
    assert fonts
    assert all("Source" in name or "Plan" in name for name in fonts), fonts
