"""From a fail to a snag proved mended: assess, fill the retest without a date, collect, assess again."""

from __future__ import annotations

import io
from typing import Any

import pytest
from pypdf import PdfReader

from plangen.assess.assess import assess_findings
from plangen.assess.model import Assessment
from plangen.collect.collect import collect
from plangen.collect.field_names import also_field, reading_field, retest_field
from plangen.collect.list_lines import lines_of_text
from plangen.collect.pdf_fields import read_form
from plangen.findings.blank import findings_text
from plangen.findings.read import read_findings
from plangen.plan.model import Plan
from plangen.print.pdf import write_pdf
from plangen.print.retest import retest_document
from tests.assess.building import check, expectation
from tests.collect.forms import filled_by_pypdf, small_plan

VOLTS = check("rest@house", expectation("volts", unit="V", low=12.5, code="1.1a", shown="≥ 12.5 V"), expectation("tight", text="yes", code="1.1b", shown="yes"), code="1.1", setting="alongside", grade="stop")  # fmt: skip
PUMP = check("pump@bilge", expectation("runs", text="yes", code="1.2", shown="yes"), code="1.2", setting="alongside", grade="stop")  # fmt: skip


def boat() -> Plan:
    return small_plan(VOLTS, PUMP)


def first_round(day: str = "", by: str = "AL", extra: str = "") -> str:
    """Findings in which the battery failed and the pump was good, dated or not, and a thing beside the checks."""
    text = findings_text(boat())
    found = {"volts:": "volts: 11.9", "tight:": "tight: yes", "runs:": "runs: yes"}
    for key, value in found.items():
        text = text.replace(f"        {key}\n", f"        {value}\n")
    text = text.replace("      by:\n", f"      by: {by}\n" if by else "      by:\n")
    text = text.replace("      when:\n", f"      when: {day}\n" if day else "      when:\n")
    return text + "also_found:\n  - what: loose rail # mine\n    place: bow\n    grade: stop\n" + extra


def judged(text: str) -> Assessment:
    return assess_findings(boat(), read_findings(text, "findings.yaml", boat()))


def states(text: str) -> dict[str, str]:
    return {snag.check: snag.state for snag in judged(text).snags}


def retest_pdf(text: str) -> bytes:
    document = retest_document(boat(), judged(text))
    assert document is not None
    return write_pdf(document, boat().digest)


def filled(text: str, typed: dict[str, Any]) -> bytes:
    return filled_by_pypdf(retest_pdf(text), typed)


NEW = {reading_field(VOLTS, 0): "12.8"}
RAIL = "also-found@loose-rail-bow"


@pytest.mark.parametrize(("day", "by"), [("2027-05-14", "AL"), ("", "AL"), ("", ""), ("2027-05-14", "")])
@pytest.mark.parametrize("initials", ["", "AL", "BO"])
def test_a_corrected_reading_without_a_date_proves_the_snag_mended(day: str, by: str, initials: str) -> None:
    text = first_round(day, by)
    assert states(text) == {"rest@house": "open", RAIL: "open"}
    typed = {**NEW, **({retest_field("by"): initials} if initials else {})}
    form = read_form(filled(text, typed), "retest.pdf")
    assert form.is_retest
    after = collect(text, "findings.yaml", boat(), [form])
    attempts = read_findings(after.text, "f", boat()).checks["rest@house"]
    assert [one.found["volts"] for one in attempts] == [11.9, 12.8]
    assert attempts[-1].beside is None
    assert states(after.text)["rest@house"] == "mended"
    assert read_findings(after.text, "f", boat()).remarks == ()
    assert collect(after.text, "findings.yaml", boat(), [form]).text == after.text, (
        "merged twice, nothing changes"
    )


def test_a_second_retest_is_a_third_attempt_even_with_the_value_of_an_earlier_one() -> None:
    text = first_round()
    once = collect(
        text, "f", boat(), [read_form(filled(text, {reading_field(VOLTS, 0): "12.1"}), "r.pdf")]
    ).text
    assert states(once)["rest@house"] == "open"
    twice = collect(
        once, "f", boat(), [read_form(filled(once, {reading_field(VOLTS, 0): "11.9"}), "r2.pdf")]
    ).text
    assert [one.found["volts"] for one in read_findings(twice, "f", boat()).checks["rest@house"]] == [
        11.9,
        12.1,
        11.9,
    ]


def test_two_people_on_one_retest_who_differ_stand_beside_each_other() -> None:
    text = first_round()
    sheets = [
        read_form(filled(text, {reading_field(VOLTS, 0): value, retest_field("by"): by}), f"{by}.pdf")
        for value, by in (("12.8", "AL"), ("12.0", "BO"))
    ]
    done = collect(text, "f", boat(), sheets)
    assert [one.beside for one in read_findings(done.text, "f", boat()).checks["rest@house"]] == [
        None,
        None,
        2,
    ]
    assert done.forms[1].disagreements
    assert states(done.text)["rest@house"] == "open"


@pytest.mark.parametrize("day", ["2027-05-14", ""])
@pytest.mark.parametrize("head", ["retest\n", "retest, by AL\n"])
def test_a_line_list_headed_as_a_retest_is_the_next_attempt(day: str, head: str) -> None:
    text = first_round(day)
    listed = lines_of_text(f"{head}1.1a 12,8\n", "notes.txt")
    after = collect(text, "f", boat(), [listed])
    assert states(after.text)["rest@house"] == "mended"
    assert collect(after.text, "f", boat(), [listed]).text == after.text


@pytest.mark.parametrize(("typed_day", "stands"), [("2027-05-20", "2027-05-20"), ("", "yes")])
def test_a_thing_seen_mended_is_mended(typed_day: str, stands: str) -> None:
    text = first_round("2027-05-14")
    typed = {
        also_field(RAIL, "mended"): True,
        also_field(RAIL, "remark"): "new bolts",
        retest_field("by"): "BO",
    }
    typed |= {also_field(RAIL, "day"): typed_day} if typed_day else {}
    form = read_form(filled(text, typed), "retest.pdf")
    after = collect(text, "f", boat(), [form]).text
    assert f"    mended: {stands}\n" in after
    assert "  - what: loose rail # mine\n" in after
    assert states(after)[RAIL] == "mended"
    assert read_findings(after, "f", boat()).remarks == ("also found, loose rail, bow: new bolts by BO",)
    assert collect(after, "f", boat(), [form]).text == after


def test_the_day_at_the_head_counts_for_what_is_seen_mended() -> None:
    text = first_round()
    typed = {also_field(RAIL, "mended"): True, retest_field("date"): "2027-05-20"}
    after = collect(text, "f", boat(), [read_form(filled(text, typed), "r.pdf")]).text
    assert "    mended: 2027-05-20\n" in after


def test_a_thing_looked_at_and_not_mended_stays_open_and_its_remark_is_kept() -> None:
    text = first_round()
    after = collect(
        text, "f", boat(), [read_form(filled(text, {also_field(RAIL, "remark"): "still loose"}), "r.pdf")]
    ).text
    assert states(after)[RAIL] == "open"
    assert "also found, loose rail, bow: still loose" in read_findings(after, "f", boat()).remarks


@pytest.mark.parametrize(
    ("entry", "is_mended"),
    [("  - bent stanchion # by hand\n", True), ("  - {what: bent stanchion}\n", False)],
)
def test_a_thing_written_in_short_gets_its_day_or_a_remark(entry: str, is_mended: bool) -> None:
    text = first_round() + entry
    id = "also-found@bent-stanchion"
    after = collect(
        text, "f", boat(), [read_form(filled(text, {also_field(id, "mended"): True}), "r.pdf")]
    ).text
    assert (states(after)[id] == "mended") == is_mended
    assert ("also found, bent stanchion: seen mended" in after) != is_mended
    assert "# by hand" in after or not is_mended


def test_the_retest_shows_what_was_found_last_time_on_few_pages() -> None:
    """Eight snags take two pages; each line has a box, and what was read before it."""
    many = [
        check(f"c{n}@item {n}", expectation("volts", unit="V", low=12.5, code=f"1.{n}a", shown="≥ 12.5 V"), expectation("tight", text="yes", code=f"1.{n}b", shown="yes"), code=f"1.{n}", setting="alongside", grade="stop", title=f"Rest of battery {n}")
        for n in range(1, 9)
    ]  # fmt: skip
    planned = small_plan(*many)
    text = findings_text(planned)
    text = text.replace("        volts:\n", "        volts: 11.7\n").replace(
        "        tight:\n", "        tight: no\n"
    )
    text = text.replace(
        "      note:\n", "      note: the lugs were warm and green, the strap had worked loose\n"
    )
    done = assess_findings(planned, read_findings(text, "f", planned))
    document = retest_document(planned, done)
    assert document is not None
    pages = PdfReader(io.BytesIO(write_pdf(document, planned.digest))).pages
    words = " ".join(" ".join(page.extract_text() for page in pages).split())
    assert len(pages) <= 2
    assert words.count("11.7 V") == 8
    assert words.count("the lugs were warm and green") == 8
    assert all(reading_field(one, 0) in document.html for one in many)


def test_what_was_settled_or_good_has_no_box_on_the_retest() -> None:
    document = retest_document(boat(), judged(first_round()))
    assert document is not None
    assert reading_field(VOLTS, 0) in document.html
    assert reading_field(VOLTS, 1) not in document.html
    assert reading_field(PUMP, 0) not in document.html
