"""What belongs to no check: a snag like any other, in list, totals, tables and the answer."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest

from plangen.assess.assess import assess_findings
from plangen.findings.blank import findings_text
from plangen.findings.carry import carry
from plangen.findings.model import Findings
from plangen.findings.read import read_findings
from plangen.print.assessed import assessment_papers
from plangen.print.report.document import report_html
from plangen.print.snag_tables import snags_csv
from tests.assess.building import check, expectation, findings, plan
from tests.conftest import faults

RAIL = {
    "what": "loose rail",
    "place": "bow",
    "grade": "stop",
    "by": "AM",
    "when": "2027-05-10",
    "photos": ["3"],
}
PLAN = plan(check("rest@house", expectation("resting voltage", unit="V", low=12.5), grade="by-date"))


def found(*things: dict[str, object]) -> Findings:
    return findings({"rest@house": {"resting-voltage": 11.0}}, also_found=things)


def test_it_has_a_snag_number_its_grade_and_forbids_handover() -> None:
    done = assess_findings(PLAN, found(RAIL))
    assert [(s.number, s.item, s.title, s.grade, s.state) for s in done.snags] == [
        (1, "bow", "loose rail", "stop", "open"),
        (2, "house", "rest@house", "by-date", "open"),
    ]
    assert done.handover.answer == "no"
    assert done.handover.forbidding == ("also-found@loose-rail-bow",)


@pytest.mark.parametrize(
    ("more", "state", "held", "reduced", "answer"),
    [
        ({"settlement": "mended-by-date", "sum": "450.00 EUR"}, "open", {"EUR": "450.00"}, {}, "no"),
        ({"settlement": "price-reduced", "sum": "450.00 EUR"}, "accepted", {}, {"EUR": "450.00"}, "yes"),
        ({"settlement": "disputed"}, "disputed", {}, {}, "no"),
        ({"mended": "2027-06-01", "sum": "450.00 EUR"}, "mended", {}, {}, "yes"),
        ({"grade": "remark"}, "open", {}, {}, "yes"),
        ({"grade": None}, "open", {}, {}, "no"),
    ],
)
def test_settled_mended_and_graded(
    more: dict[str, object], state: str, held: dict[str, str], reduced: dict[str, str], answer: str
) -> None:
    done = assess_findings(PLAN, found({**RAIL, **more}))
    snag = next(one for one in done.snags if one.title == "loose rail")
    assert (snag.state, done.sums_held_back, done.price_reductions) == (state, held, reduced)
    assert done.handover.answer == answer
    if "grade" in more and more["grade"] is None:
        assert "no grade given" in (snag.note or "")


def test_it_stands_in_the_report_and_in_the_table() -> None:
    done = assess_findings(PLAN, found(RAIL, {**RAIL, "what": "damp"}))
    html = report_html(PLAN, done)
    cover = html[: html.index("Snag list")]
    assert "loose rail" in cover
    assert '<td class="count">2</td><td>found beside the checks</td>' in cover
    assert html.count("loose rail") >= 3
    assert "photo 3" in html
    rows = list(csv.reader(io.StringIO(snags_csv(done.snags).decode("utf-8-sig"))))
    assert ["bow", "loose rail", "", "loose rail"] in [row[1:5] for row in rows]


@pytest.mark.parametrize(
    ("more", "is_there"), [({}, True), ({"mended": "2027-06-01"}, False), ({"settlement": "accepted"}, False)]
)
def test_the_retest_asks_to_see_it_mended(tmp_path: Path, more: dict[str, object], is_there: bool) -> None:
    done = assess_findings(PLAN, findings({}, also_found=[{**RAIL, **more}]))
    papers = assessment_papers(PLAN, done, tmp_path, "A4")
    assert ("retest.pdf" in papers) == is_there
    if is_there:
        assert 'name="also/also-found@loose-rail-bow/mended"' in papers["retest.pdf"].html
        assert "<b>bow</b>: loose rail" in papers["retest.pdf"].html


def test_typed_by_hand_it_is_read_and_carried_over() -> None:
    text = (
        findings_text(PLAN)
        + "also_found:\n  - loose rail # mine\n  - what: damp\n    grade: stop\n    photos: 3\n"
    )
    read = read_findings(text, "x", PLAN)
    assert [(one.what, one.grade, one.photos) for one in read.also_found] == [
        ("loose rail", None, ()),
        ("damp", "stop", ("3",)),
    ]
    after = carry(text, "x", PLAN, PLAN).text
    assert "  - loose rail # mine\n" in after
    assert read_findings(after, "x", PLAN).also_found == read.also_found


def test_a_fault_in_it_is_named() -> None:
    text = findings_text(PLAN) + "also_found:\n  - what: damp\n    grade: grave\n  - place: bow\n"
    problems = faults(lambda: read_findings(text, "x", PLAN))
    assert [problem.mark.line for problem in problems] == [
        text[: text.index("grave")].count("\n") + 1,
        text.count("\n"),
    ]
