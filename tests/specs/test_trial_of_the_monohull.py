"""The ready findings of the used monohull: they fit her plan, and every kind of outcome comes up in them."""

from __future__ import annotations

import io
from functools import cache

from pypdf import PdfReader

from plangen.assess.assess import assess_findings
from plangen.assess.model import Assessment
from plangen.findings.read import read_findings
from plangen.packs.grades import GRADES
from plangen.plan.draft import draft_plan
from plangen.plan.model import Plan
from plangen.print.html import Document
from plangen.print.pdf import write_pdf
from plangen.print.report.document import report_html
from plangen.print.retest import retest_document
from plangen.spec.load import load_spec_file
from tests.conftest import SPECS, shipped

FINDINGS = SPECS / "monohull-trial" / "findings.yaml"


@cache
def trial() -> tuple[Plan, Assessment]:
    """Draft her as the README does and assess the ready findings."""
    library = shipped()
    plan = draft_plan(load_spec_file(SPECS / "monohull.yaml", library.zone_sets()), library, "us").plan
    return plan, assess_findings(plan, read_findings(FINDINGS.read_text("utf-8"), FINDINGS.name, plan))


def verdicts() -> list[str]:
    return [check.verdict for check in trial()[1].checks]


def test_a_third_to_a_half_of_her_checks_is_done() -> None:
    done = sum(line.done for line in trial()[1].summary)
    assert 1 / 3 <= done / len(trial()[0].checks) <= 1 / 2


def test_something_fails_in_every_grade_and_handover_is_not_advisable() -> None:
    snags = trial()[1].snags
    assert {snag.grade for snag in snags} == set(GRADES)
    assert not trial()[1].handover.advisable
    assert "handover is not advisable" in trial()[1].handover.line.lower()


def test_something_is_open_mended_accepted_and_disputed() -> None:
    snags = trial()[1].snags
    assert {snag.state for snag in snags} == {"open", "mended", "accepted", "disputed"}
    assert all(len(snag.history) > 1 for snag in snags if snag.state == "mended")


def test_the_other_outcomes_come_up_too() -> None:
    assert {"unclear", "does-not-apply", "limited"} <= set(verdicts())
    readings = [reading for check in trial()[1].checks for one in check.attempts for reading in one.readings]
    assert {"leaning-fail", "met", "not-met", "not-recorded"} <= {reading.verdict for reading in readings}
    assert any(reading.bad_parts for reading in readings)
    checks = trial()[1].checks
    assert [check for check in checks if check.disagreement]
    assert [check for check in checks if check.verdict == "not-done" and check.attempts]


def test_sums_are_in_dollars_and_a_lower_price_is_no_sum_held_back() -> None:
    """Added up by hand from the file: 1 250 + 300 + 180, and 1 400 off the price."""
    assert trial()[1].sums_held_back == {"USD": "1 730.00"}
    assert trial()[1].price_reductions == {"USD": "1 400.00"}


def test_units_are_typed_as_people_type_them() -> None:
    text = FINDINGS.read_text("utf-8")
    assert all(typed in text for typed in ("°F", "psi", "gal/h", "bar", "~"))


def test_the_report_draws_her_speed_her_fuel_her_gauges_and_her_compass() -> None:
    html = report_html(*trial())
    for words in (
        "fuel rate</figcaption>",
        "gauge at quarters</figcaption>",
        "deviation on compass heading</figcaption>",
    ):
        assert words in html
    assert html.count("<figure>") >= 6


def test_report_and_retest_are_short() -> None:
    """A report that people read through, and a retest for one morning, of more than eight snags on few pages."""
    planned, assessment = trial()
    retest = retest_document(planned, assessment)
    assert retest is not None
    pages = {
        name: len(PdfReader(io.BytesIO(write_pdf(document, planned.digest))).pages)
        for name, document in (
            ("report", Document(report_html(planned, assessment), "style.css")),
            ("retest", retest),
        )
    }
    assert pages["report"] <= 11
    assert pages["retest"] <= 3
